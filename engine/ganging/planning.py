"""The whole backlog: the fewest sheets that print everything that is left."""

from __future__ import annotations

from collections.abc import Sequence

from engine.ganging.inserts import Coming, fits
from engine.ganging.queue import Line
from engine.model import Forme, Value
from engine.model.waiting import Cancel


class Plan(Value, frozen=True):
    """How many sheets print everything that is left."""

    sheets: int
    bound: int
    """No plan can do with fewer than this."""
    proven: bool
    too_large: tuple[str, ...] = ()
    """Case kinds whose inserts do not fit the sheet; they are not counted."""


def plan(counts: Sequence[Coming], forme: Forme, *, cancel: Cancel | None = None) -> Plan:
    """Return the fewest sheets for ``counts``, and the bound that nothing can be below.

    Raises Cancelled when ``cancel`` says so.
    """
    left = [one for one in counts if one.count > 0]
    line = Line((), left, forme)
    found = line.plan(line.bound, cancel)
    too_large = tuple(one.case for one in left if not fits(one, forme))
    return Plan(found.sheets, found.bound, found.sheets == found.bound, too_large)
