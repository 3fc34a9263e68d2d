"""Full sheets: patterns to which nothing that waits or may still come could be added.

In all that follows ``held`` is what waits, ``bound`` that and what may still come, and ``must``
the index of a footprint that the sheet has to take.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

from engine.ganging.inserts import Coming, Item, areas, field_of, footprints
from engine.model import Forme, Rule
from engine.packing.patterns.encoding import Encoding
from engine.packing.patterns.layouts import arrange
from engine.packing.patterns.maximal import Patterns, Prize, TooMany
from engine.packing.patterns.tidiness import Spots
from engine.packing.rectangles import Counts, Field, Footprint
from engine.packing.skyline.search import BEAMS, dearest, scatter

_EFFORT = 1_000_000
"""Sums that are spent on listing patterns; in a usual collection some thousand list them all."""
_BEAM = 16
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

    @classmethod
    def of(cls, inserts: Iterable[Item | Coming], forme: Forme) -> Problem:
        """Return how to fill a sheet with those of ``inserts`` that it has room for at all."""
        field = field_of(forme)
        sizes = tuple(filter(field.fits, footprints(inserts, forme.gutter)))
        return cls(field, sizes, areas(sizes, forme.gutter), forme.rule is Rule.KNIFE)

    def place(self, counts: Counts) -> Spots | None:
        """Return where ``counts`` can lie: edge to edge, or else anyhow where that is allowed.

        None if they cannot lie edge to edge, and no other way is allowed or was found.
        """
        spots = arrange(self.field, self.sizes, counts)
        return scatter(self.field, self.sizes, counts) if spots is None and self.freely else spots


class Fullness:
    """What a sheet can be full of.

    Where all patterns are known, nothing is left to search. Where there are too many, some of
    little offcut are looked for, and whether one is full is still decided exactly; where inserts
    may lie freely, as far as a search can tell.
    """

    def __init__(self, problem: Problem) -> None:
        """List the patterns, if they are not too many."""
        self._problem = problem
        self._room = problem.field.room(problem.sizes)
        self._encoding = Encoding(self._room, problem.areas)
        self._maximal = lru_cache(maxsize=256)(self._maximal_within)
        self._listed = self._patterns(self._room)
        self._exact = self._listed is not None and not problem.freely

    def ready(self, held: Counts, bound: Counts, must: int | None) -> list[Counts]:
        """Return the full patterns that can be pressed now with the least offcut."""
        most, within = self._encode(held), self._encoding.within
        found: list[int] = []
        for one in self._having(bound if self._exact else held, must):
            if found and self._area(one) < self._area(found[0]):
                break
            if within(one, most):
                grown = one if self._exact else self._grown(one, held)
                if self._exact or grown == self._grown(grown, bound):
                    found.append(grown)
        return [self._encoding.decode(one) for one in found]

    def target(self, held: Counts, bound: Counts, must: int | None) -> Counts | None:
        """Return the full pattern that lacks the fewest inserts; None when nothing waits.

        Where not all patterns are known, what waits is laid first.
        """
        most, decode = self._encode(held), self._encoding.decode
        full = self._having(bound if self._exact else held, must)
        if not full or not any(held):
            return None

        def wanting(one: int) -> tuple[int, int, int]:
            there = self._encoding.least(one, most)
            return sum(decode(one)) - sum(decode(there)), -self._area(there), -one

        return decode(min(full, key=wanting) if self._exact else self._grown(full[0], bound))

    def every(self, bound: Counts) -> list[Counts]:
        """Return the patterns that are full when no more than ``bound`` is left.

        Some of them only, where there are too many to list.
        """
        full = self._maximal(self._capped(bound))
        if not self._exact:
            full = list(dict.fromkeys(self._grown(one, bound) for one in full[:_SOME]))
        return [self._encoding.decode(one) for one in full]

    def filled(self, part: Counts, bound: Counts) -> Counts:
        """Return a full pattern around ``part``, which the sheet can hold."""
        inner = self._encode(part)
        if not self._exact:
            return self._encoding.decode(self._grown(inner, bound))
        full = self._maximal(self._capped(bound))
        around = next((one for one in full if self._encoding.within(inner, one)), inner)
        return self._encoding.decode(around)

    def _having(self, caps: Counts, must: int | None) -> list[int]:
        """Return patterns within ``caps`` that take what they must, the least offcut first."""
        some = self._maximal(self._capped(caps))
        if must is None:
            return some
        return [one for one in some if self._encoding.decode(one)[must]] or [
            self._encoding.units[must]
        ]

    def _maximal_within(self, caps: Counts) -> list[int]:
        """Return patterns that lie within ``caps`` and in no other, the least offcut first."""
        field, sizes, areas, freely = self._problem
        if self._listed is not None:
            found = set(self._encoding.clip(self._listed, self._encoding.encode(caps)))
        else:
            found = set(self._patterns(caps) or self._patterns(caps, _BEAM) or ())
        if freely and any(caps):
            least = max(map(self._area, found)) * 4 // 5
            found.update(
                self._encoding.encode(one)
                for one in dearest(field, sizes, caps, areas, above=least, beam=BEAMS[1])
            )
        return self._encoding.outermost(found - {0})

    def _patterns(self, caps: Counts, beam: int | None = None) -> list[int] | None:
        """Return all, or those that a beam finds; None if there are too many."""
        field, sizes, areas, _ = self._problem
        effort = None if beam else _EFFORT
        try:
            prize = Prize(areas, field.area, beam)
            found = Patterns(field, sizes, caps=caps, prize=prize, effort=effort).maximal
        except TooMany:
            return None
        return [self._encoding.encode(one) for one in found]

    def _grown(self, code: int, bound: Counts) -> int:
        """Return ``code`` with whatever of ``bound`` finds room, the largest first."""
        decode, place = self._encoding.decode, self._problem.place
        for index in sorted(range(len(bound)), key=lambda i: -self._problem.areas[i]):
            unit = self._encoding.units[index]
            while decode(code)[index] < bound[index] and place(decode(code + unit)) is not None:
                code += unit
        return code

    def _area(self, code: int) -> int:
        return code >> self._encoding.worth_shift

    def _capped(self, counts: Counts) -> Counts:
        return tuple(map(min, counts, self._room))

    def _encode(self, counts: Counts) -> int:
        return self._encoding.encode(self._capped(counts))


fullness = lru_cache(maxsize=32)(Fullness)
"""Kept, so that what a sheet can be full of is worked out only once."""
