"""What is known of a cover because it was drawn so: its lettering, its subject, its shape.

Everything is in pixels of the finished file, from its upper left corner, y downwards.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from math import cos, radians, sin
from typing import NamedTuple

from msgspec import Struct

from engine.artwork.windows import PixelRect

Point = tuple[float, float]
Quad = tuple[Point, Point, Point, Point]
"""The corners of a rectangle, clockwise from what was its upper left before it was turned."""

SIDES = ("left", "top", "right", "bottom")


class Edges(NamedTuple):
    """Something along each side, as fractions of the width or height."""

    left: float = 0.0
    top: float = 0.0
    right: float = 0.0
    bottom: float = 0.0


class Role(StrEnum):
    """What a line of lettering is for."""

    TITLE = "title"
    MAKER = "maker"
    SLOGAN = "slogan"
    SPINE = "spine"
    """Anything on the spine of a flat wrap: the insert's own edge says it anew."""
    BLURB = "blurb"
    """The small text on the back of a flat wrap."""


class Line(Struct, frozen=True):
    """A line of lettering."""

    text: str
    role: Role
    quad: Quad
    """The tightest box around its ink, the outline of the letters included, a shadow not."""
    on: str = ""
    """The bar it stands on, by the bar's side; empty where it stands on the picture."""
    part: str = ""
    """The part of a flat wrap it stands on; empty on any other cover."""

    @property
    def may_go(self) -> bool:
        """Whether a person lets it go, if it goes whole."""
        return self.role is not Role.TITLE


class Subject(Struct, frozen=True):
    """What a photograph is a photograph of."""

    what: str
    kind: str
    """face, animal, thing, or round."""
    quad: Quad
    part: str = ""

    @property
    def exact(self) -> bool:
        """Whether a small stretch is seen on it at once."""
        return self.kind in {"face", "round"}


class Bar(Struct, frozen=True):
    """A bar or banner along a side, none of the art."""

    side: str
    depth: float
    """Part of the width or height of the art."""


class Cover(Struct, frozen=True):
    """A picture file and the truth about it."""

    sort: str
    title: str
    file: str
    size: tuple[int, int]
    lines: tuple[Line, ...]
    subject: Subject | None
    art: Quad
    """What is left when border or scanner glass are off; bars and frame are in it."""
    turn: float = 0.0
    """What puts it straight, in degrees counter-clockwise about the centre of the file."""
    split: tuple[float, float] | None = None
    """Where the spine of a flat wrap begins and ends, as fractions of the art's width."""
    bars: tuple[Bar, ...] = ()
    frame: Edges = Edges()
    """The printed frame along each of SIDES, as fractions of the art's sides; a deep side of it
    that carries lettering is a bar instead."""
    dot: int = 0
    """Pixels to a side of one dot, of a screenshot."""

    @property
    def title_lines(self) -> tuple[Line, ...]:
        """Return the lines that are the title."""
        return tuple(line for line in self.lines if line.role is Role.TITLE)


def corners(box: PixelRect) -> Quad:
    """Return the corners of a box."""
    left, top, right, bottom = box
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def around(points: Iterable[Point]) -> PixelRect:
    """Return the smallest upright box around points."""
    across, down = zip(*points, strict=True)
    return PixelRect(min(across), min(down), max(across), max(down))


def straight(quad: Quad, degrees: float, size: tuple[float, float]) -> Quad:
    """Return a quad after a picture of ``size`` is turned counter-clockwise about its centre."""
    return tuple(turned(point, degrees, (size[0] / 2, size[1] / 2)) for point in quad)  # type: ignore[return-value]


def turned(point: Point, degrees: float, centre: Point) -> Point:
    """Return a point turned counter-clockwise as one sees it, y being downwards."""
    across, down = point[0] - centre[0], point[1] - centre[1]
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return centre[0] + c * across + s * down, centre[1] - s * across + c * down


def middle(quad: Quad) -> PixelRect:
    """Return the upright box whose sides are the middles of a nearly straight quad's sides."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = quad
    return PixelRect((ax + dx) / 2, (ay + by) / 2, (bx + cx) / 2, (cy + dy) / 2)
