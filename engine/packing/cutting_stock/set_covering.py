"""Many footprints: a local search gathers patterns, and the best cover is made of them.

With many footprints, hardly two alike, there are too many patterns to go through them all. Good
ones come up while sheets are filled in many orders, each of the best changed a little again and
again; which of all those make the fewest sheets is a set covering problem (Monaci and Toth,
INFORMS Journal on Computing 18(1), 2006). Where there is much of each footprint, only what the
linear programme leaves over in whole sheets is filled so.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import product
from math import ceil
from random import Random
from typing import NamedTuple

from engine.model.waiting import go_on
from engine.packing.cutting_stock.column_generation import SHEET, CuttingPlan, CuttingStock
from engine.packing.cutting_stock.filling import RULES, FitRule, fill
from engine.packing.rectangles import Counts, Footprint, minus, plus, total

_FILLED = 200
"""Up to so many rectangles are placed one by one."""
_STARTS = 8
"""Orders that are searched from."""
_TRIES = 1_000
"""Changes that are tried from each."""
_COLUMNS = 10_000
"""Patterns from which the cover is made."""
_NODES = 50
_ORDERS: tuple[Callable[[Footprint], int], ...] = (
    lambda size: -size.area,
    lambda size: -max(size.width, size.height),
    lambda size: -size.width - size.height,
    lambda size: -size.height,
    lambda size: -size.width,
)


def solve(stock: CuttingStock) -> CuttingPlan:
    """Return the fewest sheets found, and a bound on what any plan takes."""
    wanted, room = stock.wanted, stock.field.area
    areas = [size.area for size in stock.sizes]
    least = ceil(total(wanted, areas) / room)
    worth = tuple(area * SHEET // room for area in areas)
    few = sum(wanted) <= _FILLED
    fillings = _fillings(stock, wanted)
    if few:
        stock.adopt(next(fillings))
    if stock.sheets > least:
        dual, bound = stock.bound(whole=True)
        if bound >= least:
            # The search for the bound stops early; scaled, no sheet is worth more than one.
            top = max(int(total(wanted, dual) / bound), SHEET)
            worth, least = tuple(each * SHEET // top for each in dual), ceil(bound)
        stock.improve(least, nodes=_NODES, columns=_COLUMNS)
    if stock.sheets > least:
        relaxed, _ = stock.relaxed()
        uses = [] if few else zip(relaxed.uses, sorted(stock.patterns), strict=True)
        whole = [pattern for use, pattern in uses for _ in range(int(use))]
        if not few:
            fillings = _fillings(stock, minus(wanted, plus(*whole)) if whole else wanted)
        for filling in fillings:
            stock.adopt([*whole, *filling])
            if stock.sheets <= least:
                break
        stock.improve(least, nodes=_NODES, columns=_COLUMNS)
    return CuttingPlan(stock.runs, least, worth)


class _Filling(NamedTuple):
    """Sheets filled in one order. It is the better the fewer, and the less on the emptiest."""

    sheets: int
    emptiest: int
    patterns: tuple[Counts, ...]
    order: tuple[int, ...]
    """Indices of footprints."""
    rule: FitRule


def _fillings(stock: CuttingStock, wanted: Counts) -> Iterator[tuple[Counts, ...]]:
    """Yield ways to fill sheets with ``wanted``, first of all orders; note every pattern."""
    areas = [size.area for size in stock.sizes]
    random = Random(1)  # noqa: S311 - the same changes every time are what is wanted
    items = [index for index, count in enumerate(wanted) for _ in range(count)]

    def filled(order: tuple[int, ...], rule: FitRule) -> _Filling:
        patterns = fill(stock.field, stock.sizes, order, rule)
        stock.patterns.update(patterns)
        emptiest = min((total(one, areas) for one in patterns), default=0)
        return _Filling(len(patterns), emptiest, patterns, order, rule)

    starts = []
    for measure, rule in product(_ORDERS, RULES):
        key = [measure(size) for size in stock.sizes]
        starts.append(filled(tuple(sorted(items, key=key.__getitem__)), rule))
    starts.sort(key=lambda one: one[:2])
    yield starts[0].patterns
    for now in starts[:_STARTS]:
        best = now
        for _ in range(_TRIES if items else 0):
            go_on(stock.cancel)
            order = list(best.order)
            i, j = random.randrange(len(order)), random.randrange(len(order))
            if random.random() < 0.5:
                order[i], order[j] = order[j], order[i]
            else:
                order.insert(j, order.pop(i))
            rule = best.rule if random.random() < 0.9 else random.choice(RULES)
            changed = filled(tuple(order), rule)
            if changed.sheets < best.sheets:
                yield changed.patterns
            if changed[:2] <= best[:2]:
                best = changed
