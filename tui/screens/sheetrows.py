"""What is on a sheet, as rows of a table."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import NamedTuple

from engine import SheetReport
from tui.screens.sheetwords import offcut_words
from tui.widgets.sheetmap import CHECKED, SPOILED
from tui.widgets.table import Row


class Marks(NamedTuple):
    """How the inserts of a pressed sheet were found, by their places."""

    spoiled: Collection[int] = ()
    checked: Collection[int] = ()

    def of(self, place: int) -> str:
        """Return the sign of an insert."""
        return SPOILED if place in self.spoiled else CHECKED if place in self.checked else ""


def insert_rows(
    sheet: SheetReport,
    titles: Sequence[str],
    marks: Marks,
    kinds: Mapping[str, str],
) -> list[Row]:
    """Return the inserts of a sheet as rows."""
    rows = []
    for place, (placement, title) in enumerate(zip(sheet.placements, titles, strict=True)):
        name = f"{title} (spare)" if placement.spare else title
        mark = marks.of(place)
        sign = f"{mark} {name}" if mark else name
        case = kinds.get(placement.case, placement.case)
        rows.append(Row(f"{place}", (f"{place + 1}", sign, case)))
    return rows


def offcut_rows(sheet: SheetReport) -> list[Row]:
    """Return the offcuts of a settled sheet as rows."""
    return [
        Row(f"{place}", (f"{offcut.number}", *offcut_words(offcut)))
        for place, offcut in enumerate(sheet.offcuts)
    ]
