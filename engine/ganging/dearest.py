"""The content that is worth most, when inserts may lie anyhow and there are enough of each.

A sheet is filled from the foot upwards along its skyline. The lowest notch of the skyline is
filled next, and there are three cases only (`engine/ganging/free.py` says why): an insert stands
in its left corner, or off the left wall under one that overhangs, or none on its floor. What can
come above a skyline does not hang on what lies below it, so of all contents with the same skyline
only the dearest is gone on with, and none above a skyline that another, nowhere higher, has
brought at least as much. Skylines go by the paper below them, which every insert adds to: so each
is looked at once, when all that leads to it is known. One is dropped when even the strips above
it (`engine/ganging/roof.py`) could not bring it to what is asked for, or when none of the
contents that reckoning leaves (`engine/ganging/goals.py`) can come of it.

It is a dynamic programme in the manner of Gilmore and Gomory's for edge-to-edge cuts, over
skylines in place of pieces, and exact unless a beam is asked for.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from heapq import heappop, heappush
from math import gcd
from typing import NamedTuple

from engine.ganging.bars import Way
from engine.ganging.footprints import Field, Footprint
from engine.ganging.goals import Goals
from engine.ganging.moves import Moves
from engine.ganging.relaxed import Relaxation
from engine.ganging.roof import Roof, Skyline
from engine.ganging.shadows import Shadows
from engine.ganging.vectors import Counts, total
from engine.ganging.waiting import Cancel, go_on

_BANDS = 40
"""Skylines that have as many such parts of the sheet below them are alike to a beam."""
_ASKED = 256
"""Skylines between two looks at whether the person still waits."""

_Move = tuple[Way | None, Skyline]
"""An insert or none in the lowest notch, and the skyline that it makes."""


class GivenUp(Exception):  # noqa: N818 - nothing went wrong
    """The search took more steps than it was given."""


class _State(NamedTuple):
    """The dearest content known below a skyline."""

    worth: int
    counts: Counts
    goals: int
    """The goals that it may yet grow into."""


class Dearest:
    """Looks for contents that are worth much; lengths are brought to their common unit."""

    def __init__(
        self,
        field: Field,
        sizes: Sequence[Footprint],
        worth: Sequence[int],
        relaxation: Relaxation,
        cancel: Cancel | None = None,
    ) -> None:
        """Prepare for ``sizes``, of which at least one must be worth something and fit."""
        self.worth = tuple(worth)
        self.relaxation = relaxation
        self.cancel = cancel
        self.steps = 0
        """Skylines, new or known, that searches have come to so far."""
        lying = sorted(
            {
                (i, w, h)
                for i, size in enumerate(sizes)
                for w, h in size.ways
                if worth[i] > 0 and w <= field.width and h <= field.height
            }
        )
        # The skyline grows on the shorter side, where there are fewer of them.
        if field.width > field.height:
            lying = [(i, h, w) for i, w, h in lying]
        unit = gcd(*(side for _, w, h in lying for side in (w, h)))
        self.width, self.height = sorted((field.width // unit, field.height // unit))
        self.ways = tuple(Way(i, w // unit, h // unit, worth[i]) for i, w, h in lying)
        self.lying = [
            [(way.width, way.height) for way in self.ways if way.size == i]
            for i in range(len(sizes))
        ]
        self.roof = Roof(self.width, self.height, self.ways)

    @property
    def most(self) -> int:
        """Return what no content can be worth more than, told without looking for any."""
        return self.roof.over(((0, self.width),))

    def above(
        self, least: int, *, many: int, effort: int, beam: int | None = None
    ) -> list[tuple[int, Counts]]:
        """Return up to ``many`` contents worth more than ``least``, the dearest of all first.

        None is worth more when there are none. With a ``beam``, only so many skylines above
        about as much paper are gone on with, and some contents may be missed. Raises GivenUp
        after ``effort`` steps, and Cancelled.
        """
        hoped = self.relaxation.above(self.worth, least)
        goals = Goals(hoped, self.width, self.height, self.lying)
        search = _Search(self, least, goals, beam)
        until = self.steps + effort
        for looked, steps in enumerate(search.run()):
            self.steps += steps
            if self.steps > until:
                raise GivenUp
            if looked % _ASKED == 0:
                go_on(self.cancel)
        found = sorted(((worth, counts) for counts, worth in search.found.items()), reverse=True)
        return found[:many]


class _Search:
    """One search, for contents worth more than ``least``."""

    def __init__(self, of: Dearest, least: int, goals: Goals, beam: int | None) -> None:
        self.width, self.height = of.width, of.height
        self.ways, self.roof, self.goals = of.ways, of.roof, goals
        self.least = least
        self.beam = beam
        self.areas = [max((w * h for w, h in ways), default=0) for ways in of.lying]
        self.moves = Moves(of.width, of.height, of.ways)
        self.found: dict[Counts, int] = {}
        ground: Skyline = ((0, self.width),)
        self.known = {ground: _State(0, (0,) * len(of.worth), goals.all)}
        self.heap: list[tuple[int, int, Skyline]] = [(0, 0, ground)]
        self.shadows = Shadows(self.width)
        # A notch left empty makes a skyline that is nowhere lower and worth the same, and may yet
        # be the only way on: it must not be dropped for the very one that it comes of.
        self.raised_only: set[Skyline] = set()

    def run(self) -> Iterator[int]:
        """Look at one skyline after another; yield how many it led to."""
        looked = Counter[int]()
        while self.heap:
            order, _, skyline = heappop(self.heap)
            looked[order] += 1
            if self.beam is not None and looked[order] > self.beam:
                continue
            state = self.known[skyline]
            if state.worth > self.least:
                self.found[state.counts] = state.worth
            if skyline in self.raised_only or not self.shadows.cover(skyline, state.worth):
                self.shadows.remember(skyline, state.worth)
                yield 1 + sum(self._follow(state, *move) for move in self._moves(skyline, state))

    def _follow(self, state: _State, way: Way | None, raised: Skyline) -> int:
        """Note what a move leads to, if that may become something; return the one step it is."""
        worth, counts, goals = state
        if way:
            worth += way.worth
            counts = _with(counts, way.size)
            goals &= self.goals.holding(way.size, counts[way.size])
        following = self.moves.settled(raised)
        before = self.known.get(following)
        if before and before.worth >= worth:
            if way is None and before.worth == worth:
                self.raised_only.add(following)
            return 1
        below = _below(following)
        goals = self._open(goals, counts, following, below - self._area(counts), worth)
        if goals:
            if self.beam is not None:
                order = below * _BANDS // (self.width * self.height)
                heappush(self.heap, (order, -worth - self.roof.over(following), following))
            elif not before:
                heappush(self.heap, (below, 0, following))
            self.known[following] = _State(worth, counts, goals)
            if way is None:
                self.raised_only.add(following)
            else:
                self.raised_only.discard(following)
        return 1

    def _open(self, goals: int, counts: Counts, skyline: Skyline, waste: int, worth: int) -> int:
        """Return those of ``goals`` that may come of a skyline, if its room is enough."""
        goals &= self.goals.sparing(waste)
        missing = self.least - worth
        if not goals or self.roof.over(skyline, missing + 1) <= missing:
            return 0
        columns = [(w, self.height - y) for y, w in skyline]
        rows = [(high, run) for high, run, _ in self.roof.rows_of(skyline)]
        return self.goals.reachable(goals, counts, columns, rows, waste)

    def _moves(self, skyline: Skyline, state: _State) -> Iterator[_Move]:
        """Yield what can be done in the lowest notch and serves a goal."""
        serves = [state.goals & self.goals.holding(i, n + 1) for i, n in enumerate(state.counts)]
        ways = [way for way in self.ways if serves[way.size]]
        waste = _below(skyline) - self._area(state.counts)
        missing = self.least - state.worth

        def bearable(aside: Skyline, gap: int) -> bool:
            return (
                state.goals & self.goals.sparing(waste + gap) != 0
                and self.roof.over(aside, missing + 1) > missing
            )

        return self.moves.of(skyline, ways, bearable)

    def _area(self, counts: Counts) -> int:
        return total(counts, self.areas)


def _with(counts: Counts, index: int) -> Counts:
    return (*counts[:index], counts[index] + 1, *counts[index + 1 :])


def _below(skyline: Skyline) -> int:
    return sum(y * w for y, w in skyline)
