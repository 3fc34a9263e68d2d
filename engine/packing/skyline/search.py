"""Free placement: a beam search along skylines.

A field is filled from its foot upwards. The lowest notch of the skyline, which is the upper edge
of what lies there, is filled next: a footprint stands in its left corner, or the notch stays
empty (the skyline heuristic of Burke, Kendall and Whitwell, Operations Research 52(4), 2004,
looked at from many skylines at once). Of those with about as much paper below them only the
best are gone on with, a beam; of patterns with the same skyline only the one worth most. So it
finds good patterns soon, and can never say that there is no better one.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from functools import lru_cache
from heapq import heappop, heappush
from math import gcd
from typing import NamedTuple

from engine.packing.cancelling import Cancel, go_on
from engine.packing.patterns.raster import sums
from engine.packing.rectangles import Counts, Field, Footprint, Spot, total

BEAMS = (12, 60, 240)
"""Skylines with about as much paper below them that are gone on with: a quick look, a usual
one and a long one."""
_BANDS = 40
"""Skylines that have as many such parts of the field below them compete for the beam."""
_ASKED = 256
"""Skylines between two looks at whether anyone still waits."""

Skyline = tuple[tuple[int, int], ...]
"""Height and width of each level stretch, from left to right."""


class State(NamedTuple):
    """What lies below a skyline."""

    worth: int
    counts: Counts
    skyline: Skyline
    spot: Spot | None = None
    """What was laid last; None for nothing, or for a notch that stays empty."""
    before: State | None = None


class Search:
    """Patterns within ``caps`` that are worth more than ``above``."""

    def __init__(
        self,
        field: Field,
        sizes: Sequence[Footprint],
        caps: Counts,
        worth: Sequence[int],
        above: int,
    ) -> None:
        """Prepare; lengths are brought to their common unit."""
        ways = {
            (i, w, h)
            for i, size in enumerate(sizes)
            for w, h in size.ways
            if caps[i] and worth[i] > 0 and w <= field.width and h <= field.height
        }
        self.unit = gcd(*(side for _, w, h in ways for side in (w, h))) or 1
        self.ways = sorted((i, w // self.unit, h // self.unit) for i, w, h in ways)
        self.width, self.height = field.width // self.unit, field.height // self.unit
        self.worth, self.above, self.caps = worth, above, caps
        room = field.room(sizes)
        self.scarce = [i for i, cap in enumerate(caps) if cap < room[i]]
        self.narrowest = min((w for _, w, _ in self.ways), default=0)
        self.dearest = max((worth[i] / (w * h) for i, w, h in self.ways), default=0.0)
        reach = sums((h for _, _, h in self.ways), self.height)
        self.lifted = [
            self.height - reach[bisect_right(reach, self.height - y) - 1]
            for y in range(self.height + 1)
        ]
        """Of each height, how high it can be raised without losing room for a footprint."""

    def run(self, beam: int, cancel: Cancel | None = None) -> Iterator[State]:
        """Yield what is found; a state may be worth more than one before it."""
        if not self.ways:
            return
        area = self.width * self.height
        heap: list[tuple[int, int, int, State]] = []
        looked = [0] * (_BANDS + 1)
        known: dict[tuple[Skyline, Counts], int] = {}
        reached = [State(0, (0,) * len(self.caps), ((0, self.width),))]
        steps = 0
        while True:
            for state in reached:
                key = state.skyline, tuple(state.counts[i] for i in self.scarce)
                below = sum(y * w for y, w in state.skyline)
                hoped = state.worth + self.dearest * (area - below)
                if known.get(key, -1) < state.worth and hoped * 1.000001 > self.above:
                    known[key] = state.worth
                    steps += 1
                    merit = state.worth * area - self.above * below
                    heappush(heap, (below * _BANDS // area, -merit, steps, state))
            if not heap:
                return
            band, _, _, state = heappop(heap)
            looked[band] += 1
            reached = []
            if looked[band] <= beam:
                if steps % _ASKED == 0:
                    go_on(cancel)
                if state.worth > self.above:
                    yield state
                reached = self._following(state)

    def _following(self, state: State) -> list[State]:
        """Return what each footprint makes of the lowest notch, and what leaving it empty does."""
        skyline = state.skyline
        at = min(range(len(skyline)), key=lambda k: skyline[k][0])
        y, width = skyline[at]
        before, after = skyline[:at], skyline[at + 1 :]
        x = sum(w for _, w in before)
        found = []
        for i, w, h in self.ways:
            if w <= width and y + h <= self.height and state.counts[i] < self.caps[i]:
                rest = ((y, width - w),) if width > w else ()
                raised = self._settled((*before, (y + h, w), *rest, *after))
                counts = (*state.counts[:i], state.counts[i] + 1, *state.counts[i + 1 :])
                spot = Spot(i, x, y, w, h)
                found.append(State(state.worth + self.worth[i], counts, raised, spot, state))
        if len(skyline) > 1:
            walls = [y for y, _ in (*before[-1:], *after[:1])]
            raised = self._settled((*before, (min(walls), width), *after))
            found.append(state._replace(skyline=raised, spot=None, before=state))
        return found

    def _settled(self, skyline: Skyline) -> Skyline:
        """Return ``skyline`` raised as far as that loses no room.

        Whatever comes above can be pushed up against the upper edge, and a notch narrower than
        any footprint stays empty.
        """
        steps = _joined([(self.lifted[y], w) for y, w in skyline])
        k = 0
        while k < len(steps):
            y, w = steps[k]
            walls = [steps[n][0] for n in (k - 1, k + 1) if 0 <= n < len(steps)]
            if w < self.narrowest and walls and min(walls) > y:
                steps[k] = min(walls), w
                steps, k = _joined(steps), 0
            else:
                k += 1
        return tuple(steps)


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

    Both the foot and the left side of the field are built upon. Raises Cancelled.
    """
    found: dict[Counts, int] = {}
    for turned in (False, True):
        search = Search(*_turned(turned, field, sizes), caps, worth, above)
        for state in search.run(beam, cancel):
            found[state.counts] = state.worth
    return sorted(found, key=lambda counts: (-found[counts], counts))


