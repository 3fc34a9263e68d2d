"""``spinery`` alone: the collection to hand, or a choice where there is none."""

from __future__ import annotations

import sys

from engine import holds_collection
from tui.cli import demo
from tui.cli.opening import folder_to_hand, show, usual_folder


def begin() -> None:
    """Open the collection to hand; at a terminal, where there is none, let the person choose.

    Raises InputError where there is none and nobody to ask.
    """
    if folder_to_hand() or not (sys.stdin.isatty() and sys.stderr.isatty()):
        show(usual_folder())
        return
    from tui.welcome import Welcome

    chosen = Welcome().run()
    if chosen is None:
        return
    if chosen.demo and not holds_collection(chosen.folder):
        demo.make(chosen.folder)
    show(chosen.folder)
