"""``spinery progress``: count the games at each stage."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence

from engine import Stage, Workshop
from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.cli.told import told
from tui.words import count


def run(asked: Namespace) -> Answer:
    """Count them."""
    with opened(asked) as shop:
        return standing(shop)


def standing(shop: Workshop, notes: Sequence[str] = ()) -> Answer:
    """Return how many games stand at each stage, after ``notes`` on what was just done."""
    progress = shop.progress(notes)
    lines = [*notes]
    lines += [
        f"{stage.value:<11} {number:>5}"
        for stage, number in progress.stages.items()
        if number or stage is not Stage.UNWANTED
    ]
    lines.append(f"{'games':<11} {progress.games:>5}")
    if progress.reprints:
        lines.append(f"{count(progress.reprints, 'game')} changed after printing, waiting again.")
    return Answer(lines, told(progress))


COMMAND = Command("progress", "count the games at each stage", run)
