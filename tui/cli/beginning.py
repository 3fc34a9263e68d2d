"""``spinery`` alone: the collection to hand, or a choice where there is none."""

from __future__ import annotations

from engine import holds_collection
from tui.cli.opening import folder_to_hand, usual_folder
from tui.cli.showing import must_draw, run_on_screen, show
from tui.terminal import at_terminal, this_terminal


def begin() -> int:
    """Open the collection to hand; at a terminal, where there is none, let the person choose.

    Return the exit code.
    Raises InputError where there is none and nobody to ask, or nothing to ask on.
    """
    if folder_to_hand() or not at_terminal():
        return show(usual_folder())
    must_draw()
    from tui.welcome import Welcome

    chosen, code = run_on_screen(Welcome(this_terminal()))
    if chosen is None:
        return code
    if chosen.demo and not holds_collection(chosen.folder):
        from tui.cli import demo

        demo.make(chosen.folder)
    return show(chosen.folder)
