"""How many cases a container holds, and how they stand in it.

Seen from the person, a case in a pose has three sizes: how *thick* it is, along which its
neighbours follow; how *long* its edge is; how far it *reaches* behind the edge. A container has
the same three. On a shelf cases stand in one row from left to right. In a drawer they stand in
rows from front to back, beside each other; in a pile they lie on top of each other, piles beside
each other. Nothing stands before or above what is to be found by its edge.
"""

from __future__ import annotations

from math import floor, inf
from typing import NamedTuple

from engine.cases import Box, Pose
from engine.model.container import Container

_CLOSE = 1e-6
WALL = 1.0
"""The wall of a case whose outside nobody measured, in mm (common practice, no published
source)."""


class Body(NamedTuple):
    """A case in a pose, in mm."""

    thick: float
    long: float
    reach: float


class Space(NamedTuple):
    """A container in the same terms, in mm."""

    run: float
    """Along which cases follow each other."""
    across: float
    """Along their edges: rows lie beside each other in it, but for a shelf's one row."""
    reach: float
    one_row: bool


def body(case: Box, *, at_head: bool) -> Body:
    """Return a case in a pose whose edge is ``at_head``, or at a side."""
    if at_head:
        return Body(case.depth, case.width, case.height)
    return Body(case.depth, case.height, case.width)


def space(container: Container, growth: float = 0.0) -> Space:
    """Return a container's inside, less a part of its room for growth, 0 to 1."""
    left = 1.0 - container.growth * growth
    width, height, depth = container.width, container.height, container.depth
    match Pose(container.pose):
        case Pose.SHELF:
            return Space(width * left, height, depth, one_row=True)
        case Pose.DRAWER:
            return Space(depth * left, width, height, one_row=False)
        case Pose.STACK:
            return Space(height * left, width, depth, one_row=False)


def capacity(one: Body, room: Space) -> int:
    """Return how many cases of one kind stand in a container."""
    if one.reach > room.reach + _CLOSE:
        return 0
    rows = floor((room.across + _CLOSE) / one.long)
    return (min(rows, 1) if room.one_row else rows) * floor((room.run + _CLOSE) / one.thick)


class Filling:
    """A container that is filled with one case after the other, in order.

    Rows are runs of neighbours, each as broad as its longest edge. Of all ways to part the
    cases into rows the one that takes the least breadth is kept, by dynamic programming over
    the last row; so a case finds room here if it does in any way that keeps the order.
    """

    def __init__(self, room: Space) -> None:
        """Begin empty."""
        self._room = room
        self._bodies: list[Body] = []
        self._breadth = [0.0]
        """Of the rows of the first cases, at least."""
        self._thick = 0.0
        """Of all cases."""
        self._begins: list[int] = []
        """Where the last row of the first cases begins."""

    def add(self, one: Body) -> bool:
        """Take one case more; return whether there was room for it, else nothing changes."""
        room = self._room
        least, begin = self._only_row(one) if room.one_row else self._best_row(one)
        if one.reach > room.reach + _CLOSE or least > room.across + _CLOSE:
            return False
        self._bodies.append(one)
        self._breadth.append(least)
        self._begins.append(begin)
        self._thick += one.thick
        return True

    def _only_row(self, one: Body) -> tuple[float, int]:
        """Return the breadth of the one row with a case more, and where it begins."""
        fits = self._thick + one.thick <= self._room.run + _CLOSE
        return (max(self._breadth[-1], one.long), 0) if fits else (inf, 0)

    def _best_row(self, one: Body) -> tuple[float, int]:
        """Return the least breadth of rows with a case more, and where the last of them begins."""
        room, end = self._room, len(self._bodies)
        least, begin = inf, end
        thick = long = 0.0
        for start in range(end, -1, -1):
            last = one if start == end else self._bodies[start]
            thick, long = thick + last.thick, max(long, last.long)
            if thick > room.run + _CLOSE:
                break
            breadth = self._breadth[start] + long
            if breadth < least - _CLOSE:
                least, begin = breadth, start
        return least, begin

    @property
    def rows(self) -> tuple[int, ...]:
        """How many cases each row holds, the first row first."""
        found, end = [], len(self._bodies)
        while end:
            begin = self._begins[end - 1]
            found.append(end - begin)
            end = begin
        return tuple(reversed(found))
