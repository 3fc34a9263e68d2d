"""``spinery withdraw``: put a pressed sheet's inserts back in the queue."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.cli.options import whole
from tui.cli.progress import standing


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("sheet", type=whole, metavar="SHEET", help="the sheet's number")


def run(asked: Namespace) -> Answer:
    """Put them back."""
    with opened(asked) as shop:
        shop.sheets.withdraw(asked.sheet)
        return standing(shop)


COMMAND = Command("withdraw", "put a pressed sheet's inserts back in the queue", run, add)
