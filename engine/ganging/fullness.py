"""Full sheets: patterns to which nothing that waits or may still come could be added.

In all that follows ``held`` is what waits, ``bound`` that and what may still come, and ``must``
the index of a footprint that the sheet has to take.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import islice
from typing import NamedTuple, Protocol

from engine.packing import (
    Counts,
    Encoding,
    Field,
    Footprint,
    Knapsack,
    Patterns,
    Prize,
    Spots,
    TooMany,
    dearest,
    place,
    total,
)

_EFFORT = 100_000
"""Sums that are spent on listing patterns; in a usual collection a few hundred list them all."""
_SLACKS = (50, 5)
"""One part in so many of a sheet's area: patterns that fall short by no more are looked at."""
_BEAM = 16
_SKYLINES = 60
_SOME = 40
"""How many stand for all of them when there are too many."""


class Problem(NamedTuple):
    """What is to be filled with what."""

    field: Field
    sizes: tuple[Footprint, ...]
    areas: tuple[int, ...]
    """Of the finished inserts."""
    freely: bool
    """Whether inserts may lie anyhow: the knife rule."""

    def place(self, counts: Counts) -> Spots | None:
        """Return where ``counts`` can lie, None if nowhere or if no way was found."""
        return place(self.field, self.sizes, counts, freely=self.freely)


class Fullness(Protocol):
    """What a sheet can be full of."""

    def ready(self, held: Counts, bound: Counts, must: int | None) -> list[Counts]:
        """Return the full patterns that can be pressed now with the least offcut."""
        ...

    def target(self, held: Counts, bound: Counts, must: int | None) -> Counts | None:
        """Return the full pattern that lacks the fewest inserts; None when nothing waits."""
        ...

    def every(self, bound: Counts) -> list[Counts]:
        """Return the patterns that are full when no more than ``bound`` is left.

        Some of them only, where there are too many to list.
        """
        ...

    def filled(self, part: Counts, bound: Counts) -> Counts:
        """Return a full pattern around ``part``, which the sheet can hold."""
        ...


@lru_cache(maxsize=32)
def fullness(problem: Problem) -> Fullness:
    """Return what a sheet can be full of; kept, so that it is worked out only once."""
    try:
        listed = Patterns(problem.field, problem.sizes, effort=_EFFORT).maximal
    except TooMany:
        return _Sought(problem)
    return _Sought(problem) if problem.freely else _Listed(problem, listed)


class _Listed:
    """All patterns are known."""

    def __init__(self, problem: Problem, maximal: Sequence[Counts]) -> None:
        self._room = problem.field.room(problem.sizes)
        self._encoding = Encoding(self._room, problem.areas)
        self._maximal = [self._encoding.encode(one) for one in maximal]
        self._full = lru_cache(maxsize=16)(self._full_for)

    def ready(self, held: Counts, bound: Counts, must: int | None) -> list[Counts]:
        most, shift = self._encode(held), self._encoding.worth_shift
        found: list[int] = []
        for one in self._full(self._capped(bound)):
            if found and one >> shift < found[0] >> shift:
                break
            if self._encoding.within(one, most) and self._has(one, must):
                found.append(one)
        return [self._encoding.decode(one) for one in found]

    def target(self, held: Counts, bound: Counts, must: int | None) -> Counts | None:
        full = [one for one in self._full(self._capped(bound)) if self._has(one, must)]
        most, decode = self._encode(held), self._encoding.decode
        if not any(held) or not full:
            return None

        def wanting(one: int) -> tuple[int, int, int]:
            there = self._encoding.least(one, most)
            lacking = sum(decode(one)) - sum(decode(there))
            return lacking, -(there >> self._encoding.worth_shift), -one

        return decode(min(full, key=wanting))

    def every(self, bound: Counts) -> list[Counts]:
        return [self._encoding.decode(one) for one in self._full(self._capped(bound))]

    def filled(self, part: Counts, bound: Counts) -> Counts:
        inner = self._encode(part)
        around = (
            one for one in self._full(self._capped(bound)) if self._encoding.within(inner, one)
        )
        return self._encoding.decode(next(around, inner))

    def _full_for(self, bound: Counts) -> list[int]:
        """Return the patterns that are full when no more than ``bound`` is left, best first."""
        capped = set(self._encoding.clip(self._maximal, self._encoding.encode(bound)))
        return self._encoding.outermost(capped - {0})

    def _capped(self, counts: Counts) -> Counts:
        return tuple(map(min, counts, self._room))

    def _encode(self, counts: Counts) -> int:
        return self._encoding.encode(self._capped(counts))

    def _has(self, code: int, must: int | None) -> bool:
        return must is None or self._encoding.decode(code)[must] > 0


