"""What is on a sheet, as rows of a table."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from engine import SheetReport
from tui.screens.sheetwords import offcut_words
from tui.widgets.sheetmap import SPOILED
from tui.widgets.table import Row


def insert_rows(
    sheet: SheetReport,
    titles: Sequence[str],
    spoiled: Collection[int],
    kinds: Mapping[str, str],
) -> list[Row]:
    """Return the inserts of a sheet as rows."""
    rows = []
    for place, (placement, title) in enumerate(zip(sheet.placements, titles, strict=True)):
        name = f"{title} (spare)" if placement.spare else title
        sign = f"{SPOILED} {name}" if place in spoiled else name
        case = kinds.get(placement.case, placement.case)
        rows.append(Row(f"{place}", (f"{place + 1}", sign, case)))
    return rows


def offcut_rows(sheet: SheetReport) -> list[Row]:
    """Return the offcuts of a settled sheet as rows."""
    return [
        Row(f"{place}", (f"{offcut.number}", *offcut_words(offcut)))
        for place, offcut in enumerate(sheet.offcuts)
    ]
