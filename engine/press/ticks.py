"""Crop and score ticks: where to lay the rule, outside everything that is kept.

A tick is the continuation of a cut or of a score beyond the insert, so a rule laid on two
of them lies on the line. It begins clear of the corner and ends clear of every finished
insert; that it is drawn over bleed does no harm, as bleed is cut off. A score's carries a diamond,
so that nobody cuts there: solid where the score is pressed on the printed side and folds away from
it (a mountain), hollow where it is pressed on the back and folds towards the printed side (a
valley). It has no direction, so two that share a gutter cover each other.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import atan2, cos, degrees, dist, radians, sin
from typing import TYPE_CHECKING, NamedTuple

from engine.press.pens.base import Pen, Ring, Rings

if TYPE_CHECKING:
    from shapely import Geometry

LONGEST = 3.0
"""Length in mm of a tick that has room. Crop marks of the trade are 6 mm long and stand 3.2 mm
off (common practice, no published source); between inserts that nearly touch there is no such
room."""
SHORTEST = 0.3
"""A tick that would be shorter, in mm, is left out."""
SIGN = (0.5, 0.4)
"""Half of a diamond, along the score and across it, in mm."""
STRAIGHT = 1.0
"""Edges shorter than this, in mm, are steps of a rounded corner and get no ticks."""

_GROUND, _INK = "#ffffff", "#000000"

_TOUCHING = 0.01
"""A line that runs this far along or into an insert, in mm, runs into it."""

Point = tuple[float, float]


class Tick(NamedTuple):
    """A hairline, from the end that is nearer to the insert."""

    x1: float
    y1: float
    x2: float
    y2: float


class Score(NamedTuple):
    """The two ends of a score, on the sheet."""

    start: Point
    end: Point
    angle: float = 90.0
    """In degrees, away from the printed side; negative towards it."""

    @property
    def upright(self) -> bool:
        """Whether it runs up the sheet rather than across it."""
        (x1, y1), (x2, y2) = self.start, self.end
        return abs(x1 - x2) < abs(y1 - y2)


class ScoreTick(NamedTuple):
    """A tick on the line of a score, with the diamond that says how it folds."""

    line: Tick
    valley: bool
    """Whether it folds towards the printed side."""
    half: tuple[float, float]
    """Half of its diamond along the line and across it, in mm."""

    def sign(self, by: float = 1.0) -> Ring:
        """Return the outline of the diamond, ``by`` times as large, its first corner nearest."""
        x1, y1, x2, y2 = self.line
        long = dist(self.line[:2], self.line[2:])
        x, y = (x2 - x1) / long, (y2 - y1) / long
        along, across = self.half
        mx, my = x1 + x * along, y1 + y * along
        turns = ((-along, 0.0), (0.0, -across), (along, 0.0), (0.0, across))
        return [(mx + by * (x * a - y * b), my + by * (y * a + x * b)) for a, b in turns]

    @property
    def lines(self) -> tuple[Tick, Tick]:
        """The line, and how far the diamond reaches across it: what others keep off."""
        sign = self.sign()
        return self.line, Tick(*sign[1], *sign[3])


class Waste:
    """The part of a page that may carry ticks: inside an area, clear of finished inserts."""

    def __init__(self, area: Ring, finished: Iterable[Rings], gutter: float) -> None:
        """Take the printable ``area`` and the dielines of all ``finished`` inserts on it.

        A tick stands off from its corner by a quarter of the ``gutter``, at most 0.5 mm: what
        a home trimmer errs (common practice, no published source).
        """
        from shapely import Polygon, unary_union

        self.gap = min(0.5, max(0.2, gutter / 4))
        self._kept: Geometry = unary_union([area_of(rings) for rings in finished])
        self._free: Geometry = Polygon(area) - self._kept.buffer(self.gap * 0.9)

    def tick(self, corner: Point, angle: float, reach: float = 1.0) -> Tick | None:
        """Return the tick that leaves ``corner`` at ``angle``, or None where there is no room.

        ``angle`` is in degrees; ``reach`` stretches the gap, for a tick that leaves at a slant.
        Beside a rounded corner it begins farther off, where it is clear of the curve.
        """
        from shapely import LineString

        x, y = cos(radians(angle)), sin(radians(angle))
        near, far = self.gap * reach, self.gap * reach + LONGEST
        line = LineString([(corner[0] + x * t, corner[1] + y * t) for t in (near, far)])
        clear = self._free.intersection(line)
        pieces = [
            sorted(piece.coords, key=lambda point: dist(point, corner))
            for piece in getattr(clear, "geoms", (clear,))
            if piece.length >= SHORTEST
        ]
        if not pieces:
            return None
        first = min(pieces, key=lambda ends: dist(ends[0], corner))
        if self._kept.intersection(LineString([corner, first[0]])).length > _TOUCHING:
            return None
        return Tick(*first[0], *first[-1])

    def clears(self, ring: Ring) -> bool:
        """Return whether a mark of this outline keeps off every finished insert."""
        from shapely import Polygon

        return bool(self._kept.distance(Polygon(ring)) >= self.gap * 0.9 - _TOUCHING)


def crop_ticks(dieline: Rings, waste: Waste) -> tuple[Tick, ...]:
    """Return the ticks of every corner of a ``dieline``: outlines counter-clockwise, holes not.

    A corner that stands out has one on the line of each of its edges; a corner that goes in,
    where those lines run into the insert, has one that points at it.
    """
    found = (
        waste.tick(corner, angle, reach)
        for ring in dieline
        for corner, angle, reach in _leaving(_straightened(ring))
    )
    return tuple(tick for tick in found if tick is not None)


def score_ticks(scores: Iterable[Score], waste: Waste) -> tuple[ScoreTick, ...]:
    """Return the tick of each end of each score.

    An end in a corner that goes in has none: the crop tick there points at it.
    """
    found = []
    for score in scores:
        for start, end in ((score.start, score.end), (score.end, score.start)):
            line = waste.tick(end, _angle(start, end))
            if line is not None:
                along = min(SIGN[0], dist(line[:2], line[2:]) / 2)
                wide = ScoreTick(line, score.angle < 0, (along, SIGN[1]))
                narrow = wide._replace(half=(along, SIGN[1] / 2))
                found.append(wide if waste.clears(wide.sign()) else narrow)
    return tuple(found)


def draw_ticks(pen: Pen, ticks: Iterable[Tick]) -> None:
    """Draw ``ticks``."""
    for tick in ticks:
        pen.tick(*tick)


def draw_score_ticks(pen: Pen, ticks: Iterable[ScoreTick]) -> None:
    """Draw the ticks of scores, their diamonds on a white ground as lines are."""
    for tick in ticks:
        pen.fill([tick.sign(1.3)], _GROUND)
        pen.tick(*tick.line)
        pen.fill([tick.sign()], _INK)
        if tick.valley:
            pen.fill([tick.sign(0.6)], _GROUND)


def area_of(rings: Rings) -> Geometry:
    """Return the shape that ``rings`` bound by the even-odd rule."""
    from shapely import Polygon

    shape: Geometry = Polygon()
    for ring in rings:
        shape = shape.symmetric_difference(Polygon(ring))
    return shape


def _leaving(corners: Sequence[Point]) -> Iterator[tuple[Point, float, float]]:
    """Give the corner, the angle and the reach of each tick that could leave an outline."""
    ring = [*corners[-1:], *corners, *corners[:1]]
    for before, corner, after in zip(ring, ring[1:], ring[2:], strict=False):
        coming, going = _angle(before, corner), _angle(corner, after)
        longs = dist(before, corner) >= STRAIGHT, dist(corner, after) >= STRAIGHT
        turn = (going - coming + 180) % 360 - 180
        if turn > 0:
            if longs[0]:
                yield corner, coming, 1.0
            if longs[1]:
                yield corner, going + 180, 1.0
        elif all(longs):
            # Midway between both edges it leaves them at half their angle, so it has to go
            # farther to stand as clear of them.
            yield corner, coming + turn / 2 - 90, 1 / sin(radians(180 + turn) / 2)


def _straightened(ring: Ring) -> tuple[Point, ...]:
    """Return the corners of ``ring`` without those that lie on a straight line."""
    points = [*ring[-1:], *ring, *ring[:1]]
    return tuple(
        here
        for before, here, after in zip(points, points[1:], points[2:], strict=False)
        if abs((_angle(here, after) - _angle(before, here) + 180) % 360 - 180) > 0.5
    )


def _angle(start: Point, end: Point) -> float:
    return degrees(atan2(end[1] - start[1], end[0] - start[0]))
