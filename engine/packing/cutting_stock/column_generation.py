"""What is wanted, cut up edge to edge: the fewest sheets, and the bound that proves it.

Cutting stock, as Gilmore and Gomory put it (Operations Research 9(6), 1961 and 13(1), 1965):
the linear programme over all patterns of a sheet gives the bound, and is solved without listing
them, by pricing: asking again and again for the pattern that is worth most. Whole sheets are
then sought among the patterns that come near that worth: a plan of N sheets can use no pattern
that falls short by more than N less the bound. When all of those are on the table, the answer
is proven either way.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import ceil
from typing import NamedTuple

from engine.model.waiting import Cancel, go_on
from engine.packing.cutting_stock.programme import Relaxed, cover, relax
from engine.packing.patterns.knapsack import Knapsack
from engine.packing.patterns.maximal import Patterns, Prize, TooMany
from engine.packing.rectangles import Counts, Field, Footprint, total

SHEET = 10**9
"""What a whole sheet is worth in the integers that bounds are worked out in."""
NODES = 2_000
_SLACKS = (0.002, 0.006, 0.02, 0.06, 0.2, 0.6, 1.0)
"""How far from the best the patterns are gathered, in parts of a sheet, one after the other."""
_EFFORT = 800_000
_BEAM = 24
ROUNDING = 1e-6
_PRICING = 60_000_000
"""Additions that are spent on the bound; only sheets with very many small footprints need them."""


class CuttingPlan(NamedTuple):
    """Which patterns to print how often, and the fewest sheets that anyone could do it with."""

    runs: tuple[tuple[int, Counts], ...]
    """Together at least what is wanted."""
    bound: int
    worth: tuple[int, ...] = ()
    """What each footprint is worth: at most SHEET for all on one sheet cut edge to edge."""

    @property
    def sheets(self) -> int:
        """Return how many sheets that makes."""
        return sum(times for times, _ in self.runs)


class CuttingStock:
    """What is wanted of each footprint, the patterns found so far, and the best plan of them."""

    def __init__(
        self, field: Field, sizes: Sequence[Footprint], wanted: Counts, cancel: Cancel | None
    ) -> None:
        """Begin with one footprint a sheet."""
        self.field, self.sizes, self.wanted, self.cancel = field, tuple(sizes), wanted, cancel
        self.caps = tuple(map(min, wanted, field.room(sizes)))
        self.knapsack = Knapsack(field, self.sizes, self.caps)
        grids = [
            max((field.width // w) * (field.height // h) for w, h in size.ways) for size in sizes
        ]
        of_one = [tuple(most * (i == k) for k in range(len(sizes))) for i, most in enumerate(grids)]
        self.patterns = set(of_one)
        runs = zip(wanted, grids, of_one, strict=True)
        self.runs = tuple((ceil(n / most), one) for n, most, one in runs)

    @property
    def sheets(self) -> int:
        """Return how many sheets the best plan so far takes."""
        return sum(times for times, _ in self.runs)

    def solve(self) -> CuttingPlan:
        """Return the fewest sheets under the trimmer rule, proven for a few footprints."""
        worth, bound = self.bound()
        least = ceil(bound)
        self.improve(least)
        for slack in _SLACKS:
            before, gap = self.sheets, self.sheets - 1 - bound
            if gap < 0:
                break
            all_near = self._gather(worth, min(Fraction(slack), gap))
            none_better = self.improve(least)
            if slack >= gap or slack >= 1:
                if all_near and none_better:
                    return CuttingPlan(self.runs, self.sheets, worth)
                if self.sheets == before:
                    break
        return CuttingPlan(self.runs, least, worth)

    def bound(self, *, whole: bool = False) -> tuple[tuple[int, ...], Fraction]:
        """Return what each footprint is worth, and the dual bound that this proves.

        Whatever the worths are, no sheet is worth more than the best pattern, so that all that
        is wanted needs at least its worth divided by that (Farley, Operations Research 38(5),
        1990): a bound in whole numbers, which no rounding can spoil. It stops where more would
        change the bound in ``whole`` sheets no more, if that is all that is asked.
        """
        found: tuple[tuple[int, ...], Fraction] = ((), Fraction(0))
        for _ in range(max(_PRICING // self.knapsack.cost, 2)):
            relaxed, worth = self.relaxed()
            best = self.knapsack.best(worth)
            bound = Fraction(total(self.wanted, worth), best[-1][-1])
            if bound > found[1]:
                found = worth, bound
            pattern = self.knapsack.pattern(best, worth)
            settled = whole and ceil(found[1]) >= ceil(relaxed.value - ROUNDING)
            if settled or best[-1][-1] <= SHEET + 10 or pattern in self.patterns:
                break
            self.patterns.add(pattern)
            go_on(self.cancel)
        return found

    def relaxed(self) -> tuple[Relaxed, tuple[int, ...]]:
        """Return the linear programme over all patterns, and its duals in parts of SHEET."""
        relaxed = relax(sorted(self.patterns), self.wanted)
        return relaxed, tuple(int(dual * SHEET) for dual in relaxed.worth)

    def _gather(self, worth: tuple[int, ...], slack: Fraction) -> bool:
        """Put the patterns near the best on the table; return whether it is all of them."""
        top = self.knapsack.best(worth)[-1][-1]
        for effort, beam in ((_EFFORT, None), (None, _BEAM)):
            try:
                near = Patterns(
                    self.field,
                    self.sizes,
                    caps=self.caps,
                    prize=Prize(worth, ceil(slack * top), beam),
                    effort=effort,
                    cancel=self.cancel,
                )
            except TooMany:
                continue
            self.patterns.update(near.maximal)
            return beam is None
        return False

    def improve(self, least: int, *, nodes: int = NODES, columns: int | None = None) -> bool:
        """Look for a better plan among the patterns; return whether there is none better.

        A pattern whose reduced cost is more than the plan may lose is in no better plan; of the
        others, so many ``columns`` are looked at.
        """
        relaxed, worth = self.relaxed()
        spare = int((self.sheets - 1 - relaxed.value + ROUNDING) * SHEET)
        if spare < 0:
            return True
        reduced = {one: SHEET - total(one, worth) for one in self.patterns}
        near = sorted((cost, one) for one, cost in reduced.items() if cost <= spare)[:columns]
        patterns = sorted({one for _, one in near} | {one for _, one in self.runs})
        found = cover(patterns, self.wanted, enough=least, nodes=nodes, cancel=self.cancel)
        if found is None:
            return False
        if sum(found.uses) < self.sheets:
            uses = zip(found.uses, patterns, strict=True)
            self.runs = tuple((times, pattern) for times, pattern in uses if times)
        return found.exact and len(near) != columns

    def adopt(self, filled: Iterable[Counts]) -> None:
        """Take the patterns of sheets that hold what is wanted, and them for the plan if fewer."""
        runs = Counter(filled)
        self.patterns.update(runs)
        if runs.total() < self.sheets:
            self.runs = tuple((times, counts) for counts, times in sorted(runs.items()))
