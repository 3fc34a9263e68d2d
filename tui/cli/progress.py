"""``spinery progress``: count the games at each stage, and tell the pace."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence

from engine import Progress, Workshop
from tui.aloud import columns
from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.cli.told import told
from tui.roomwords import pace_lines
from tui.words import count, stages_told


def run(asked: Namespace) -> Answer:
    """Count them; tell the pace, what is left at it, and what fits no sheet."""
    with opened(asked) as shop:
        progress = shop.outlook(notes=shop.too_large)
    lines = [*progress.notes, *_stages(progress)]
    if progress.pace is not None and progress.games:
        lines += ["", *pace_lines(progress.pace, progress.sheets_left)]
    return Answer(lines, told(progress))


def standing(shop: Workshop, notes: Sequence[str] = ()) -> Answer:
    """Return how many games stand at each stage, after ``notes`` on what was just done."""
    progress = shop.progress(notes)
    return Answer([*notes, *_stages(progress)], told(progress))


def _stages(progress: Progress) -> list[str]:
    lines: list[str] = [
        columns(((stage, 11), (f"{number}", -5)), f"{stage}: {number}.")
        for stage, number in (*stages_told(progress).items(), ("games", progress.games))
    ]
    if progress.reprints:
        lines.append(f"{count(progress.reprints, 'game')} changed after printing, waiting again.")
    return lines


COMMAND = Command("progress", "count the games at each stage, and tell the pace", run)
