"""``spinery offcuts``: what settled sheets leave, and what of it is kept."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Sequence

from engine import InputError, SheetReport, Workshop
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.options import numbers, whole
from tui.cli.told import told
from tui.words import offcut_lines


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument(
        "sheet", nargs="?", type=whole, metavar="SHEET", help="the number of a settled sheet"
    )
    one.add_argument(
        "--keep",
        type=numbers,
        metavar="N,N",
        help='the offcuts of it that you keep, each a stock of one; "" keeps none',
    )


def run(asked: Namespace) -> Answer:
    """Show offcuts, after keeping some."""
    if asked.sheet is None and asked.keep is not None:
        raise InputError("--keep", "is for one sheet", "Name it: spinery offcuts SHEET")
    with opened(asked) as shop:
        shown = _asked_for(shop, asked)
    words = [line for sheet in shown for line in offcut_lines(sheet)]
    return Answer(
        words or ["No settled sheet leaves an offcut worth keeping."],
        {"sheets": [told(sheet, "number", "offcuts") for sheet in shown]},
        DONE if words else NOTHING,
    )


def _asked_for(shop: Workshop, asked: Namespace) -> Sequence[SheetReport]:
    if asked.sheet is None:
        return [sheet for sheet in shop.sheets.settled() if sheet.offcuts]
    if asked.keep is None:
        return (shop.sheets.sheet(asked.sheet),)
    return (shop.sheets.keep_offcuts(asked.sheet, asked.keep),)


COMMAND = Command(
    "offcuts", "show what settled sheets leave, or keep it as a stock of one", run, add
)
