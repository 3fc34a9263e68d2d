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

from engine.packing.cancelling import go_on
from engine.packing.cutting_stock.column_generation import SHEET, CuttingPlan, CuttingStock
from engine.packing.cutting_stock.filling import RULES, Filler, FitRule, Order
from engine.packing.rectangles import Counts, Footprint, minus, plus, total

_FILLED = 200
"""Up to so many rectangles are placed one by one."""
_STARTS = 8
"""Orders that are searched from."""
_TRIES = 1_000
"""Changes that are tried from each."""
_NODES = 250
_ORDERS: tuple[Callable[[Footprint], int], ...] = (
    lambda size: -size.area,
    lambda size: -max(size.width, size.height),
    lambda size: -size.width - size.height,
    lambda size: -size.height,
    lambda size: -size.width,
)

_Filled = tuple[Counts, ...]
"""The patterns of the sheets that a filling takes."""


def solve(stock: CuttingStock) -> CuttingPlan:
    """Return the fewest sheets found, and a bound on what any plan takes."""
    field, wanted = stock.field, stock.wanted
    room, areas = field.width * field.height, [size.area for size in stock.sizes]
    least = ceil(total(wanted, areas) / room)
    worth = tuple(area * SHEET // room for area in areas)
    if sum(wanted) <= _FILLED:
        stock.adopt(LocalSearch(stock, wanted).start())
    if stock.sheets > least:
        dual, bound = stock.bound(whole=True)
        if bound >= least:
            # The search for the bound stops early; scaled, no sheet is worth more than one.
            top = max(int(total(wanted, dual) / bound), SHEET)
            worth, least = tuple(each * SHEET // top for each in dual), ceil(bound)
        stock.improve(least, nodes=_NODES)
    if stock.sheets > least:
        whole = _whole_sheets(stock)
        search = LocalSearch(stock, minus(wanted, plus((0,) * len(wanted), *whole)))
        stock.adopt((*whole, *search.start()))
        for filled in search.run():
            stock.adopt((*whole, *filled))
            if stock.sheets <= least:
                break
        stock.patterns.update(search.patterns)
        stock.improve(least, nodes=_NODES)
    return CuttingPlan(stock.runs, least, worth)


def _whole_sheets(stock: CuttingStock) -> _Filled:
    """Return the patterns that are sure to be used, where there is too much to place singly."""
    if sum(stock.wanted) <= _FILLED:
        return ()
    relaxed, _ = stock.relaxed()
    uses = zip(relaxed.uses, sorted(stock.patterns), strict=True)
    return tuple(pattern for use, pattern in uses for _ in range(int(use)))


class LocalSearch:
    """Fills sheets with what is wanted, in one order after another."""

    def __init__(self, stock: CuttingStock, wanted: Counts) -> None:
        """Prepare to place ``wanted``."""
        self.filler = Filler(stock.field, stock.sizes)
        self.sizes, self.cancel = stock.sizes, stock.cancel
        self.items = [index for index, count in enumerate(wanted) for _ in range(count)]
        self.areas = [size.area for size in stock.sizes]
        self.random = Random(1)  # noqa: S311 - the same changes every time are what is wanted
        self.patterns: set[Counts] = set()
        """Every pattern that came up."""

    def start(self) -> _Filled:
        """Return the fewest sheets that plain orders give."""
        self.starts: list[tuple[_Filled, Order, FitRule]] = []
        for measure, rule in product(_ORDERS, RULES):
            order = sorted(self.items, key=[measure(size) for size in self.sizes].__getitem__)
            self.starts.append((self._fill(order, rule), order, rule))
        self.starts.sort(key=lambda start: self._merit(start[0]))
        return self.starts[0][0]

    def run(self) -> Iterator[_Filled]:
        """Yield what each of the best starts becomes, when nothing that is worse is kept."""
        for filled, order, rule in self.starts[:_STARTS]:
            best = filled
            for _ in range(_TRIES if order else 0):
                go_on(self.cancel)
                other = list(order)
                i, j = self.random.randrange(len(other)), self.random.randrange(len(other))
                if self.random.random() < 0.5:
                    other[i], other[j] = other[j], other[i]
                else:
                    other.insert(j, other.pop(i))
                changed = rule if self.random.random() < 0.9 else self.random.choice(RULES)
                found = self._fill(other, changed)
                if self._merit(found) <= self._merit(best):
                    if len(found) < len(best):
                        yield found
                    best, order, rule = found, other, changed

    def _fill(self, order: Order, rule: FitRule) -> _Filled:
        filled = self.filler.fill(order, rule)
        self.patterns.update(filled)
        return filled

    def _merit(self, filled: _Filled) -> tuple[int, int]:
        """Return how many sheets a filling takes, and how much lies on the emptiest."""
        return len(filled), min((total(one, self.areas) for one in filled), default=0)
