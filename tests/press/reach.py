"""How far a drawing reaches, read off what a recorder kept."""

from __future__ import annotations

from fontTools.misc.arrayTools import calcBounds
from shapely import GeometryCollection
from shapely import box as rectangle
from shapely.geometry.base import BaseGeometry

from engine.model import Rect
from engine.press import Recorder, box
from engine.press.pens.recorder import (
    CutStroke,
    FillStroke,
    ImageStroke,
    ScoreStroke,
    Stroke,
    TextStroke,
    TickStroke,
)


def reach(drawn: Recorder) -> Rect | None:
    """Return the rectangle around all that shows, or None if nothing does.

    Text is taken as its baseline and advance; a clip as the rectangle around it.
    """
    shown = []
    for stroke, clips in zip(drawn.strokes, drawn.clips, strict=True):
        seen = _around(_points(stroke))
        for rings in clips:
            seen = seen.intersection(_around([point for ring in rings for point in ring]))
        shown.append(seen)
    whole = GeometryCollection([seen for seen in shown if not seen.is_empty])
    if whole.is_empty:
        return None
    left, bottom, right, top = whole.bounds
    return Rect(left, bottom, right - left, top - bottom)


def _around(points: list[tuple[float, float]]) -> BaseGeometry:
    return rectangle(*calcBounds(points)).envelope


def _points(stroke: Stroke) -> list[tuple[float, float]]:
    match stroke:
        case FillStroke(rings, _) | CutStroke(rings):
            return [point for ring in rings for point in ring]
        case ImageStroke(_, at):
            return list(at.transformPoints(box(Rect(0, 0, 1, 1))))
        case TextStroke(run, at, _):
            return list(at.transformPoints([(0, 0), (run.width, 0)]))
        case ScoreStroke() | TickStroke():
            return [(stroke.x1, stroke.y1), (stroke.x2, stroke.y2)]
