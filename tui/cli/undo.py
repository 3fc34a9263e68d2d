"""``spinery undo``: take back the last thing done."""

from __future__ import annotations

from argparse import Namespace

from tui.cli.answers import Answer, Command
from tui.cli.opening import opened


def run(asked: Namespace) -> Answer:
    """Take it back."""
    with opened(asked) as shop:
        undone = shop.undo()
    return Answer([f"Taken back: {undone}."], {"undone": undone})


COMMAND = Command("undo", "take back the last thing done", run)
