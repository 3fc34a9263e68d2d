"""The commands for sheets: what is ready, how it is cut, filled and pressed, what is kept of it."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Sequence

from engine import CutsReport, InputError, PartFull, RefusedError, SheetReport, Workshop
from tui import aswords, sheetsjson
from tui.answers import DONE, NOTHING, Answer
from tui.asjson import Object
from tui.cutwords import cut_lines, cuts_summary


def numbers(text: str) -> tuple[int, ...]:
    """Return the whole numbers of a list parted by commas."""
    try:
        return tuple(int(part) for part in text.split(",") if part.strip())
    except ValueError:
        raise ArgumentTypeError(f"{text} is no list of numbers: write them as 2,5") from None


# --- What is understood -----------------------------------------------------------------


def add_sheets(one: ArgumentParser) -> None:
    """Add what ``spinery sheets`` takes."""
    one.add_argument(
        "sheet", nargs="?", type=int, metavar="SHEET", help="the number of a pressed sheet"
    )
    one.add_argument("--cuts", action="store_true", help="tell how to cut each sheet")
    one.add_argument("--plan", action="store_true", help="tell only how many sheets are left")


def add_press(one: ArgumentParser) -> None:
    """Add what ``spinery press`` takes."""
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


def add_offcuts(one: ArgumentParser) -> None:
    """Add what ``spinery offcuts`` takes."""
    one.add_argument(
        "sheet", nargs="?", type=int, metavar="SHEET", help="the number of a settled sheet"
    )
    one.add_argument(
        "--keep",
        type=numbers,
        metavar="N,N",
        help='the offcuts of it that you keep, each a stock of one; "" keeps none',
    )


# --- What is done -----------------------------------------------------------------------


def sheets(shop: Workshop, asked: Namespace) -> Answer:
    """Do what ``spinery sheets`` asks for."""
    if asked.sheet is not None:
        sheet = shop.sheets.sheet(asked.sheet)
        cuts = shop.sheets.cuts(sheet)
        return Answer([*aswords.sheet(sheet), *cut_lines(cuts)], _with_cuts(sheet, cuts))
    report = shop.sheets.report(plan=True)
    data = sheetsjson.sheets(report)
    if asked.plan and report.plan:
        return Answer(aswords.plan(report.plan), data, DONE if report.plan.sheets else NOTHING)
    words = aswords.sheets(report)
    if asked.cuts:
        groups = {"ready": report.ready, "open": report.open, "pressed": report.pressed}
        for state, some in groups.items():
            found = [(one, shop.sheets.cuts(one)) for one in some]
            for place, (one, cuts) in enumerate(found, start=1):
                number = place if one.number is None else one.number
                words += ["", f"Sheet {number} ({state}): {cuts_summary(cuts)}"]
                words += cut_lines(cuts)
            data[state] = [
                {**shown, **sheetsjson.cuts(cuts)}
                for shown, (_, cuts) in zip(sheetsjson.each(some), found, strict=True)
            ]
    return Answer(words, data)


def _with_cuts(sheet: SheetReport, cuts: CutsReport) -> Object:
    (shown,) = sheetsjson.each([sheet])
    return {**shown, **sheetsjson.cuts(cuts)}


def press(shop: Workshop, asked: Namespace) -> Answer:
    """Do what ``spinery press`` asks for."""
    if (asked.fill or asked.fillers) and not asked.part_full:
        raise InputError("press", "only a part-full sheet is filled", "Add --part-full")
    if asked.fillers:
        return _fillers(shop.sheets.part_full())
    report = shop.sheets.press(
        part_full=asked.part_full, fillers=asked.fill, cut_page=asked.cut_page
    )
    return Answer(aswords.press(report), sheetsjson.press(report))


def _fillers(part_full: Sequence[PartFull]) -> Answer:
    if not part_full:
        raise RefusedError("", "No sheet would be part-full")
    words = []
    for one in part_full:
        words.append(
            f"{aswords.count(one.inserts, 'insert')} on {one.stock.name}: "
            f"{one.wasted:.0%} of the paper is left, {one.filled:.0%} with all that fits:"
        )
        words += [
            f"  {filler.id:<34} {filler.words}" + ("" if filler.fits else " (no room left for it)")
            for filler in one.fillers
        ]
    return Answer(words, sheetsjson.part_full(part_full))


def offcuts(shop: Workshop, asked: Namespace) -> Answer:
    """Do what ``spinery offcuts`` asks for."""
    if asked.sheet is None:
        if asked.keep is not None:
            raise InputError("--keep", "is for one sheet", "Name it: spinery offcuts SHEET")
        shown = shop.sheets.settled()
    elif asked.keep is None:
        shown = (shop.sheets.sheet(asked.sheet),)
    else:
        shown = (shop.sheets.keep_offcuts(asked.sheet, asked.keep),)
    words = [line for sheet in shown for line in aswords.offcuts(sheet)]
    found = any(sheet.offcuts for sheet in shown)
    return Answer(
        words or ["No settled sheet leaves an offcut worth keeping."],
        sheetsjson.offcuts(shown),
        DONE if found else NOTHING,
    )
