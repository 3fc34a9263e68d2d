"""What the Sheets screen says of sheets."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from engine import OffcutReport, PartFull, PlanReport, SheetReport, SheetsReport, SheetState
from tui.actions import BY_ID
from tui.widgets.sheetmap import CHECKED, SPOILED
from tui.words import count
from tui.words import plan_words as sheets_of_plan

FULL, OPEN, PRESSED, SETTLED = "■", "□", "▣", "▤"
"""The signs of a sheet's states, always beside the word."""

CUT_PAGES = "Pressed with cut pages."
JOB = "Pressed with a job ticket."


def no_plan() -> str:
    """Return what is said where the plan was stopped."""
    return f"You stopped the plan. {BY_ID['sheets'].shown} makes it again."


def no_sheets() -> str:
    """Return what is said where the ganging was stopped."""
    again = BY_ID["sheets"].shown
    return f"You stopped the ganging, so what is new is not shown. {again} gangs again."


def begun(report: SheetsReport) -> tuple[SheetReport, ...]:
    """Return the open sheets that have an insert on them."""
    return tuple(sheet for sheet in report.open if sheet.placements)


def filling(report: SheetsReport) -> SheetReport | None:
    """Return the sheet that fills: the open one, else the last that came to be full."""
    return next(iter((*begun(report), *reversed(report.ready))), None)


def filling_words(report: SheetsReport) -> list[str]:
    """Return how many sheets are full and what the open one lacks, on one line if at all."""
    full = [f"{FULL} {len(report.ready)} full"] if report.ready else []
    lacks = [sum(lack.count for lack in sheet.lacks) for sheet in begun(report)]
    said = " · ".join((*full, *(f"{OPEN} open, lacks {count}" for count in lacks)))
    return [said] if said else []


def label(sheet: SheetReport, row: str) -> str:
    """Return what a sheet is called in the list."""
    if sheet.state is SheetState.PRESSED:
        return f"{PRESSED} Pressed {sheet.number}"
    if sheet.state is SheetState.READY:
        return f"{FULL} Full {row.removeprefix('ready ')}"
    if sheet.state is SheetState.SETTLED:
        return f"{SETTLED} Settled {sheet.number}"
    return f"{OPEN} Open {row.removeprefix('open ')}" if row != "open 1" else f"{OPEN} Open"


def plan_words(plan: PlanReport | None) -> str:
    """Return how many sheets are left to press in all."""
    if plan is None:
        return "Planning the sheets for all that is left…"
    lines = [
        f"{sheets_of_plan(plan)}, for all that is left."
        if plan.sheets
        else "Nothing is left to press."
    ]
    if len(plan.parts) > 1:
        lines += [f"{part.sheets} × {part.stock.name}" for part in plan.parts]
    lines += [
        f"! Too large for {part.stock.name}: {', '.join(part.too_large)}."
        for part in plan.parts
        if part.too_large
    ]
    return "\n".join(lines)


def nothing_yet(games: int) -> str:
    """Return why there is no sheet to show."""
    if not games:
        return "No games yet."
    return "No finished insert waits for a sheet. Accept games on the Bench."


def about_words(
    sheet: SheetReport, kinds: Mapping[str, str], spoiled: int, checked: int = 0
) -> str:
    """Return what there is to say about a sheet."""
    forme = sheet.forme
    lines = [f"{forme.stock.name}, cut with a {forme.rule}, {percent(sheet.used)} used"]
    match sheet.state:
        case SheetState.READY:
            lines.append(f"Full. {BY_ID['press'].shown} presses every full sheet.")
        case SheetState.OPEN:
            lacks = ", ".join(f"{n.count} × {kinds.get(n.case, n.case)}" for n in sheet.lacks)
            lines.append(f"Lacks {lacks}." if lacks else "Nothing that is left fits on it.")
        case SheetState.PRESSED:
            when = f"{sheet.pressed_at.astimezone():%d %B %H:%M}" if sheet.pressed_at else ""
            back = "" if sheet.reverse == "none" else " with its back"
            lines.append(f"Pressed {when}: {Path(sheet.file or '').name}{back}")
            lines += [f"Cut by machine: {Path(sheet.machine).name}"] if sheet.machine else []
            check, spoil, settle = (BY_ID[act].shown for act in ("check", "spoil", "settle"))
            seen = f"{checked} of {len(sheet.placements)} {CHECKED}, {spoiled} {SPOILED}"
            lines.append(f"{check} checks off, {spoil} spoils ({seen}), {settle} settles.")
        case SheetState.SETTLED:
            if sheet.to_fit:
                fitting = BY_ID["fitting"].shown
                lines.append(f"{count(sheet.to_fit, 'insert')} to fit: {fitting} lists them.")
            if sheet.offcuts:
                keep = BY_ID["keep_offcut"].shown
                lines.append(f"{keep} keeps an offcut as paper, or lets it go.")
        case _:
            pass
    if sheet.waiting_since is not None:
        lines.append(f"Waiting since {sheet.waiting_since.astimezone():%d %B %H:%M}.")
    return "\n".join(lines)


def offcut_words(offcut: OffcutReport) -> tuple[str, str]:
    """Return an offcut's size and what became of it."""
    size = f"{offcut.size.width:.0f} × {offcut.size.height:.0f} mm"
    return size, "used up" if offcut.used else "kept" if offcut.kept else "not kept"


MANY = 5
"""So many part-full sheets are told of in one sentence."""


def all_wasted_words(sheets: Sequence[PartFull], waiting: int, *, whole: bool) -> list[str]:
    """Return what part-full sheets leave, and what is pressed with them of all that waits.

    Where these are not the ``whole`` of them, the person has looked at enough.
    """
    inserts = sum(sheet.inserts for sheet in sheets)
    if len(sheets) < MANY:
        lines = [wasted_words(sheet) for sheet in sheets]
    else:
        wasted, filled = (
            percent(sum(parts) / len(sheets))
            for parts in ([s.wasted for s in sheets], [s.filled for s in sheets])
        )
        told = f"{len(sheets)} part-full sheets for {inserts} inserts: {wasted} of their paper"
        lines = [f"{told} stays empty, {filled} if filled."]
    if not whole:
        lines.append(f"You stopped there; all {waiting} inserts that wait are pressed.")
    elif waiting > inserts:
        others = waiting - inserts
        say = "insert waits and is" if others == 1 else "inserts wait and are"
        lines.append(f"{others} more {say} pressed with it, on full sheets.")
    return lines


def wasted_words(sheet: PartFull) -> str:
    """Return what a part-full sheet leaves."""
    return (
        f"{sheet.inserts} {'insert' if sheet.inserts == 1 else 'inserts'} on {sheet.stock.name}: "
        f"{percent(sheet.wasted)} of the paper stays empty, {percent(sheet.filled)} if filled."
    )


def percent(part: float) -> str:
    """Return a part of one in percent."""
    return f"{part * 100:.0f} %"
