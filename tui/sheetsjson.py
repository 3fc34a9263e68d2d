"""Sheets as JSON objects, from proposed to settled, with their cuts, fillers and offcuts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime

from engine import (
    CutsReport,
    Outlook,
    PartFull,
    PlanReport,
    PressReport,
    Rect,
    SheetReport,
    SheetsReport,
)
from tui.asjson import Object, mm


def sheets(report: SheetsReport) -> Object:
    """Return the sheets that are not done with, and the plan."""
    return {
        "ready": [_sheet(one) for one in report.ready],
        "open": [
            {
                **_sheet(one),
                "lacks": [{"case": lack.case, "count": lack.count} for lack in one.lacks],
            }
            for one in report.open
        ],
        "pressed": [_sheet(one) for one in report.pressed],
        "waiting_beyond": report.beyond,
        **(plan(report.plan) if report.plan else {}),
    }


def plan(report: PlanReport) -> Object:
    """Return the fewest sheets for all that is left, and beside it for each stock."""
    return {
        "plan": {"sheets": report.sheets, "bound": report.bound, "proven": report.proven},
        "plan_rule": report.rule.value,
        "plan_by_stock": [
            {
                "stock": part.stock.id,
                "sheets": part.sheets,
                "bound": part.bound,
                "proven": part.proven,
                "too_large": list(part.too_large),
            }
            for part in report.parts
        ],
    }


def press(report: PressReport) -> Object:
    """Return the sheets that were written."""
    return {"sheets": [_sheet(one) for one in report.sheets], "notes": list(report.notes)}


def _sheet(one: SheetReport) -> Object:
    sheet: Object = {
        "number": one.number,
        "state": one.state.value,
        "stock": one.forme.stock.id,
        "rule": one.forme.rule.value,
        "used_percent": round(100 * one.used, 2),
        "placements": [
            {
                "game": placed.game,
                "case": placed.case,
                "x_mm": mm(placed.x),
                "y_mm": mm(placed.y),
                "width_mm": mm(placed.width),
                "height_mm": mm(placed.height),
                "rotated": placed.rotated,
                "spoiled": placed.spoiled,
                "spare": placed.spare,
            }
            for placed in one.placements
        ],
    }
    if one.file is not None:
        sheet["file"] = one.file
    if one.pressed_at is not None:
        sheet["pressed_at"] = _time(one.pressed_at)
    if one.waiting_since is not None:
        sheet["waiting_since"] = _time(one.waiting_since)
    if one.strip is not None:
        sheet["strip"] = _rect(one.strip)
    if one.offcuts:
        sheet["offcuts"] = _offcuts(one)
    return sheet


def each(shown: Iterable[SheetReport]) -> list[Object]:
    """Return sheets."""
    return [_sheet(one) for one in shown]


def _time(at: datetime) -> str:
    return at.isoformat().replace("+00:00", "Z")


def _rect(rect: Rect) -> Object:
    x, y, width, height = map(mm, rect)
    return {"x_mm": x, "y_mm": y, "width_mm": width, "height_mm": height}


def cuts(report: CutsReport) -> Object:
    """Return the cut order of a sheet."""
    return {
        "cuts": [
            {
                "number": cut.number,
                "fence": cut.fence.value,
                "distance_mm": mm(cut.distance),
                "at_mm": mm(cut.at),
                "by_tick": cut.by_tick,
                "frees": [place + 1 for place in cut.frees],
                "piece": _rect(cut.piece),
            }
            for cut in report.cuts
        ],
        "settings": report.settings,
        "turns": report.turns,
        "fewest": report.fewest,
        "notes": list(report.notes),
    }


def part_full(sheets: Iterable[PartFull]) -> Object:
    """Return what part-full sheets would waste and what could fill them."""
    return {
        "part_full": [
            {
                "stock": one.stock.id,
                "inserts": one.inserts,
                "wasted_percent": round(100 * one.wasted, 2),
                "filled_percent": round(100 * one.filled, 2),
                "fillers": [
                    {"id": f.id, "why": f.why.value, "words": f.words, "fits": f.fits}
                    for f in one.fillers
                ],
            }
            for one in sheets
        ]
    }


def offcuts(sheets: Iterable[SheetReport]) -> Object:
    """Return settled sheets with what is left of them."""
    return {"sheets": [{"number": one.number, "offcuts": _offcuts(one)} for one in sheets]}


def _offcuts(one: SheetReport) -> list[Object]:
    return [
        {
            "number": offcut.number,
            "width_mm": mm(offcut.size.width),
            "height_mm": mm(offcut.size.height),
            "kept": offcut.kept,
            "used": offcut.used,
        }
        for offcut in one.offcuts
    ]


def outlook(batch: Sequence[str], report: Outlook) -> Object:
    """Return today's batch and what comes of it."""
    return {
        "games": list(batch),
        "unfinished": report.games,
        "full_sheets": report.sheets,
        "waits": report.waits,
    }
