"""The fewest settings and turns that finish a sheet: found by a beam, proven by a bound.

A state is the set of shapes that are not finished; however many pieces of a shape there are,
what finishes one finishes all. States are gone through by what they cost, first a beam of them
that cuts whatever a setting can cut, then all that could come to less: with a setting, each piece
that has a use for it may be cut, once or again and again, or be left for later.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import product
from typing import NamedTuple

from engine.packing.cut_order.bound import Bound, bits
from engine.packing.cut_order.shapes import NEVER, Fence, Shapes

_BEAM = 60
"""States that are followed up at each cost, before the proof."""
_EFFORT = 100_000
"""Needs that are compared in the proof, half a second or less."""
_FAR = 6
"""A proof is not begun that would have to lift the bound so far: none was ever finished."""


class State(NamedTuple):
    """What is to be finished, and how the trimmer was left."""

    unfinished: int
    """Shapes, as bits."""
    fence: Fence | None = None
    distance: int | None = None


_Step = tuple[State, int]
"""A state, and the setting that it was left with."""


def order(shapes: Shapes) -> tuple[tuple[int, ...], bool] | None:
    """Return the settings that finish the last and largest of ``shapes``, by their numbers.

    Second comes whether no others are fewer, with the turns between them. None when cuts from edge
    to edge cannot. Effort is counted in comparisons: the answer is the same on any machine.
    """
    if not shapes.all:
        return (), True
    if min(shapes.turns[-1]) >= NEVER:
        return None
    search = _Search(shapes)
    cost, settings, _ = search.by_cost(NEVER, beam=_BEAM)
    if cost - search.bound.least(*search.start) >= _FAR:
        return settings, False
    fewer, better, through = search.by_cost(cost, beam=None)
    return (better if fewer < cost else settings), through


class _Search:
    def __init__(self, shapes: Shapes) -> None:
        self.shapes = shapes
        self.bound = Bound(shapes)
        self.start = State(1 << (len(shapes.all) - 1))
        self.cut = cache(self._cut)

    def by_cost(self, below: int, *, beam: int | None) -> tuple[int, tuple[int, ...], bool]:
        """Return the cheapest order below a cost, and what it costs.

        Last comes whether the search went through all, where no ``beam`` narrows it.
        """
        least = self.bound.least
        levels: dict[int, dict[State, _Step | None]] = {0: {self.start: None}}
        came: dict[State, _Step | None] = {}
        seen: dict[int, list[tuple[int, State]]] = {}
        for cost in range(below):
            level = levels.pop(cost, {})
            for state in sorted(level, key=lambda one: (least(*one), one.unfinished))[:beam]:
                known = seen.setdefault(state.unfinished, [])
                if any(was + _apart(before, state) <= cost for was, before in known):
                    continue
                known.append((cost, state))
                came[state] = level[state]
                if not state.unfinished:
                    return cost, _way(came, state), True
                for setting, after in self._next(state, whole=beam is not None):
                    spent = cost + self._change(state, setting)
                    if beam is not None or spent + least(*after) < below:
                        levels.setdefault(spent, {}).setdefault(after, (state, setting))
                if beam is None and self.bound.compared > _EFFORT:
                    return below, (), False
            if not levels:
                break
        return below, (), True

    def _next(self, state: State, *, whole: bool) -> Iterator[tuple[int, State]]:
        """Yield what each setting can make of a state, all that it can cut first."""
        ways = self.shapes.ways
        shapes = tuple(bits(state.unfinished))
        for setting in sorted({setting for n in shapes for setting in ways[n]}):
            fence, distance = self.shapes.settings[setting]
            choices = [
                (self.cut(n, setting)[:1] if whole else (*self.cut(n, setting), 1 << n))
                if setting in ways[n]
                else (1 << n,)
                for n in shapes
            ]
            found: list[int] = []
            for choice in product(*choices):
                after = 0
                for left in choice:
                    after |= left
                # What leaves more to do than another way to use the setting is no use.
                if after != state.unfinished and not any(one & ~after == 0 for one in found):
                    found.append(after)
                    yield setting, State(after, fence, distance)

    def _cut(self, shape: int, setting: int) -> tuple[int, ...]:
        """Return what is left of a shape that is cut with a setting, the most cuts first."""
        left = {1 << n: n for n in self.shapes.ways[shape][setting]}
        found = [
            sum(left) - bit | more
            for bit, n in left.items()
            if setting in self.shapes.ways[n]
            for more in self.cut(n, setting)
        ]
        return (*found, sum(left))

    def _change(self, state: State, setting: int) -> int:
        """Return what it costs to go on with ``setting``: one to set it, one for a turn."""
        fence, distance = self.shapes.settings[setting]
        return (state.distance != distance) + (state.fence not in {None, fence})


def _way(came: dict[State, _Step | None], state: State) -> tuple[int, ...]:
    step = came[state]
    return () if step is None else (*_way(came, step[0]), step[1])


def _apart(one: State, other: State) -> int:
    """Return how much more it can cost at most to go on from ``one`` than from ``other``."""
    return (one.fence != other.fence) + (other.distance not in {None, one.distance})
