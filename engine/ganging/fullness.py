"""Full sheets: contents to which nothing that waits or may still come could be added."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from functools import lru_cache
from itertools import islice
from typing import Protocol

from engine.ganging.contents import Contents, Prize, TooMany
from engine.ganging.footprints import Field, Footprint
from engine.ganging.free import Undecided
from engine.ganging.grid import Grid
from engine.ganging.knife import Knife, arrange_by, knife
from engine.ganging.vectors import Counts, Packer
from engine.model import Rule

_EFFORT = 4_000_000
"""Sums that are spent on listing all contents; in a usual collection a few hundred do."""
_NEAR_EFFORT = 300_000
_SLACKS = (200, 50, 20, 10, 5)
"""One part in so many of a sheet's worth, from near to far."""
_BEAM = 16
_ALLOWED = 4_000
"""Contents that are gone through one by one under the knife rule."""
_STEPS = 200_000
"""Steps of the search for placements that are spent on listing all contents."""
_SOME = 40
"""How many stand for all of them when there are too many."""


class Fullness(Protocol):
    """What a sheet can be full of.

    ``held`` is what waits, ``bound`` that and what may still come; ``must`` is the index of a
    footprint that the sheet has to take.
    """

    def ready(self, held: Counts, bound: Counts, must: int | None) -> list[Counts]:
        """Return the full contents that can be pressed now with the least offcut."""
        ...

    def target(self, held: Counts, bound: Counts, must: int | None) -> Counts | None:
        """Return the full content that lacks the fewest inserts; None when nothing waits."""
        ...

    def every(self, bound: Counts) -> list[Counts]:
        """Return the contents that are full when no more than ``bound`` is left.

        Some of them only, where there are too many to list.
        """
        ...

    def filled(self, part: Counts, bound: Counts) -> Counts:
        """Return a full content around ``part``, which the sheet can hold."""
        ...