@lru_cache(maxsize=4096)
def scatter(
    field: Field, sizes: tuple[Footprint, ...], counts: Counts, beam: int = BEAMS[1]
) -> tuple[Spot, ...] | None:
    """Return where ``counts`` can lie, None if no way was found."""
    areas = [size.area for size in sizes]
    area = total(counts, areas)
    if not area <= field.width * field.height:
        return None
    for turned in (False, True):
        search = Search(*_turned(turned, field, sizes), counts, areas, area - 1)
        state = next(search.run(beam), None)
        if state is not None:
            spots = _dropped(_spots(state), search.unit)
            return tuple(spot.flipped for spot in spots) if turned else tuple(spots)
    return None


def _turned(
    turned: bool,  # noqa: FBT001 - either way round
    field: Field,
    sizes: Sequence[Footprint],
) -> tuple[Field, list[Footprint]]:
    if not turned:
        return field, list(sizes)
    return Field(field.height, field.width), [Footprint(s.height, s.width, s.turns) for s in sizes]


def _spots(state: State | None) -> Iterator[Spot]:
    while state is not None:
        if state.spot is not None:
            yield state.spot
        state = state.before


def _dropped(spots: Iterator[Spot], unit: int) -> list[Spot]:
    """Return ``spots`` let down onto what lies below them, in their own units."""
    lying: list[Spot] = []
    for s in sorted(spots, key=lambda spot: spot.y):
        under = (o for o in lying if o.x < s.x + s.width and s.x < o.x + o.width)
        y = max((o.y + o.height for o in under), default=0)
        lying.append(s._replace(y=y))
    return [Spot(s.size, s.x * unit, s.y * unit, s.width * unit, s.height * unit) for s in lying]


def _joined(steps: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    joined: list[tuple[int, int]] = []
    for y, w in steps:
        if joined and joined[-1][0] == y:
            joined[-1] = y, joined[-1][1] + w
        else:
            joined.append((y, w))
    return joined
