"""The whole backlog: the fewest sheets that print everything that is left.

Cutting stock, as Gilmore and Gomory put it (Operations Research 9(6), 1961 and 13(1), 1965):
the linear programme over all contents of a sheet gives the bound, and is solved without
listing them, by asking again and again for the content that is worth most. Whole sheets are
then sought among the contents that come near that worth: a plan of N sheets can use no content
that falls short by more than N less the bound. When all of those are on the table, the answer
is proven either way.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import ceil
from typing import NamedTuple

from engine.ganging.contents import Contents, Prize, TooMany
from engine.ganging.footprints import Coming, Field, Footprint, footprint
from engine.ganging.grid import Grid
from engine.ganging.solver import cover, relax
from engine.ganging.vectors import Counts
from engine.ganging.waiting import Cancel, Cancelled
from engine.values import Forme, Rule, Value

SHEET = 10**9
"""What a whole sheet is worth in the integers that the bound is reckoned in."""
_SLACKS = (0.002, 0.006, 0.02, 0.06, 0.2, 0.6)
"""How far from the best the contents are gathered, in parts of a sheet, one after the other."""
_EFFORT = 400_000
_BEAM = 24
_NODES = 2_000
_KEPT = 256
_solved: dict[tuple[Field, tuple[Footprint, ...], Counts], Runs] = {}
"""Backlogs solved before, the oldest first: accepting an insert changes none."""


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
        return SHEET - sum(n * each for n, each in zip(counts, self.worth, strict=True))


def plan(counts: Sequence[Coming], forme: Forme, *, cancel: Cancel | None = None) -> Plan:
    """Return the fewest sheets for ``counts``, and the bound that nothing can be below.

    Raises Cancelled when ``cancel`` says so.
    """
    field = Field.of(forme)
    wanted: Counter[Footprint] = Counter()
    too_large = []
    for one in counts:
        if one.count > 0:
            size = footprint(one, forme.gutter)
            if size.fits(field):
                wanted[size] += one.count
            else:
                too_large.append(one.case)
    sizes = tuple(sorted(wanted, key=lambda size: (-size.area, size)))
    runs = fewest(field, sizes, tuple(wanted[size] for size in sizes), cancel=cancel)
    bound = runs.bound if forme.rule is Rule.TRIMMER else _by_area(field, wanted)
    return Plan(runs.sheets, bound, runs.sheets == bound, forme.rule, tuple(too_large))


def _by_area(field: Field, wanted: Mapping[Footprint, int]) -> int:
    """Return the fewest sheets whose area would do: all that is sure where a knife cuts.

    The plan itself keeps to cuts from edge to edge, which a knife can make too; free
    placement might do with fewer sheets, so the trimmer's bound proves nothing here.
    """
    area = sum(size.area * count for size, count in wanted.items())
    return ceil(Fraction(area, field.width * field.height))


def fewest(
    field: Field, sizes: Sequence[Footprint], wanted: Counts, *, cancel: Cancel | None = None
) -> Runs:
    """Return the fewest sheets that hold ``wanted`` of each of ``sizes``, which must fit."""
    known = field, tuple(sizes), wanted
    if known not in _solved:
        if len(_solved) >= _KEPT:
            _solved.pop(next(iter(_solved)))
        _solved[known] = _Backlog(field, sizes, wanted, cancel).solve()
    return _solved[known]


class _Backlog:
    """What is wanted of each footprint, and the contents found so far."""

    def __init__(
        self, field: Field, sizes: Sequence[Footprint], wanted: Counts, cancel: Cancel | None
    ) -> None:
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
        return sum(times for times, _ in self.runs)

    def solve(self) -> Runs:
        if not any(self.wanted):
            return Runs((), 0, (0,) * len(self.sizes))
        worth, bound = self._bound()
        least = ceil(bound)
        self._improve(least)
        for slack in _SLACKS:
            gap = self.sheets - 1 - bound
            if gap < 0:
                break
            all_near = self._gather(worth, min(Fraction(slack), gap))
            none_better = self._improve(least)
            if all_near and none_better and slack >= gap:
                return Runs(self.runs, self.sheets, worth)
        return Runs(self.runs, least, worth)

    def _of_one(self, index: int) -> Counts:
        """Return a plain grid of one footprint, a content to begin with."""
        most = max(
            (self.field.width // w) * (self.field.height // h) for w, h in self.sizes[index].ways
        )
        return tuple(most if i == index else 0 for i in range(len(self.sizes)))

    def _bound(self) -> tuple[tuple[int, ...], Fraction]:
        """Return what each footprint is worth, and the bound on the sheets that this proves.

        Whatever the worths are, no sheet is worth more than the best content, so that all that
        is wanted needs at least its worth divided by that (Farley, Operations Research 38(5),
        1990): a bound in whole numbers, which no rounding can spoil.
        """
        grid = self.grid
        found: tuple[tuple[int, ...], Fraction] = ((), Fraction(0))
        while True:
            duals = relax(sorted(self.patterns), self.wanted).worth
            worth = tuple(int(dual * SHEET) for dual in duals)
            best = grid.best(worth)
            total = sum(n * each for n, each in zip(self.wanted, worth, strict=True))
            bound = Fraction(total, best[-1][-1])
            if bound > found[1]:
                found = worth, bound
            pattern = grid.content(best, worth)
            if best[-1][-1] <= SHEET + 10 or pattern in self.patterns:
                return found
            self.patterns.add(pattern)
            if self.cancel is not None and self.cancel():
                raise Cancelled

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

    def _improve(self, least: int) -> bool:
        """Look for a better plan among the patterns; return whether there is none better."""
        patterns = sorted(self.patterns)
        found = cover(patterns, self.wanted, enough=least, nodes=_NODES, cancel=self.cancel)
        if found is None:
            return False
        if found.sheets < self.sheets:
            self.runs = tuple(
                (times, pattern)
                for times, pattern in zip(found.uses, patterns, strict=True)
                if times
            )
        return found.exact