@lru_cache(maxsize=32)
def fullness(
    field: Field, sizes: tuple[Footprint, ...], areas: tuple[int, ...], rule: Rule
) -> Fullness:
    """Return what ``field`` can be full of; kept, so that it is worked out only once.

    ``areas`` are those of the finished inserts.
    """
    room = tuple(field.width * field.height // size.area for size in sizes)
    try:
        maximal: Sequence[Counts] | None = Contents(field, sizes, effort=_EFFORT).maximal
    except TooMany:
        maximal = None
    if maximal is not None and rule is Rule.KNIFE:
        maximal = _scattered(knife(field, sizes), maximal, room)
    if maximal is None:
        return _Sought(field, sizes, areas, rule)
    return _Listed(maximal, room, areas)


def _scattered(knife: Knife, cut: Sequence[Counts], room: Counts) -> list[Counts] | None:
    """Return the maximal contents of free placement, None if there are too many to decide.

    All that reckoning allows is gone through, few inserts first; what cannot be cut is tried
    when one insert less fits in every way.
    """
    allowed = knife.relaxation.every(room, _ALLOWED)
    if allowed is None:
        return None
    packer = Packer(room)
    cuttable = [packer.pack(one) for one in cut]
    fitting: set[int] = set()
    for counts in allowed:
        packed = packer.pack(counts)
        if any(packer.within(packed, one) for one in cuttable):
            fitting.add(packed)
        elif all(
            packed - unit in fitting for unit, n in zip(packer.units, counts, strict=True) if n
        ):
            if knife.steps > _STEPS:
                return None
            with suppress(Undecided):
                if knife.scatter(counts) is not None:
                    fitting.add(packed)
    return [packer.unpack(one) for one in packer.outermost(fitting)]


class _Listed:
    """All contents are known."""

    def __init__(self, maximal: Iterable[Counts], room: Counts, areas: tuple[int, ...]) -> None:
        self._packer = Packer(room, areas)
        self._maximal = [self._packer.pack(one) for one in maximal if any(one)]
        self._room = room
        self._full = lru_cache(maxsize=16)(self._full_for)

    def ready(self, held: Counts, bound: Counts, must: int | None) -> list[Counts]:
        roof = self._packed(held) | self._packer.guard
        guard, shift = self._packer.guard, self._packer.worth_shift
        found: list[int] = []
        for one in self._full(self._capped(bound)):
            if found and one >> shift < found[0] >> shift:
                break
            if (roof - one) & guard == guard and self._has(one, must):
                found.append(one)
        return [self._packer.unpack(one) for one in found]

    def target(self, held: Counts, bound: Counts, must: int | None) -> Counts | None:
        candidates = [one for one in self._full(self._capped(bound)) if self._has(one, must)]
        packed, unpack, least = self._packed(held), self._packer.unpack, self._packer.least
        if not any(held) or not candidates:
            return None

        def wanting(one: int) -> tuple[int, int, int]:
            there = least(one, packed)
            return sum(unpack(one)) - sum(unpack(there)), -(there >> self._packer.worth_shift), -one

        return unpack(min(candidates, key=wanting))

    def every(self, bound: Counts) -> list[Counts]:
        return [self._packer.unpack(one) for one in self._full(self._capped(bound))]

    def filled(self, part: Counts, bound: Counts) -> Counts:
        inner = self._packed(part)
        around = (one for one in self._full(self._capped(bound)) if self._packer.within(inner, one))
        return self._packer.unpack(next(around, inner))

    def _full_for(self, bound: Counts) -> list[int]:
        """Return the contents that are full when no more than ``bound`` is left, best first."""
        if bound == self._room:
            return sorted(self._maximal, reverse=True)
        roof = self._packer.pack(bound)
        capped = {self._packer.least(one, roof) for one in self._maximal} - {0}
        return self._packer.outermost(capped)

    def _capped(self, counts: Counts) -> Counts:
        return tuple(map(min, counts, self._room))

    def _packed(self, counts: Counts) -> int:
        return self._packer.pack(self._capped(counts))

    def _has(self, packed: int, must: int | None) -> bool:
        return must is None or self._packer.unpack(packed)[must] > 0


class _Sought:
    """There are too many contents to list; each that is wanted is looked for.

    Whether a content is full is still decided exactly. The offcut is the least of those found.
    """

    def __init__(
        self, field: Field, sizes: tuple[Footprint, ...], areas: tuple[int, ...], rule: Rule
    ) -> None:
        self._rule = rule
        self._field = field
        self._sizes = sizes
        self._areas = areas

    def ready(self, held: Counts, bound: Counts, must: int | None) -> list[Counts]:
        for counts in self._candidates(held, must):
            grown = self.filled(counts, held)
            if self._is_full(grown, bound):
                return [grown]
        return []

    def target(self, held: Counts, bound: Counts, must: int | None) -> Counts | None:
        counts = next(self._candidates(held, must), None)
        return counts and self.filled(counts, bound)

    def every(self, bound: Counts) -> list[Counts]:
        return [self.filled(one, bound) for one in islice(self._candidates(bound, None), _SOME)]

    def filled(self, part: Counts, bound: Counts) -> Counts:
        counts = part
        for index in sorted(range(len(self._sizes)), key=lambda i: -self._areas[i]):
            while counts[index] < bound[index] and self._holds(_plus_one(counts, index)):
                counts = _plus_one(counts, index)
        return counts

    def _candidates(self, held: Counts, must: int | None) -> Iterator[Counts]:
        """Yield contents of what waits, roughly from the least offcut upwards."""
        seen: set[Counts] = set()
        top = Grid(self._field, self._sizes, held).best(self._areas)[-1][-1]
        searches = [(top // part, None, _NEAR_EFFORT) for part in _SLACKS]
        for slack, beam, effort in [*searches, (top, _BEAM, None)]:
            try:
                near = Contents(
                    self._field,
                    self._sizes,
                    caps=held,
                    prize=Prize(self._areas, slack, beam),
                    effort=effort,
                )
            except TooMany:
                continue
            for counts in near.maximal:
                if counts not in seen and (must is None or counts[must]):
                    seen.add(counts)
                    yield counts

    def _is_full(self, counts: Counts, bound: Counts) -> bool:
        return not any(
            counts[index] < bound[index] and self._holds(_plus_one(counts, index))
            for index in range(len(self._sizes))
        )

    def _holds(self, counts: Counts) -> bool:
        return arrange_by(self._rule, self._field, self._sizes, counts) is not None


def _plus_one(counts: Sequence[int], index: int) -> Counts:
    return tuple(count + (i == index) for i, count in enumerate(counts))
