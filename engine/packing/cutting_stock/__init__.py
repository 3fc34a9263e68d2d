"""The fewest sheets that hold what is wanted of each footprint."""

from __future__ import annotations

from collections.abc import Sequence

from engine.model.waiting import Cancel
from engine.packing.cutting_stock import free, set_covering
from engine.packing.cutting_stock.column_generation import CuttingPlan, CuttingStock
from engine.packing.rectangles import Counts, Field, Footprint

_FEW = 12
"""Up to so many footprints, all patterns near the best are gone through if need be."""
_KEPT = 256
_solved: dict[tuple[Field, tuple[Footprint, ...], Counts, bool], CuttingPlan] = {}
"""Answers found before, the oldest first: most changes to a collection alter none."""


def fewest(
    field: Field,
    sizes: Sequence[Footprint],
    wanted: Counts,
    *,
    freely: bool,
    cancel: Cancel | None = None,
) -> CuttingPlan:
    """Return the fewest sheets that hold ``wanted`` of each of ``sizes``, which must fit.

    Cut edge to edge the plan is proven for a few footprints; where rectangles may lie
    ``freely`` it is the best found. Raises Cancelled.
    """
    if not any(wanted):
        return CuttingPlan((), 0, (0,) * len(wanted))
    asked = field, tuple(sizes), wanted, freely
    if asked not in _solved:
        stock = CuttingStock(field, sizes, wanted, cancel)
        plan = stock.solve() if len(sizes) <= _FEW else set_covering.solve(stock)
        plan = free.improve(stock, plan) if freely else plan
        if len(_solved) >= _KEPT:
            _solved.pop(next(iter(_solved)))
        _solved[asked] = plan
    return _solved[asked]
