"""The figures as tables."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from itertools import pairwise

from tests.bench.blind.judging import ASPECTS
from tests.bench.blind.trial import Row

MAIN = ("lettering cut", "title lost", "subject lost")
CUT_OR_LOST = (*MAIN, "split through lettering", "wrong picture")
"""What a proposal that is called sure must never do; the rest is a matter of more or less."""
BINS = (0.0, 0.5, 0.7, 0.85, 0.9, 0.95, 0.98, 0.99, 1.0)
"""Of what is stated; the last holds exactly 1."""

Table = list[dict[str, object]]


def grouped(rows: Sequence[Row], by: str) -> Table:
    """Return a line for each sort of cover or case kind, and one for all.

    The faults are those of the sure ones: one proposal may have several.
    """
    names = list(dict.fromkeys(getattr(row, by) for row in rows))
    table = [_line(by, name, [row for row in rows if getattr(row, by) == name]) for name in names]
    return [*table, _line(by, "all", rows)]


def _line(by: str, name: str, rows: Sequence[Row]) -> dict[str, object]:
    sure = [row for row in rows if row.sure]
    right = [row for row in sure if row.right]
    unhurt = [row for row in sure if not any(row.has(aspect) for aspect in CUT_OR_LOST)]
    return {
        by: name,
        "proposals": len(rows),
        "sure": len(sure),
        "sure %": _percent(len(sure), len(rows)),
        "right of sure %": _percent(len(right), len(sure)),
        "nothing cut or lost %": _percent(len(unhurt), len(sure)),
        **{aspect: sum(row.has(aspect) for row in sure) for aspect in MAIN},
        "other": sum(any(one.aspect not in MAIN for one in row.faults) for row in sure),
        "right of all %": _percent(sum(row.right for row in rows), len(rows)),
    }


def aspects(rows: Sequence[Row]) -> Table:
    """Return a line for each thing that can be wrong."""

    def line(name: str, of: Callable[[Row], bool]) -> dict[str, object]:
        found = [row for row in rows if of(row)]
        sure = sum(row.sure for row in found)
        alone = sum(len({fault.aspect for fault in row.faults}) == 1 for row in found)
        mendable = sum(row.mendable for row in found)
        return {
            "what is wrong": name,
            "proposals": len(found),
            "of them sure": sure,
            "with nothing else": alone,
            "a crop or stretch would do": mendable,
        }

    names = (*ASPECTS, "title nowhere", "empty without need")
    table = [line(name, partial(_has, name)) for name in names]
    return [*table, line("anything", lambda row: not row.right)]


def _has(aspect: str, row: Row) -> bool:
    return row.has(aspect)


def calibration(rows: Sequence[Row]) -> Table:
    """Return how often proposals are right, by how sure the program says it is of them."""
    table = []
    for low, high in (*pairwise(BINS), (1.0, 2.0)):
        found = [row for row in rows if low <= row.stated < high]
        if found:
            table.append(
                {
                    "stated": f"{low:g}" if low == 1.0 else f"{low:g} to {high:g}",
                    "proposals": len(found),
                    "mean stated": f"{sum(row.stated for row in found) / len(found):.3f}",
                    "right": f"{sum(row.right for row in found) / len(found):.3f}",
                }
            )
    return table


LINES = (0.5, 0.7, 0.8, 0.85, 0.9, 0.92, 0.93, 0.94, 0.95, 0.97, 0.98, 0.99)
"""Thresholds at which the curve is told."""


def curve(rows: Sequence[Row]) -> Table:
    """Return how many proposals would be sure at a threshold, and how many of them are right."""
    table = []
    for line in LINES:
        over = [row for row in rows if row.stated >= line]
        table.append(
            {
                "threshold": f"{line:g}",
                "sure %": _percent(len(over), len(rows)),
                "right of sure %": _percent(sum(row.right for row in over), len(over)),
            }
        )
    return table


def _percent(part: int, whole: int) -> str:
    return f"{100 * part / whole:.1f}" if whole else "-"
