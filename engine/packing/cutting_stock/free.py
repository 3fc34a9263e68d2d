"""What free placement saves over cutting edge to edge: pricing by skylines.

The linear programme goes on from the patterns that cuts edge to edge can make. A beam search
(`engine/packing/skyline/search.py`) looks for patterns worth more than a sheet by its duals; what
is found joins the programme, until no more is found. Whole sheets are then sought among all
patterns, and among those found that are nearly worth a sheet. No search is exhaustive, so the
bound is that of areas alone (`engine/packing/skyline/bound.py`).
"""

from __future__ import annotations

from math import ceil

from engine.packing.cutting_stock.column_generation import (
    ROUNDING,
    SHEET,
    CuttingPlan,
    CuttingStock,
)
from engine.packing.rectangles import Counts
from engine.packing.skyline.bound import least_sheets
from engine.packing.skyline.search import BEAMS, dearest

_COLUMNS = 8
"""Patterns that join at a time."""
_WORTH_IT = SHEET + SHEET // 10_000
"""What a pattern must be worth to join."""
_NEAR = SHEET - SHEET // 30
_MANY = 300
"""Patterns from which whole sheets are made: nearly worth a sheet, so many at most."""


def improve(stock: CuttingStock, plan: CuttingPlan) -> CuttingPlan:
    """Return ``plan``, the answer under the trimmer rule, made better for free placement."""
    bound = least_sheets(stock.field, stock.sizes, stock.wanted)
    if plan.sheets > bound:
        while found := _priced(stock):
            stock.patterns |= found
        relaxed, worth = stock.relaxed()
        least = max(ceil(relaxed.value - ROUNDING), bound)
        stock.improve(least)
        if stock.sheets > least:
            stock.patterns.update(_search(stock, worth, _NEAR, BEAMS[1])[:_MANY])
            stock.improve(least)
    return CuttingPlan(stock.runs, bound, plan.worth)


def _priced(stock: CuttingStock) -> set[Counts]:
    """Return new patterns that make the linear programme cheaper, the quick search first."""
    _, worth = stock.relaxed()
    for beam in BEAMS:
        found = set(_search(stock, worth, _WORTH_IT, beam)[:_COLUMNS]) - stock.patterns
        if found:
            return found
    return set()


def _search(stock: CuttingStock, worth: Counts, above: int, beam: int) -> list[Counts]:
    field, sizes, caps, cancel = stock.field, stock.sizes, stock.caps, stock.cancel
    return dearest(field, sizes, caps, worth, above=above, beam=beam, cancel=cancel)
