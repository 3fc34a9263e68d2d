"""A pen that remembers: for tests, and to find how far a drawing reaches."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import NamedTuple

from fontTools.misc.transform import Transform

from engine.model import Rect, TextRun
from engine.press.pens.base import Rings, box


class FillStroke(NamedTuple):
    """An area of one colour."""

    rings: Rings
    colour: str


class ImageStroke(NamedTuple):
    """A JPEG file, and where its unit square went."""

    data: bytes
    at: Transform


class TextStroke(NamedTuple):
    """A line of type, and where the start of its baseline went."""

    run: TextRun
    at: Transform
    colour: str


class CutStroke(NamedTuple):
    """Lines to be cut along."""

    rings: Rings


class ScoreStroke(NamedTuple):
    """A line to be scored."""

    x1: float
    y1: float
    x2: float
    y2: float
    angle: float


class TickStroke(NamedTuple):
    """A hairline mark."""

    x1: float
    y1: float
    x2: float
    y2: float


Stroke = FillStroke | ImageStroke | TextStroke | CutStroke | ScoreStroke | TickStroke
"""One thing drawn."""


class Recorder:
    """Keeps every stroke in order, and what it was clipped to."""

    def __init__(self) -> None:
        self.strokes: list[Stroke] = []
        self.clips: list[tuple[Rings, ...]] = []
        """For each stroke, the outlines in force when it was drawn, outermost first."""
        self._within: tuple[Rings, ...] = ()

    def fill(self, rings: Rings, colour: str) -> None:
        """Keep a fill."""
        self._keep(FillStroke(rings, colour))

    def image(self, data: bytes, at: Transform) -> None:
        """Keep an image."""
        self._keep(ImageStroke(data, at))

    def text(self, run: TextRun, at: Transform, colour: str) -> None:
        """Keep a line of type."""
        self._keep(TextStroke(run, at, colour))

    def cut(self, rings: Rings) -> None:
        """Keep lines to be cut along."""
        self._keep(CutStroke(rings))

    def score(self, x1: float, y1: float, x2: float, y2: float, angle: float) -> None:
        """Keep a line to be scored."""
        self._keep(ScoreStroke(x1, y1, x2, y2, angle))

    def tick(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """Keep a hairline mark."""
        self._keep(TickStroke(x1, y1, x2, y2))

    @contextmanager
    def clip(self, rings: Rings) -> Iterator[None]:
        """Note ``rings`` beside every stroke drawn in this context."""
        outer = self._within
        self._within = (*outer, rings)
        try:
            yield
        finally:
            self._within = outer

    def bounds(self) -> Rect | None:
        """Return the rectangle around all that shows, or None if nothing does.

        Text is taken as its baseline and advance; a clip as the rectangle around it.
        """
        shown = [
            extent
            for stroke, clips in zip(self.strokes, self.clips, strict=True)
            if (extent := _meet(_extent(stroke), clips)) is not None
        ]
        if not shown:
            return None
        left, bottom = min(e[0] for e in shown), min(e[1] for e in shown)
        right, top = max(e[2] for e in shown), max(e[3] for e in shown)
        return Rect(left, bottom, right - left, top - bottom)

    def _keep(self, stroke: Stroke) -> None:
        self.strokes.append(stroke)
        self.clips.append(self._within)


_Extent = tuple[float, float, float, float]


def _meet(extent: _Extent, clips: tuple[Rings, ...]) -> _Extent | None:
    left, bottom, right, top = extent
    for rings in clips:
        x1, y1, x2, y2 = _around(point for ring in rings for point in ring)
        left, bottom, right, top = max(left, x1), max(bottom, y1), min(right, x2), min(top, y2)
    return (left, bottom, right, top) if left <= right and bottom <= top else None


def _extent(stroke: Stroke) -> _Extent:
    match stroke:
        case FillStroke(rings, _) | CutStroke(rings):
            return _around(point for ring in rings for point in ring)
        case ImageStroke(_, at):
            return _around(at.transformPoint(point) for point in box(Rect(0, 0, 1, 1)))
        case TextStroke(run, at, _):
            return _around(at.transformPoint(point) for point in ((0, 0), (run.width, 0)))
        case ScoreStroke() | TickStroke():
            return _around(((stroke.x1, stroke.y1), (stroke.x2, stroke.y2)))


def _around(points: Iterable[tuple[float, float]]) -> _Extent:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
