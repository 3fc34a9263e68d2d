"""The fewest settings and turns that finish a sheet: found by a beam, proven by a bound.

A state is the set of shapes that are not finished; however many pieces of a shape there are,
what finishes one finishes all. States are gone through by what they cost, first a beam of them
that cuts whatever a setting can cut, then all that could come to less: with a setting, each piece
that has a use for it may be cut, once or again and again, or be left for later.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import NamedTuple

from engine.packing.cut_order.bound import Bound, bits
from engine.packing.cut_order.shapes import NEVER, Shapes

_BEAM = 60
"""States that are followed up at each cost, before the proof."""
_EFFORT = 100_000
"""Needs that are compared in the proof, half a second or less."""
_FAR = 6
"""A proof is not begun that would have to lift the bound so far: none was ever finished."""


class Last(NamedTuple):
    """How the trimmer was left, by numbers; -1 for a distance that can be of no more use."""

    fence: int = -1
    distance: int = -1


class _State(NamedTuple):
    unfinished: int
    """Shapes, as bits."""
    last: Last


class Order(NamedTuple):
    """Settings one after the other, by their numbers."""

    settings: tuple[int, ...]
    fewest: bool
    """Whether no other order has fewer settings and turns together."""


def order(shapes: Shapes) -> Order | None:
    """Return the settings that finish the last and largest of ``shapes``.

    None when cuts from edge to edge cannot. Effort is counted in comparisons, so that the answer
    is the same on any machine.
    """
    if not shapes.all:
        return Order((), fewest=True)
    if min(shapes.turns[-1]) >= NEVER:
        return None
    return _Search(shapes).order()


class _Search:
    def __init__(self, shapes: Shapes) -> None:
        self.shapes = shapes
        fences, distances = ({}, {})  # type: dict[object, int], dict[int, int]
        self.fence = [fences.setdefault(s.fence, len(fences)) for s in shapes.settings]
        self.distance = [distances.setdefault(s.distance, len(distances)) for s in shapes.settings]
        upright = {fences[s.fence]: s.fence.upright for s in shapes.settings}
        self.bound = Bound(shapes, self.distance, upright)
        self.start = _State(1 << (len(shapes.all) - 1), Last())
        self._parts: dict[tuple[int, int], tuple[int, ...]] = {}
        self._useful: list[int] = []
        """Of each shape: the distances that it may still need, as bits."""
        for ways in shapes.ways:
            useful = 0
            for setting, left in ways.items():
                useful |= 1 << self.distance[setting]
                for n in left:
                    useful |= self._useful[n]
            self._useful.append(useful)

    def order(self) -> Order:
        """Return the best order, and whether it is proven."""
        cost, settings, _ = self._by_cost(NEVER, beam=_BEAM)
        if cost - self._least(self.start) >= _FAR:
            return Order(settings, fewest=False)
        fewer, better, through = self._by_cost(cost, beam=None)
        return Order(better if fewer < cost else settings, fewest=through)

    def _by_cost(self, below: int, *, beam: int | None) -> tuple[int, tuple[int, ...], bool]:
        """Return the cheapest order that costs less than ``below``, what it costs, and whether
        the search went through all.
        """
        levels: dict[int, dict[_State, tuple[_State, int] | None]] = {0: {self.start: None}}
        came: dict[_State, tuple[_State, int] | None] = {}
        seen: dict[int, list[tuple[int, Last]]] = {}
        cost = 0
        while levels and cost < below:
            level = levels.pop(cost, {})
            ranked = sorted(level, key=lambda state: (self._least(state), state))
            for state in ranked[:beam]:
                unfinished, last = state
                known = seen.setdefault(unfinished, [])
                if any(was + _apart(before, last) <= cost for was, before in known):
                    continue
                known.append((cost, last))
                came[state] = level[state]
                if not unfinished:
                    return cost, self._way(came, state), True
                for setting, after in self._next(state, whole=beam is not None):
                    spent = cost + self._change(last, setting)
                    if beam is not None or spent + self._least(after) < below:
                        levels.setdefault(spent, {}).setdefault(after, (state, setting))
                if beam is None and self.bound.compared > _EFFORT:
                    return below, (), False
            cost += 1
        return below, (), True

    def _way(self, came: dict[_State, tuple[_State, int] | None], state: _State) -> tuple[int, ...]:
        settings: list[int] = []
        while (step := came[state]) is not None:
            state, setting = step
            settings.append(setting)
        return tuple(reversed(settings))

    def _least(self, state: _State) -> int:
        return self.bound.least(state.unfinished, *state.last)

    def _next(self, state: _State, *, whole: bool) -> Iterator[tuple[int, _State]]:
        """Yield what each setting can make of a state, all that it can cut first."""
        ways = self.shapes.ways
        shapes = tuple(bits(state.unfinished))
        for setting in sorted({setting for n in shapes for setting in ways[n]}):
            rest = state.unfinished
            choices = []
            for n in shapes:
                if setting in ways[n]:
                    rest &= ~(1 << n)
                    cut = self._cut(n, setting)
                    choices.append(cut[:1] if whole else (*cut, 1 << n))
            found: list[int] = []
            for choice in product(*choices):
                after = rest
                for left in choice:
                    after |= left
                # What leaves more to do than another way to use the setting is no use.
                if after != state.unfinished and not any(one & ~after == 0 for one in found):
                    found.append(after)
                    useful = any(self._useful[n] >> self.distance[setting] & 1 for n in bits(after))
                    distance = self.distance[setting] if useful else -1
                    yield setting, _State(after, Last(self.fence[setting], distance))

    def _cut(self, shape: int, setting: int) -> tuple[int, ...]:
        """Return what is left of a shape that is cut with a setting, the most cuts first."""
        if (shape, setting) not in self._parts:
            left = self.shapes.ways[shape][setting]
            found = []
            for n in left:
                if setting in self.shapes.ways[n]:
                    others = sum({1 << m for m in left if m != n})
                    found += [others | more for more in self._cut(n, setting)]
            self._parts[shape, setting] = (*found, sum({1 << n for n in left}))
        return self._parts[shape, setting]

    def _change(self, last: Last, setting: int) -> int:
        """Return what it costs to go on with ``setting``: one to set it, one for a turn."""
        if last.fence < 0:
            return 1
        return (last.distance != self.distance[setting]) + (last.fence != self.fence[setting])


def _apart(one: Last, other: Last) -> int:
    """Return how much more it can cost at most to go on from ``one`` than from ``other``."""
    return (one.fence != other.fence) + (other.distance not in {-1, one.distance})
