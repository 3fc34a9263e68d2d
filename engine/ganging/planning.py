"""The whole backlog: the fewest sheets that print everything that is left."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from engine.ganging.inserts import Coming, field_of, footprint
from engine.packing.cancelling import Cancel
from engine.packing.cutting_stock import fewest
from engine.packing.rectangles import Footprint
from engine.values import Forme, Rule, Value


class Plan(Value, frozen=True):
    """How many sheets print everything that is left."""

    sheets: int
    bound: int
    """No plan can do with fewer than this."""
    proven: bool
    rule: Rule = Rule.TRIMMER
    """The cutting rule that this holds for."""
    too_large: tuple[str, ...] = ()
    """Case kinds whose inserts do not fit the sheet; they are not counted."""


def plan(counts: Sequence[Coming], forme: Forme, *, cancel: Cancel | None = None) -> Plan:
    """Return the fewest sheets for ``counts``, and the bound that nothing can be below.

    Raises Cancelled when ``cancel`` says so.
    """
    field = field_of(forme)
    wanted: Counter[Footprint] = Counter()
    too_large = []
    for one in counts:
        if one.count > 0:
            size = footprint(one, forme.gutter)
            if field.fits(size):
                wanted[size] += one.count
            else:
                too_large.append(one.case)
    sizes = tuple(sorted(wanted, key=lambda size: (-size.area, size)))
    left = tuple(wanted[size] for size in sizes)
    found = fewest(field, sizes, left, freely=forme.rule is Rule.KNIFE, cancel=cancel)
    proven = found.sheets == found.bound
    return Plan(found.sheets, found.bound, proven, forme.rule, tuple(too_large))
