"""The fewest settings and turns that finish a sheet: found by a beam, proven by best-first search.

A state is the set of shapes that are not finished; however many pieces of a shape there are,
what finishes one finishes all. With a setting, each piece that has a use for it may be cut,
once or again and again, or be left for later.

What is still to come is bounded from below (`_Bound`): each edge of an insert needs a setting that
can cut it, so as many edges as have no such setting in common take as many settings, and as
often as the cuts must change direction, the paper must be turned. The search is A* (Hart,
Nilsson, Raphael, IEEE Transactions on Systems Science and Cybernetics 4(2), 1968).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from heapq import heappop, heappush
from itertools import product
from typing import NamedTuple

from engine.ganging.inhand import NEVER, Fence, Shapes

_WIDTH = 60
"""States that the beam follows up at each cost, before the proof."""
_WIDE = 200
"""And once more where there is no proof; more of them hardly ever found a better order."""
_EFFORT = 80_000
"""Needs that are compared in the proof, half a second or less."""
_FAR = 6
"""A proof is not begun that would have to lift the bound so far: none was ever finished."""
_FENCES = tuple(Fence)

Keys = tuple[int, ...]
"""Settings one after the other, by their numbers."""


class Found(NamedTuple):
    """An order of settings."""

    keys: Keys
    fewest: bool
    """Whether no other order has fewer settings and turns together."""


class _Last(NamedTuple):
    """How the trimmer was left; -1 for a distance that can be of no more use."""

    fence: int = -1
    distance: int = -1


class _State(NamedTuple):
    unfinished: int
    """Shapes, as bits."""
    last: _Last


def fewest(shapes: Shapes) -> Found | None:
    """Return the settings that finish the last and largest of ``shapes``.

    None when cuts from edge to edge cannot. Limited in states looked at, so that the answer is
    the same on any machine.
    """
    if not shapes.all:
        return Found((), fewest=True)
    if min(shapes.turns[-1]) >= NEVER:
        return None
    search = _Search(shapes)
    cost, keys = search.beam(_WIDTH)
    if cost - search.bound.least(search.start) < _FAR:
        found = search.best(cost, keys)
        if found.fewest:
            return found
    wide_cost, wide = search.beam(_WIDE)
    return Found(wide if wide_cost < cost else keys, fewest=False)


class _Search:
    def __init__(self, shapes: Shapes) -> None:
        self.shapes = shapes
        distances: dict[int, int] = {}
        self.fence = [_FENCES.index(key.fence) for key in shapes.keys]
        self.distance = [distances.setdefault(key.distance, len(distances)) for key in shapes.keys]
        self.bound = _Bound(shapes, self.distance)
        self.start = _State(1 << (len(shapes.all) - 1), _Last())
        self._uncut = [shape.uncut for shape in shapes.all]
        self._rank: dict[int, tuple[int, int]] = {}
        self._parts: dict[tuple[int, int], tuple[int, ...]] = {}
        self._distances: list[int] = []
        """Of each shape: the distances that it may still need, as bits."""
        for ways in shapes.ways:
            later = 0
            for key, way in ways.items():
                later |= 1 << self.distance[key]
                for n in way.left:
                    later |= self._distances[n]
            self._distances.append(later)

    def beam(self, width: int) -> tuple[int, Keys]:
        """Return what the best order costs that cuts whatever a setting can cut, and the order."""
        levels: dict[int, dict[_State, Keys]] = {0: {self.start: ()}}
        settled: set[_State] = set()
        cost = 0
        while True:
            level = levels.pop(cost, {})
            fresh = [state for state in level if state not in settled]
            ranked = sorted(fresh, key=lambda one: (self._to_do(one.unfinished), level[one]))
            for state in ranked[:width]:
                if not state.unfinished:
                    return cost, level[state]
                settled.add(state)
                for key, after in self._next(state, whole=True):
                    ahead = levels.setdefault(cost + self._change(state.last, key), {})
                    ahead.setdefault(after, (*level[state], key))
            cost += 1

    def best(self, cost: int, keys: Keys) -> Found:
        """Return the cheapest order, which costs at most as much as that of ``keys``."""
        costs: dict[int, dict[_Last, int]] = {self.start.unfinished: {self.start.last: 0}}
        came: dict[_State, tuple[_State, int]] = {}
        heap = [(self.bound.least(self.start), 0, self.start)]
        while heap:
            least, so_far, state = heappop(heap)
            if least >= cost:
                break
            if not state.unfinished:
                return Found(self._way(came, state), fewest=True)
            if costs[state.unfinished].get(state.last) != -so_far:
                continue
            for key, after in self._next(state, whole=False):
                spent = self._change(state.last, key) - so_far
                known = costs.setdefault(after.unfinished, {})
                if any(known[last] + _apart(last, after.last) <= spent for last in known):
                    continue
                known[after.last] = spent
                least = spent + self.bound.least(after)
                if least < cost:
                    came[after] = state, key
                    heappush(heap, (least, -spent, after))
            if self.bound.compared > _EFFORT:
                return Found(keys, fewest=False)
        return Found(keys, fewest=True)

    def _way(self, came: dict[_State, tuple[_State, int]], state: _State) -> Keys:
        keys: list[int] = []
        while state in came:
            state, key = came[state]
            keys.append(key)
        return tuple(reversed(keys))

    def _next(self, state: _State, *, whole: bool) -> Iterator[tuple[int, _State]]:
        """Yield what each setting can make of a state, all that it can cut first."""
        shapes = tuple(_bits(state.unfinished))
        for key in sorted({key for n in shapes for key in self.shapes.ways[n]}):
            rest = state.unfinished
            choices = []
            for n in shapes:
                if key in self.shapes.ways[n]:
                    rest &= ~(1 << n)
                    cut = self._cut(n, key)
                    choices.append(cut[:1] if whole else (*cut, 1 << n))
            seen: list[int] = []
            for choice in product(*choices):
                after = rest
                for left in choice:
                    after |= left
                # What leaves more to do than another way to use the setting is no use.
                if after != state.unfinished and not any(one & ~after == 0 for one in seen):
                    seen.append(after)
                    yield key, _State(after, self._left_at(after, key))

    def _to_do(self, unfinished: int) -> tuple[int, int]:
        """Return how many lengths, and how many edges of inserts, are still to be cut."""
        if unfinished not in self._rank:
            lengths: set[tuple[int, int]] = set()
            edges = 0
            for n in _bits(unfinished):
                own, uncut = self._uncut[n]
                lengths |= own
                edges += uncut
            self._rank[unfinished] = len(lengths), edges
        return self._rank[unfinished]

    def _left_at(self, unfinished: int, key: int) -> _Last:
        useful = any(self._distances[n] >> self.distance[key] & 1 for n in _bits(unfinished))
        return _Last(self.fence[key], self.distance[key] if useful else -1)

    def _cut(self, shape: int, key: int) -> tuple[int, ...]:
        """Return what is left of a shape that is cut with a setting, the most cuts first."""
        if (shape, key) not in self._parts:
            left = self.shapes.ways[shape][key].left
            found = []
            for n in left:
                if key in self.shapes.ways[n]:
                    others = [1 << m for m in left if m != n]
                    found += [sum(others) | more for more in self._cut(n, key)]
            once = 0
            for n in left:
                once |= 1 << n
            self._parts[shape, key] = (*found, once)
        return self._parts[shape, key]

    def _change(self, last: _Last, key: int) -> int:
        """Return what it costs to go on with ``key``: one for a setting, one for a turn."""
        if last.fence < 0:
            return 1
        return (last.distance != self.distance[key]) + (last.fence != self.fence[key])


def _apart(one: _Last, other: _Last) -> int:
    """Return how much more it can cost at most to go on from ``one`` than from ``other``."""
    return (one.fence != other.fence) + (other.distance not in {-1, one.distance})


class _Bound:
    """What states cost at least."""

    def __init__(self, shapes: Shapes, distances: Sequence[int]) -> None:
        self.shapes = shapes
        self.distances = distances
        self.compared = 0
        """Needs that were compared with others so far."""
        self._packed: dict[int, tuple[int, tuple[int, ...]]] = {}
        self._projected: dict[int, int] = {}
        self._memo: dict[_State, int] = {}

    def least(self, state: _State) -> int:
        """Return how many settings and turns it takes at least to finish a state."""
        if state not in self._memo:
            self._memo[state] = self._least(*state)
        return self._memo[state]

    def _least(self, unfinished: int, last: _Last) -> int:
        if not unfinished:
            return 0
        settings, projected = self._needs(unfinished)
        turns = self.shapes.turns
        if last.fence < 0:
            turned = max(min(turns[n]) for n in _bits(unfinished))
            return max(settings, _packed(projected) + turned)
        own = _FENCES[last.fence].upright
        turned = max(min(turns[n][own], 1 + turns[n][not own]) for n in _bits(unfinished))
        if last.distance >= 0:
            # It is set already, so that an edge that it can cut may take no more than a turn.
            projected = tuple(one for one in projected if not one >> last.distance & 1)
        return max(settings, _packed(projected) + turned)

    def _needs(self, unfinished: int) -> tuple[int, tuple[int, ...]]:
        """Return the least number of settings, and the distances that each edge can be cut by."""
        if unfinished not in self._packed:
            needs: set[int] = set()
            for n in _bits(unfinished):
                needs |= self.shapes.needs[n]
            tight: list[int] = []
            for need in sorted(needs, key=lambda one: (one.bit_count(), one)):
                if not any(one & ~need == 0 for one in tight):
                    tight.append(need)
            self.compared += len(tight)
            projected = tuple(dict.fromkeys(map(self._project, tight)))
            self._packed[unfinished] = _packed(tight), projected
        return self._packed[unfinished]

    def _project(self, need: int) -> int:
        if need not in self._projected:
            found = 0
            for key in _bits(need):
                found |= 1 << self.distances[key]
            self._projected[need] = found
        return self._projected[need]


def _packed(needs: Sequence[int]) -> int:
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
        fewest_rivals, taken = len(needs), 0
        for n in _bits(left):
            count = (rivals[n] & left).bit_count()
            if count < fewest_rivals:
                fewest_rivals, taken = count, n
                if count < 2:
                    # To take it excludes no more than to leave it.
                    break
        many += 1
        left &= ~(rivals[taken] | 1 << taken)
    return many


def _bits(number: int) -> Iterator[int]:
    while number:
        lowest = number & -number
        yield lowest.bit_length() - 1
        number ^= lowest
