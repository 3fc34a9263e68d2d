"""``spinery dividers``: dividers before groups, and labels on shelves, printed with the rest."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.told import told
from tui.roomwords import divider_lines


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("--add", action="store_true", help="add those that are wanted to the backlog")


def run(asked: Namespace) -> Answer:
    """Tell the dividers and labels, or add those that are wanted."""
    with opened(asked) as shop:
        report = shop.dividers.add() if asked.add else shop.dividers.report()
    any_are = report.present or report.wanted
    return Answer(divider_lines(report), told(report), DONE if any_are else NOTHING)


COMMAND = Command("dividers", "tell or add dividers before groups, and labels on shelves", run, add)
