"""``spinery`` alone: the collection to hand, or a choice where there is none."""

from __future__ import annotations

from engine import holds_collection
from tui.cli.answers import DONE
from tui.cli.opening import folder_to_hand, usual_folder
from tui.cli.showing import show
from tui.terminal import at_terminal, this_terminal


def begin() -> int:
    """Open the collection to hand; at a terminal, where there is none, let the person choose.

    Return the exit code.
    Raises InputError where there is none and nobody to ask.
    """
    if folder_to_hand() or not at_terminal():
        return show(usual_folder())
    from tui.welcome import Welcome

    chosen = Welcome(this_terminal()).run()
    if chosen is None:
        return DONE
    if chosen.demo and not holds_collection(chosen.folder):
        from tui.cli import demo

        demo.make(chosen.folder)
    return show(chosen.folder)
