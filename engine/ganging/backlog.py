"""A backlog cut up edge to edge: the fewest sheets, and the bound that proves it.

Cutting stock, as Gilmore and Gomory put it (Operations Research 9(6), 1961 and 13(1), 1965):
the linear programme over all contents of a sheet gives the bound, and is solved without
listing them, by asking again and again for the content that is worth most. Whole sheets are
then sought among the contents that come near that worth: a plan of N sheets can use no content
that falls short by more than N less the bound. When all of those are on the table, the answer
is proven either way.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil
from typing import NamedTuple

from engine.ganging.contents import Contents, Prize, TooMany
from engine.ganging.footprints import Field, Footprint
from engine.ganging.grid import Grid
from engine.ganging.solver import cover, relax
from engine.ganging.vectors import Counts, total
from engine.ganging.waiting import Cancel, go_on

SHEET = 10**9
"""What a whole sheet is worth in the integers that bounds are reckoned in."""
_SLACKS = (0.002, 0.006, 0.02, 0.06, 0.2, 0.6, 1.0)
"""How far from the best the contents are gathered, in parts of a sheet, one after the other."""
_EFFORT = 400_000
_BEAM = 24
_NODES = 2_000
_ROUNDING = 1e-6
_PRICING = 60_000_000
"""Additions that are spent on the bound; only sheets with very many small footprints need them."""


class Runs(NamedTuple):
    """Which contents to print how often, and the fewest sheets that anyone could do it with."""

    runs: tuple[tuple[int, Counts], ...]
    """Together at least what is wanted."""
    bound: int
    worth: tuple[int, ...] = ()
    """What an insert of each footprint is worth: at most SHEET for all on one sheet."""

    @property
    def sheets(self) -> int:
        """Return how many sheets that makes."""
        return sum(times for times, _ in self.runs)

    def loss(self, counts: Counts) -> int:
        """Return how much of a sheet's worth ``counts`` leaves unused."""
        return SHEET - total(counts, self.worth)


class Backlog:
    """What is wanted of each footprint, and the contents found so far."""

    def __init__(
        self, field: Field, sizes: Sequence[Footprint], wanted: Counts, cancel: Cancel | None
    ) -> None:
        """Begin with one footprint a sheet."""
        self.field = field
        self.sizes = tuple(sizes)
        self.wanted = wanted
        self.cancel = cancel
        room = (field.width * field.height // size.area for size in sizes)
        self.caps = tuple(map(min, wanted, room))
        self.grid = Grid(field, self.sizes, self.caps)
        self.patterns = {self._of_one(index) for index in range(len(sizes))}
        self.runs: tuple[tuple[int, Counts], ...] = tuple(
            (ceil(wanted[i] / pattern[i]), pattern)
            for pattern in self.patterns
            for i in range(len(sizes))
            if pattern[i]
        )

    @property
    def sheets(self) -> int:
        """Return how many sheets the best plan so far takes."""
        return sum(times for times, _ in self.runs)

    def solve(self) -> Runs:
        """Return the fewest sheets under the trimmer rule, proven for a few footprints."""
        worth, bound = self.bound()
        least = ceil(bound)
        self.improve(least)
        for slack in _SLACKS:
            gap = self.sheets - 1 - bound
            if gap < 0:
                break
            all_near = self._gather(worth, min(Fraction(slack), gap))
            none_better = self.improve(least)
            if all_near and none_better and (slack >= gap or slack >= 1):
                return Runs(self.runs, self.sheets, worth)
        return Runs(self.runs, least, worth)

    def _of_one(self, index: int) -> Counts:
        """Return a plain grid of one footprint, a content to begin with."""
        most = max(
            (self.field.width // w) * (self.field.height // h) for w, h in self.sizes[index].ways
        )
        return tuple(most if i == index else 0 for i in range(len(self.sizes)))

    def bound(self, *, whole: bool = False) -> tuple[tuple[int, ...], Fraction]:
        """Return what each footprint is worth, and the bound on the sheets that this proves.

        Whatever the worths are, no sheet is worth more than the best content, so that all that
        is wanted needs at least its worth divided by that (Farley, Operations Research 38(5),
        1990): a bound in whole numbers, which no rounding can spoil. It stops where more would
        change the bound in ``whole`` sheets no more, if that is all that is asked.
        """
        grid = self.grid
        found: tuple[tuple[int, ...], Fraction] = ((), Fraction(0))
        for _ in range(max(_PRICING // grid.cost, 2)):
            relaxed = relax(sorted(self.patterns), self.wanted)
            worth = tuple(int(dual * SHEET) for dual in relaxed.worth)
            best = grid.best(worth)
            bound = Fraction(total(self.wanted, worth), best[-1][-1])
            if bound > found[1]:
                found = worth, bound
            pattern = grid.content(best, worth)
            settled = whole and ceil(found[1]) >= ceil(relaxed.value - _ROUNDING)
            if settled or best[-1][-1] <= SHEET + 10 or pattern in self.patterns:
                break
            self.patterns.add(pattern)
            go_on(self.cancel)
        return found

    def _gather(self, worth: tuple[int, ...], slack: Fraction) -> bool:
        """Put the contents near the best on the table; return whether it is all of them."""
        top = self.grid.best(worth)[-1][-1]
        for effort, beam in ((_EFFORT, None), (None, _BEAM)):
            try:
                near = Contents(
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

    def improve(self, least: int, *, nodes: int = _NODES) -> bool:
        """Look for a better plan among the patterns; return whether there is none better."""
        patterns = sorted(self.patterns)
        found = cover(patterns, self.wanted, enough=least, nodes=nodes, cancel=self.cancel)
        if found is None:
            return False
        if found.sheets < self.sheets:
            self.runs = tuple(
                (times, pattern)
                for times, pattern in zip(found.uses, patterns, strict=True)
                if times
            )
        return found.exact
