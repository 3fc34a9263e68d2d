"""What a pen can do, and how a drawing is moved before it reaches one.

A thing draws itself once, in its own frame; where it lands (turned on a sheet, alone on a
proof) is the matter of a transform, and what comes of it (a page, a cutting file, a list of
what was drawn) the matter of the pen.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from math import radians
from typing import Protocol

from fontTools.misc.transform import Transform

from engine.model import Rect, TextRun

PNG_SIGNATURE = b"\x89PNG\r\n\x1a\n"
"""How a PNG begins (W3C Portable Network Graphics, 5.2)."""

Ring = Sequence[tuple[float, float]]
"""A closed outline in mm, its first point not repeated."""
Rings = Sequence[Ring]
"""Outlines of which each point inside an odd number of them is covered (even-odd rule)."""


class Pen(Protocol):
    """Anything a drawing can be drawn onto: lengths in mm, y upwards, colours ``#rrggbb``."""

    def fill(self, rings: Rings, colour: str) -> None:
        """Cover the inside of ``rings`` with ``colour``."""

    def image(self, data: bytes, at: Transform) -> None:
        """Draw a JPEG or PNG; ``at`` takes the unit square, picture upright, to its place."""

    def text(self, run: TextRun, at: Transform, colour: str) -> None:
        """Set ``run``; ``at`` takes the start of its baseline, in mm along it, to its place."""

    def cut(self, rings: Rings) -> None:
        """Draw ``rings`` as lines to be cut along."""

    def score(self, x1: float, y1: float, x2: float, y2: float, angle: float) -> None:
        """Draw a line to be scored, then folded by ``angle`` degrees."""

    def tick(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """Draw a hairline mark that shows on any ground."""

    def register(self, x: float, y: float, diameter: float) -> None:
        """Draw a disc by which a machine that cuts the page finds it."""

    def clip(self, rings: Rings) -> AbstractContextManager[None]:
        """Return a context in which nothing outside ``rings`` is drawn."""


def moved(pen: Pen, at: Transform) -> Pen:
    """Return a pen that draws onto ``pen`` all it is given, moved by ``at`` (lengths kept)."""
    return _MovedPen(pen, at)


class _MovedPen:
    def __init__(self, pen: Pen, at: Transform) -> None:
        self._pen = pen
        self._at = at

    def fill(self, rings: Rings, colour: str) -> None:
        self._pen.fill(self._rings(rings), colour)

    def image(self, data: bytes, at: Transform) -> None:
        self._pen.image(data, self._at.transform(at))

    def text(self, run: TextRun, at: Transform, colour: str) -> None:
        self._pen.text(run, self._at.transform(at), colour)

    def cut(self, rings: Rings) -> None:
        self._pen.cut(self._rings(rings))

    def score(self, x1: float, y1: float, x2: float, y2: float, angle: float) -> None:
        self._pen.score(*self._line(x1, y1, x2, y2), angle)

    def tick(self, x1: float, y1: float, x2: float, y2: float) -> None:
        self._pen.tick(*self._line(x1, y1, x2, y2))

    def register(self, x: float, y: float, diameter: float) -> None:
        there_x, there_y = self._at.transformPoint((x, y))
        self._pen.register(there_x, there_y, diameter)

    @contextmanager
    def clip(self, rings: Rings) -> Iterator[None]:
        with self._pen.clip(self._rings(rings)):
            yield

    def _rings(self, rings: Rings) -> tuple[Ring, ...]:
        return tuple(tuple(self._at.transformPoints(ring)) for ring in rings)

    def _line(
        self, x1: float, y1: float, x2: float, y2: float
    ) -> tuple[float, float, float, float]:
        return (*self._at.transformPoint((x1, y1)), *self._at.transformPoint((x2, y2)))


def frame(panel: Rect, turn: int) -> Transform:
    """Return the transform from a panel's reading frame to the frame its ``panel`` rect is in.

    The reading frame has its origin at the lower left of the panel as it is read; ``turn``
    (0, 90, 180 or 270) is how far it stands turned counter-clockwise.
    """
    corners = {
        0: (panel.x, panel.y),
        90: (panel.x + panel.width, panel.y),
        180: (panel.x + panel.width, panel.y + panel.height),
        270: (panel.x, panel.y + panel.height),
    }
    return turned(turn, *corners[turn])


def turned(turn: int, x: float = 0.0, y: float = 0.0) -> Transform:
    """Return a turn by 0, 90, 180 or 270 degrees about the origin, then a move to (x, y)."""
    return Transform().translate(x, y).rotate(radians(turn))


def box(rect: Rect) -> Ring:
    """Return the outline of ``rect``, counter-clockwise from its lower left."""
    right, top = rect.x + rect.width, rect.y + rect.height
    return ((rect.x, rect.y), (right, rect.y), (right, top), (rect.x, top))
