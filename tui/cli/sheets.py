"""``spinery sheets``: what is ready, open and pressed, how to cut it, how many are left."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from engine import CutsReport, PlanReport, SheetReport, SheetsReport
from tui.aloud import Line
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.options import whole
from tui.cli.told import Object, told
from tui.words import (
    beyond,
    contents,
    count,
    cut_lines,
    cuts_summary,
    fewest,
    offcut_lines,
    plan_words,
)


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument(
        "sheet", nargs="?", type=whole, metavar="SHEET", help="the number of a pressed sheet"
    )
    one.add_argument("--cuts", action="store_true", help="tell how to cut each sheet")
    one.add_argument("--plan", action="store_true", help="tell only how many sheets are left")


def run(asked: Namespace) -> Answer:
    """Show all sheets that are not done with, or everything about one."""
    with opened(asked) as shop:
        if asked.sheet is not None:
            sheet = shop.sheets.sheet(asked.sheet)
            cuts = shop.sheets.cuts(sheet)
            return Answer([*_whole(sheet), *cut_lines(cuts)], {**told(sheet), **_cuts(cuts)})
        report = shop.sheets.report(plan=True)
        words, data = _words(report), _data(report)
        if asked.plan and report.plan:
            return Answer(_plan(report.plan), data, DONE if report.plan.sheets else NOTHING)
        if asked.cuts:
            for state in ("ready", "open", "pressed"):
                for place, sheet in enumerate(getattr(report, state)):
                    cuts = shop.sheets.cuts(sheet)
                    number = sheet.number or place + 1
                    words += ["", f"Sheet {number} ({state}): {cuts_summary(cuts)}"]
                    words += cut_lines(cuts)
                    data[state][place].update(_cuts(cuts))
    return Answer(words, data)


# --- for a person -----------------------------------------------------------------------


def _words(report: SheetsReport) -> list[str]:
    lines = [f"{count(len(report.ready), 'sheet')} ready to press."]
    lines += [f"  {contents(one)}{_paper(one, report)}" for one in report.ready]
    for one in report.open:
        lacks = ", ".join(f"{lack.count} {lack.case}" for lack in one.lacks)
        since = one.waiting_since
        waits = f", waiting since {since.astimezone():%d %B}" if since else ""
        lines.append(f"Open sheet: {contents(one)}{_paper(one, report)}{waits}")
        lines.append(f"  lacks {lacks}" if lacks else "  nothing left in the backlog fills it")
    if report.beyond:
        lines.append(f"{beyond(report.beyond)}.")
    lines += [
        f"Sheet {one.number} is pressed and to be settled: {contents(one)}"
        for one in report.pressed
    ]
    if report.plan and report.plan.sheets:
        lines.append(f"Everything left: {plan_words(report.plan)}.")
    return lines


def _paper(one: SheetReport, report: SheetsReport) -> str:
    """Return the stock of a sheet where there are several."""
    every = {sheet.forme.stock.id for sheet in (*report.ready, *report.open, *report.pressed)}
    return f", {one.forme.stock.name}" if len(every) > 1 else ""


def _whole(one: SheetReport) -> list[str]:
    """Return everything about one sheet but its cuts."""
    lines = [f"Sheet {one.number} is {one.state.value}: {contents(one)}, {one.forme.stock.name}"]
    lines += [
        Line(f"{place:>3}  {what}", f"Insert {place}: {what}")
        for place, placed in enumerate(one.placements, start=1)
        for what in [
            placed.game
            + (" (spare)" if placed.spare else "")
            + (" (spoiled)" if placed.spoiled else "")
        ]
    ]
    return [*lines, *offcut_lines(one)]


def _plan(report: PlanReport) -> list[str]:
    """Return how many sheets are left to press, in all and of each stock."""
    lines = [plan_words(report) if report.sheets else "Nothing is left to press."]
    if len(report.parts) > 1:
        lines += [
            f"  {part.stock.name}: {count(part.sheets, 'sheet')}, {fewest(part)}"
            for part in report.parts
        ]
    lines += [
        f"{kind} does not fit on {part.stock.name}: set up another stock for it."
        for part in report.parts
        for kind in part.too_large
    ]
    return lines


# --- as JSON ----------------------------------------------------------------------------


def _data(report: SheetsReport) -> Object:
    data: Object = told(report, "ready", "open", "pressed", "beyond")
    if report.plan:
        data["plan"] = told(report.plan, "sheets", "bound", "proven")
        data["plan_rule"] = report.plan.rule.value
        data["plan_by_stock"] = told(report.plan.parts)
    return data


def _cuts(report: CutsReport) -> Object:
    """Return the cut order of a sheet, placements counted from 1."""
    cuts = [{**told(cut), "frees": [place + 1 for place in cut.frees]} for cut in report.cuts]
    return {**told(report), "cuts": cuts}


COMMAND = Command(
    "sheets",
    "show the sheets that are ready, open and pressed, and how to cut them",
    run,
    add,
)
