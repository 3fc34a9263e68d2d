"""A pen that remembers, so that a drawing can be drawn again elsewhere, or looked at in tests."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import NamedTuple

from fontTools.misc.transform import Transform

from engine.model import TextRun
from engine.press.pens.base import Rings


class FillStroke(NamedTuple):
    """An area of one colour."""

    rings: Rings
    colour: str


class ImageStroke(NamedTuple):
    """A JPEG or PNG file, and where its unit square went."""

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


class RegisterStroke(NamedTuple):
    """A registration mark."""

    x: float
    y: float
    diameter: float


Stroke = (
    FillStroke | ImageStroke | TextStroke | CutStroke | ScoreStroke | TickStroke | RegisterStroke
)
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

    def register(self, x: float, y: float, diameter: float) -> None:
        """Keep a registration mark."""
        self._keep(RegisterStroke(x, y, diameter))

    @contextmanager
    def clip(self, rings: Rings) -> Iterator[None]:
        """Note ``rings`` beside every stroke drawn in this context."""
        outer = self._within
        self._within = (*outer, rings)
        try:
            yield
        finally:
            self._within = outer

    def _keep(self, stroke: Stroke) -> None:
        self.strokes.append(stroke)
        self.clips.append(self._within)
