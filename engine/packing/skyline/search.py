"""Free placement: a beam search along skylines.

A field is filled from its foot upwards. The lowest notch of the skyline, which is the upper edge
of what lies there, is filled next: a footprint stands in one of its corners, or the notch stays
empty (the skyline heuristic of Burke, Kendall and Whitwell, Operations Research 52(4), 2004,
looked at from many skylines at once). Of those with about as much paper below them only the
best are gone on with, a beam; of patterns below the same skyline, or its mirror image, only the
one worth most. So it finds good patterns soon, and can never say that there is no better one.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from heapq import heappop, heappush
from itertools import count
from math import gcd
from typing import NamedTuple

from engine.model.waiting import Cancel, go_on
from engine.packing.patterns.raster import sums
from engine.packing.patterns.tidiness import Spots
from engine.packing.rectangles import Counts, Field, Footprint, Spot, flipped, total
from engine.packing.skyline.bound import least_sheets

BEAMS = (200, 1_000, 5_000)
"""Ways to go on that are tried from skylines with about as much paper below them: a quick look,
then longer ones."""
_BANDS = 40
"""Skylines that have as many such parts of the field below them compete for the beam."""

_Skyline = tuple[tuple[int, int], ...]
"""Height and width of each level stretch, from left to right."""


class _State(NamedTuple):
    """The pattern worth most that is known below a skyline."""

    worth: int
    counts: Counts
    skyline: _Skyline
    spot: Spot | None = None
    """What was laid last; None for nothing, or for a notch that stays empty."""
    before: _State | None = None


class _BeamSearch:
    """Looks for patterns within ``caps`` that are worth more than ``above``."""

    def __init__(
        self,
        field: Field,
        sizes: Sequence[Footprint],
        caps: Counts,
        worth: Sequence[int],
        above: int,
    ) -> None:
        ways = {
            (i, w, h)
            for i, size in enumerate(sizes)
            for w, h in size.ways
            if caps[i] and worth[i] > 0 and w <= field.width and h <= field.height
        }
        self.worth, self.above, self.caps = worth, above, caps
        self.scarce = [i for i, most in enumerate(field.room(sizes)) if caps[i] < most]
        self.unit = gcd(*(side for _, w, h in ways for side in (w, h))) or 1
        self.ways = sorted((i, w // self.unit, h // self.unit) for i, w, h in ways)
        self.width, self.height = field.width // self.unit, field.height // self.unit
        self.narrowest = min((w for _, w, _ in self.ways), default=0)
        self.dearest = max((worth[i] / (w * h) for i, w, h in self.ways), default=0.0)
        reach = sums((h for _, _, h in self.ways), self.height)
        rooms = (reach[bisect_right(reach, self.height - y) - 1] for y in range(self.height + 1))
        self.lifted = [self.height - room for room in rooms]
        """Of each height, how high it can be raised without losing room for a footprint."""

    def run(self, beam: int, cancel: Cancel | None) -> Iterator[_State]:
        """Yield what is found; of the same pattern, it may be more than once."""
        area = self.width * self.height
        heap: list[tuple[int, int, int, _State]] = []
        looked = [0] * (_BANDS + 1)
        known: dict[tuple[_Skyline, Counts], int] = {}
        turn = count()
        reached = [_State(0, (0,) * len(self.caps), ((0, self.width),))]
        while reached or heap:
            for state in reached:
                either = min(state.skyline, state.skyline[::-1])
                key = either, tuple(state.counts[i] for i in self.scarce)
                below = sum(y * w for y, w in state.skyline)
                hoped = state.worth + self.dearest * (area - below) * 1.000001
                if known.get(key, -1) < state.worth and hoped > self.above:
                    known[key] = state.worth
                    merit = state.worth * area - self.above * below
                    heappush(heap, (below * _BANDS // area, -merit, next(turn), state))
            reached = []
            if heap:
                band, _, _, state = heappop(heap)
                looked[band] += len(self.ways)
                if looked[band] <= beam:
                    go_on(cancel)
                    if state.worth > self.above:
                        yield state
                    reached = self._following(state)

    def _following(self, state: _State) -> list[_State]:
        """Return what each footprint makes of the lowest notch, and what leaving it empty does."""
        skyline, counts = state.skyline, state.counts
        at = min(range(len(skyline)), key=lambda k: skyline[k][0])
        y, width = skyline[at]
        before, after = skyline[:at], skyline[at + 1 :]
        x = sum(w for _, w in before)
        found = []
        for i, w, h in self.ways:
            if w <= width and y + h <= self.height and counts[i] < self.caps[i]:
                more = (*counts[:i], counts[i] + 1, *counts[i + 1 :])
                for left in sorted({0, width - w}):
                    parts = ((y, left), (y + h, w), (y, width - w - left))
                    raised = self._settled((*before, *(one for one in parts if one[1]), *after))
                    spot = Spot(i, x + left, y, w, h)
                    found.append(_State(state.worth + self.worth[i], more, raised, spot, state))
        if len(skyline) > 1:
            walls = [wall for wall, _ in (*before[-1:], *after[:1])]
            raised = self._settled((*before, (min(walls), width), *after))
            found.append(state._replace(skyline=raised, spot=None, before=state))
        return found

    def _settled(self, skyline: _Skyline) -> _Skyline:
        """Return ``skyline`` raised as far as that loses no room.

        Whatever comes above can be pushed up against the upper edge, and a notch narrower than
        any footprint stays empty.
        """
        steps = _joined([(self.lifted[y], w) for y, w in skyline])
        k = 0
        while k < len(steps):
            y, w = steps[k]
            sides = (k - 1, k + 1) if w < self.narrowest else ()
            walls = [steps[n][0] for n in sides if 0 <= n < len(steps)]
            if walls and min(walls) > y:
                steps[k] = min(walls), w
                steps, k = _joined(steps), 0
            else:
                k += 1
        return tuple(steps)

    def spots(self, state: _State | None) -> Iterator[Spot]:
        """Yield where everything lies below a skyline, let down onto what is below it."""
        lying: list[Spot] = []
        while state is not None:
            lying += [state.spot] if state.spot else []
            state = state.before
        down: list[Spot] = []
        for s in sorted(lying, key=lambda spot: spot.y):
            under = (o for o in down if o.x < s.x + s.width and s.x < o.x + o.width)
            down.append(s._replace(y=max((o.y + o.height for o in under), default=0)))
        yield from (Spot(s.size, *(side * self.unit for side in s[1:])) for s in down)


def dearest(
    field: Field,
    sizes: Sequence[Footprint],
    caps: Counts,
    worth: Sequence[int],
    *,
    above: int,
    beam: int,
    cancel: Cancel | None = None,
) -> list[Counts]:
    """Return the patterns found that are worth more than ``above``, those worth most first.

    They are built upon the foot and upon the left side of the field. Raises Cancelled.
    """
    found: dict[Counts, int] = {}
    for flat, turned in ((field, sizes), flipped(field, sizes)):
        for state in _BeamSearch(flat, turned, caps, worth, above).run(beam, cancel):
            found[state.counts] = state.worth
    return sorted(found, key=lambda counts: (-found[counts], counts))


@lru_cache(maxsize=4096)
def scatter(field: Field, sizes: tuple[Footprint, ...], counts: Counts) -> Spots | None:
    """Return where ``counts`` can lie, None if no way was found."""
    wanted = [size for size, count in zip(sizes, counts, strict=True) if count]
    if not all(map(field.fits, wanted)) or least_sheets(field, sizes, counts) > 1:
        return None
    areas = [size.area for size in sizes]
    area = total(counts, areas)
    for upright in (True, False):
        flat, turned = (field, sizes) if upright else flipped(field, sizes)
        search = _BeamSearch(flat, turned, counts, areas, area - 1)
        state = next(search.run(BEAMS[1], None), None)
        if state is not None:
            return tuple(s if upright else s.flipped for s in search.spots(state))
    return None


def _joined(steps: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    joined: list[tuple[int, int]] = []
    for y, w in steps:
        if joined and joined[-1][0] == y:
            joined[-1] = y, joined[-1][1] + w
        else:
            joined.append((y, w))
    return joined
