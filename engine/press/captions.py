"""Small type in the margin: names in columns, cut short where they have to be."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor
from typing import NamedTuple

from fontTools.misc.transform import Transform

from engine.lettering import shape
from engine.model import FontRef, Rect, TextRun
from engine.model.units import millimetres
from engine.press.pens.base import Pen

SIZES = (6.5, 6.0, 5.5, 5.0)
"""Type sizes in points that are tried, largest first; below 5 nothing is readable in print
(common practice, no published source)."""
LEADING = 1.2
"""Line to line, in type sizes."""
GAP = 1.5
"""Between two columns, in mm."""
NARROWEST = 9.0
"""Width of a column in mm that still tells a name: its number and some five letters."""
INK = "#000000"


class Caption(NamedTuple):
    """A line of type and where its baseline starts."""

    run: TextRun
    x: float
    y: float


class Captions(NamedTuple):
    """What was set, and how many of the names it shows."""

    lines: tuple[Caption, ...]
    shown: int


def in_columns(labels: Sequence[str], room: Rect, font: FontRef) -> Captions:
    """Set ``labels`` in rows across ``room``, row by row from its top.

    At the largest size at which none has to be cut short; else at the smallest, cut short;
    and if even so there is no room for all, the last place says how many are missing.
    """
    if not labels:
        return Captions((), 0)
    widest = max(shape(label, font, SIZES[0]).width for label in labels) / SIZES[0]
    for size in SIZES:
        rows = _rows(room, size)
        if rows and room.width / ceil(len(labels) / rows) - GAP >= widest * size:
            return Captions(_set(labels, room, font, size), len(labels))
    size = SIZES[-1]
    places = _rows(room, size) * floor(room.width / NARROWEST)
    if len(labels) <= places:
        return Captions(_set(labels, room, font, size), len(labels))
    shown = max(0, places - 1)
    more = [f"+ {len(labels) - shown}"] if places else []
    return Captions(_set([*labels[:shown], *more], room, font, size), shown)


def abridged(text: str, font: FontRef, size: float, room: float) -> TextRun:
    """Return ``text`` at ``size`` points within ``room`` mm, with an ellipsis where it is cut."""
    run = shape(text, font, size)
    kept = len(text)
    while run.width > room and kept > 1:
        kept = min(kept - 1, max(1, floor(kept * room / run.width) + 1))
        run = shape(text[:kept].rstrip() + "…", font, size)
    return run


def first_that_fits(
    texts: Sequence[str], font: FontRef, size: float, room: float
) -> TextRun | None:
    """Return the first of ``texts`` that is no wider than ``room`` mm, or None."""
    runs = (shape(text, font, size) for text in texts)
    return next((run for run in runs if run.width <= room), None)


def draw_captions(pen: Pen, captions: Sequence[Caption]) -> None:
    """Set ``captions`` in black."""
    for run, x, y in captions:
        pen.text(run, Transform(1, 0, 0, 1, x, y), INK)


def _set(labels: Sequence[str], room: Rect, font: FontRef, size: float) -> tuple[Caption, ...]:
    rows = _rows(room, size)
    columns = ceil(len(labels) / rows) if rows else 0
    return tuple(
        Caption(
            abridged(label, font, size, room.width / columns - GAP),
            room.x + room.width / columns * (place % columns),
            room.y + room.height - millimetres(size * LEADING) * (place // columns + 0.8),
        )
        for place, label in enumerate(labels)
    )


def _rows(room: Rect, size: float) -> int:
    return floor(room.height / millimetres(size * LEADING) + 1e-9)
