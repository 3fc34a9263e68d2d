"""``spinery undo``: take back the last thing done."""

from __future__ import annotations

from argparse import Namespace

from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.words import differ_lines, step_words


def run(asked: Namespace) -> Answer:
    """Take it back."""
    with opened(asked) as shop:
        step = shop.history.undo()
    words = [f"{step_words('Taken back', step)}.", *differ_lines(step.differs)]
    return Answer(words, {"undone": step.words, "differs": list(step.differs)})


COMMAND = Command("undo", "take back the last thing done", run)
