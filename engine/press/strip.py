"""A strip of the check page that fills room on a sheet: a scale and steps of grey and colour.

Cut off, it tells whether the printer keeps its measure, and how its greys and colours come out
on this stock, sheet after sheet.
"""

from __future__ import annotations

from fontTools.misc.transform import Transform

from engine.lettering import shape
from engine.model import FontRef, Rect, Size
from engine.press.pens.base import Pen, box, moved, turned

STRIP_SIZE = Size(112.0, 14.0)
"""As it is read, in mm."""
_SCALE = 100
_STEPS = ("#000000", "#333333", "#666666", "#999999", "#cccccc", "#e6e6e6")
_COLOURS = ("#00ffff", "#ff00ff", "#ffff00", "#ff0000", "#00ff00", "#0000ff")
"""The primaries of print and of light, as full as the printer has them."""
_PATCH = Size(8.2, 5.0)


def draw_strip(pen: Pen, at: Rect, number: int, font: FontRef) -> None:
    """Draw the strip where it lies on sheet ``number``, upright if it is higher than wide."""
    upright = at.height > at.width
    own = turned(90, at.x + at.width, at.y) if upright else turned(0, at.x, at.y)
    mine = moved(pen, own)
    left = 3.0
    mine.tick(left, 1.0, left + _SCALE, 1.0)
    for mm in range(_SCALE + 1):
        length = 2.4 if mm % 10 == 0 else 1.8 if mm % 5 == 0 else 1.0
        mine.tick(left + mm, 1.0, left + mm, 1.0 + length)
    for tens in range(0, _SCALE + 1, 10):
        run = shape(f"{tens}", font, 5.0)
        mine.text(run, Transform(1, 0, 0, 1, left + tens - run.width / 2, 3.9), "#000000")
    for place, colour in enumerate((*_STEPS, *_COLOURS)):
        patch = Rect(left + place * (_PATCH.width + 0.3), 6.8, *_PATCH)
        mine.fill([box(patch)], colour)
    words = shape(f"Sheet {number}; scale in mm", font, 5.0)
    mine.text(words, Transform(1, 0, 0, 1, left, 12.3), "#000000")
