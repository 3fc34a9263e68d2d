"""``spinery redo``: do again what was taken back last."""

from __future__ import annotations

from argparse import Namespace

from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.words import differ_lines, step_words


def run(asked: Namespace) -> Answer:
    """Do it again."""
    with opened(asked) as shop:
        step = shop.history.redo()
    words = [f"{step_words('Done again', step)}.", *differ_lines(step.differs)]
    return Answer(words, {"redone": step.words, "differs": list(step.differs)})


COMMAND = Command("redo", "do again what was taken back last", run)
