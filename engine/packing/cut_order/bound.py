"""What is still to come of settings and turns, bounded from below.

Each edge of an insert that is not cut yet needs a setting that can cut it: as many edges as have
no such setting in common take as many settings, and as often as the cuts must change direction,
the paper must be turned.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache

from engine.packing.cut_order.shapes import Fence, Shapes


class Bound:
    """What states cost at least."""

    def __init__(self, shapes: Shapes) -> None:
        """Prepare for what a sheet can be cut into."""
        self.shapes = shapes
        distances = sorted({setting.distance for setting in shapes.settings})
        self._number = {distance: n for n, distance in enumerate(distances)}
        self.compared = 0
        """Needs that were compared with others so far."""
        self.least = cache(self._least)
        self._needs = cache(self._needs_of)
        self._by_distance = cache(self._with_distances)
        self._disjoint = cache(_disjoint)

    def _least(self, unfinished: int, fence: Fence | None, distance: int | None) -> int:
        """Return how many settings and turns it takes at least to finish shapes, given as bits.

        ``fence`` and ``distance`` tell how the trimmer was left, None for neither.
        """
        if not unfinished:
            return 0
        settings, needs = self._needs(unfinished)
        turns = (self.shapes.turns[n] for n in bits(unfinished))
        away = [fence is not None and fence.upright != upright for upright in (False, True)]
        turned = max(min(map(sum, zip(one, away, strict=True))) for one in turns)
        if distance is not None:
            # It is set already, so that an edge that it can cut may take no more than a turn.
            needs = tuple(need for need in needs if not need >> self._number[distance] & 1)
        return max(settings, self._disjoint(needs) + turned)

    def _needs_of(self, unfinished: int) -> tuple[int, tuple[int, ...]]:
        """Return the least number of settings, and the distances that each edge can be cut by."""
        every = set().union(*(self.shapes.needs[n] for n in bits(unfinished)))
        tight: list[int] = []
        for need in sorted(every, key=lambda one: (one.bit_count(), one)):
            if not any(one & ~need == 0 for one in tight):
                tight.append(need)
        self.compared += len(tight)
        return self._disjoint(tuple(tight)), tuple(dict.fromkeys(map(self._by_distance, tight)))

    def _with_distances(self, need: int) -> int:
        settings = self.shapes.settings
        return sum({1 << self._number[settings[setting].distance] for setting in bits(need)})


def _disjoint(needs: Sequence[int]) -> int:
    """Return how many of ``needs`` have nothing in common, taking first what excludes least."""
    rivals = [0] * len(needs)
    for n, need in enumerate(needs):
        for other in range(n):
            if need & needs[other]:
                rivals[n] |= 1 << other
                rivals[other] |= 1 << n
    left = (1 << len(needs)) - 1
    many = 0
    while left:
        fewest, taken = len(needs), 0
        for n in bits(left):
            count = (rivals[n] & left).bit_count()
            if count < fewest:
                fewest, taken = count, n
                if count < 2:
                    # To take it excludes no more than to leave it.
                    break
        many += 1
        left &= ~(rivals[taken] | 1 << taken)
    return many


def bits(number: int) -> Iterator[int]:
    """Yield which bits of ``number`` are set, from the lowest."""
    while number:
        lowest = number & -number
        yield lowest.bit_length() - 1
        number ^= lowest
