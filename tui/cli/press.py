"""``spinery press``: write the PDFs of sheets, and fill those that are not full."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Sequence

from engine import InputError, PartFull, RefusedError
from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.cli.told import told
from tui.words import contents, count


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument(
        "--part-full", action="store_true", help="press everything that waits, full or not"
    )
    one.add_argument(
        "--fillers",
        action="store_true",
        help="with --part-full: tell what would be wasted and what could fill it; press nothing",
    )
    one.add_argument(
        "--fill",
        nargs="+",
        default=[],
        metavar="FILLER",
        help="with --part-full: fill the room with these, as --fillers names them",
    )
    one.add_argument(
        "--cut-page", action="store_true", help="write each sheet's cut order on a page, too"
    )


def run(asked: Namespace) -> Answer:
    """Press, or tell what could fill a part-full sheet."""
    if (asked.fill or asked.fillers) and not asked.part_full:
        raise InputError("press", "only a part-full sheet is filled", "Add --part-full")
    with opened(asked) as shop:
        if asked.fillers:
            return _fillers(shop.sheets.part_full())
        report = shop.sheets.press(
            part_full=asked.part_full, fillers=asked.fill, cut_page=asked.cut_page
        )
    lines = [f"Sheet {one.number}: {one.file} ({contents(one)})" for one in report.sheets]
    return Answer([*lines, *report.notes], told(report))


def _fillers(part_full: Sequence[PartFull]) -> Answer:
    if not part_full:
        raise RefusedError("", "No sheet would be part-full")
    words = []
    for one in part_full:
        words.append(
            f"{count(one.inserts, 'insert')} on {one.stock.name}: "
            f"{one.wasted:.0%} of the paper is left, {one.filled:.0%} with all that fits:"
        )
        words += [
            f"  {filler.id:<34} {filler.words}" + ("" if filler.fits else " (no room left for it)")
            for filler in one.fillers
        ]
    return Answer(words, {"part_full": told(part_full)})


COMMAND = Command("press", "write the PDFs of the sheets that are ready", run, add)