class _Sought:
    """Each pattern that is wanted is looked for: there are too many, or inserts lie freely.

    Cut edge to edge, whether a pattern is full is still decided exactly; lying freely, as far as
    a search can tell. The offcut is the least of those found.
    """

    def __init__(self, problem: Problem) -> None:
        self._problem = problem

    def ready(self, held: Counts, bound: Counts, must: int | None) -> list[Counts]:
        found: list[Counts] = []
        for counts in self._candidates(held, must):
            if found and self._area(counts) < self._area(found[0]):
                break
            grown = self.filled(counts, held)
            if grown not in found and self._is_full(grown, bound):
                found.append(grown)
        most = max(map(self._area, found), default=0)
        return [counts for counts in found if self._area(counts) == most]

    def target(self, held: Counts, bound: Counts, must: int | None) -> Counts | None:
        counts = next(self._candidates(held, must), None)
        return counts and self.filled(counts, bound)

    def every(self, bound: Counts) -> list[Counts]:
        some = islice(self._candidates(bound, None), _SOME)
        return list(dict.fromkeys(self.filled(one, bound) for one in some))

    def filled(self, part: Counts, bound: Counts) -> Counts:
        counts = part
        for index in sorted(range(len(part)), key=lambda i: -self._problem.areas[i]):
            while counts[index] < bound[index] and self._holds(_plus_one(counts, index)):
                counts = _plus_one(counts, index)
        return counts

    def _candidates(self, held: Counts, must: int | None) -> Iterator[Counts]:
        """Yield patterns of what waits, roughly from the least offcut upwards."""
        caps = tuple(map(min, held, self._problem.field.room(self._problem.sizes)))
        seen: set[Counts] = set()
        for slack in (*_SLACKS, None):
            for counts in _near(self._problem, caps, slack) if any(caps) else ():
                if counts not in seen and (must is None or counts[must]):
                    seen.add(counts)
                    yield counts
        if must is not None and not seen:
            yield _plus_one((0,) * len(held), must)

    def _is_full(self, counts: Counts, bound: Counts) -> bool:
        return not any(
            counts[index] < most and self._holds(_plus_one(counts, index))
            for index, most in enumerate(bound)
        )

    def _holds(self, counts: Counts) -> bool:
        return self._problem.place(counts) is not None

    def _area(self, counts: Counts) -> int:
        return total(counts, self._problem.areas)


@lru_cache(maxsize=256)
def _near(problem: Problem, caps: Counts, slack: int | None) -> tuple[Counts, ...]:
    """Return patterns within ``caps`` that fall short of the best by one part in ``slack``.

    Those of most area first; none if there are too many of them, some of all without a slack.
    """
    field, sizes, areas, freely = problem
    best = Knapsack(field, sizes, caps).best(areas)[-1][-1]
    prize = Prize(areas, best // slack) if slack else Prize(areas, best, _BEAM)
    try:
        found = set(
            Patterns(
                field, sizes, caps=caps, prize=prize, effort=_EFFORT if slack else None
            ).maximal
        )
    except TooMany:
        return ()
    if freely:
        found.update(dearest(field, sizes, caps, areas, above=best - prize.slack, beam=_SKYLINES))
    encoding = Encoding(caps, areas)
    return tuple(
        encoding.decode(one) for one in encoding.outermost({encoding.encode(one) for one in found})
    )


def _plus_one(counts: Counts, index: int) -> Counts:
    return tuple(count + (i == index) for i, count in enumerate(counts))
