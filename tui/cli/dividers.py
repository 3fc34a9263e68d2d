"""``spinery dividers``: dividers before groups, and labels on shelves, printed with the rest."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from engine import DividersReport
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.told import told


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("--add", action="store_true", help="add those that are wanted to the backlog")


def run(asked: Namespace) -> Answer:
    """Tell the dividers and labels, or add those that are wanted."""
    with opened(asked) as shop:
        report = shop.dividers.add() if asked.add else shop.dividers.report()
    any_are = report.present or report.wanted
    return Answer(_words(report), told(report), DONE if any_are else NOTHING)


def _words(report: DividersReport) -> list[str]:
    lines = [f"{one.id:<24}{one.stage:<12} {one.title}" for one in report.present]
    if report.wanted:
        titles = ", ".join(one.title for one in report.wanted)
        lines.append(f"{len(report.wanted)} more wanted (--add adds them): {titles}")
    if report.stale:
        lines.append(f"Wanted no more: {', '.join(one.title for one in report.stale)}")
    return lines or ["The games stand in no groups, and no shelf or drawer is described."]


COMMAND = Command("dividers", "tell or add dividers before groups, and labels on shelves", run, add)
