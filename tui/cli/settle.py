"""``spinery settle``: say how the inserts of a printed sheet came out."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.cli.options import numbers, whole
from tui.cli.progress import standing


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("sheet", type=whole, metavar="SHEET", help="the sheet's number")
    one.add_argument(
        "--spoiled",
        type=numbers,
        default=(),
        metavar="N,N",
        help="the spoiled inserts, by their numbers in the sheet's margin",
    )


def run(asked: Namespace) -> Answer:
    """Mark them good or spoiled."""
    with opened(asked) as shop:
        return standing(shop, shop.sheets.settle(asked.sheet, asked.spoiled))


COMMAND = Command("settle", "mark a printed sheet's inserts good or spoiled", run, add)
