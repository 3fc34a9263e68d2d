"""``spinery press``: write the PDFs of sheets, and fill those that are not full."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Sequence
from typing import get_args

from engine import (
    InputError,
    Machine,
    PartFull,
    PressReport,
    Printer,
    RefusedError,
    Reverse,
    SpineryError,
    Workshop,
)
from tui.aloud import columns
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.options import numbers
from tui.cli.told import told
from tui.ending import say
from tui.words import contents, count, printer_words


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
        "--cut-page",
        action="store_true",
        help="write scores and cut order on a page, too",
    )
    one.add_argument(
        "--job",
        action="store_true",
        help="write one file of all sheets behind a job ticket, too: paper, settings, steps",
    )
    one.add_argument(
        "--reverse",
        choices=get_args(Reverse),
        help="whether sheets have a back, and over which edge it is turned; as set up by default",
    )
    one.add_argument(
        "--machine",
        choices=get_args(Machine),
        help="write what a cutting machine is told, too; as set up by default",
    )
    one.add_argument(
        "--again",
        type=numbers,
        metavar="N,N",
        help="press nothing: take these sheets and write their pages again, the very same",
    )
    one.add_argument("--printers", action="store_true", help="list the printers; press nothing")
    one.add_argument(
        "--print",
        dest="printer",
        metavar="PRINTER",
        help="print the sheets through CUPS, at 100 %% on their own paper, and wait for the end",
    )
    one.add_argument(
        "--tray", default="", metavar="TRAY", help="with --print: the tray, as the printer names it"
    )


def run(asked: Namespace) -> Answer:
    """Press, or tell what could fill a part-full sheet."""
    if (asked.fill or asked.fillers) and not asked.part_full:
        raise InputError("press", "only a part-full sheet is filled", "Add --part-full")
    if asked.tray and not asked.printer:
        raise InputError("--tray", "goes with a printer", "Give it with --print")
    if asked.again == ():
        raise InputError("--again", "names no sheet", "Write their numbers as 2,5")
    with opened(asked) as shop:
        if asked.printers:
            return _printers(shop.printing.printers())
        if asked.fillers:
            return _fillers(shop.sheets.part_full())
        if asked.again is not None:
            report = PressReport(sheets=shop.printing.again(tuple(dict.fromkeys(asked.again))))
        else:
            report = shop.sheets.press(
                part_full=asked.part_full,
                fillers=asked.fill,
                cut_page=asked.cut_page,
                job=asked.job,
                reverse=asked.reverse,
                machine=asked.machine,
            )
        lines = []
        for one in report.sheets:
            lines.append(f"Sheet {one.number}: {one.file} ({contents(one)})")
            lines += [f"  for the cutting machine: {one.machine}"] if one.machine else []
        jobs = _printed(shop, report, asked) if asked.printer else ()
    if report.job:
        lines += [f"Job: {report.job}", "", *report.ticket, ""]
    data = told(report)
    notes = [note for note in report.notes if note not in report.ticket]
    return Answer([*lines, *notes], {**data, "jobs": list(jobs)} if jobs else data)


def _printed(shop: Workshop, report: PressReport, asked: Namespace) -> Sequence[str]:
    """Print what was written; say at once what the printer says, which can take minutes."""
    wanted = [one.number for one in report.sheets if one.number is not None]
    try:
        return shop.printing.send(wanted, asked.printer, asked.tray, say)
    except SpineryError as error:
        files = ", ".join(str(one.file) for one in report.sheets)
        mend = f"{error.mend}. The pages are written: {files}"
        raise type(error)(error.where, error.what, mend) from error


def _printers(found: Sequence[Printer]) -> Answer:
    words = [
        f"{one.name}: {printer_words(one)}" + (", the usual one" if one.usual else "")
        for one in found
    ]
    code = DONE if found else NOTHING
    return Answer(
        words or ["There are no printers: set one up in CUPS."], {"printers": told(found)}, code
    )


def _fillers(part_full: Sequence[PartFull]) -> Answer:
    if not part_full:
        raise RefusedError("", "No sheet would be part-full")
    lines: list[str] = []
    for one in part_full:
        lines.append(
            f"{count(one.inserts, 'insert')} on {one.stock.name}: "
            f"{one.wasted:.0%} of the paper is left, {one.filled:.0%} with all that fits:"
        )
        lines += [
            columns(
                ((filler.id, 34), (words, 0)), f"To fill it with {filler.id}: {words}", indent="  "
            )
            for filler in one.fillers
            for words in [filler.words + ("" if filler.fits else " (no room left for it)")]
        ]
    return Answer(lines, {"part_full": told(part_full)})


COMMAND = Command("press", "write the PDFs of the sheets that are ready", run, add)
