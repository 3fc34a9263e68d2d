"""The numbers of the cuts beside their ticks, in the margin of a sheet.

A cut's number stands where its line leaves the piece in hand: at the foot or the head of an
upright cut, at the left or the right of a level one, beside the line and outside everything
that is kept. It is white on black, so that nobody takes it for the number of an insert.
Inner cuts, between inserts that nearly touch, have no such place: then the order goes on a page of
its own, and the piece in hand has cut edges to measure from.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain

from fontTools.misc.transform import Transform

from engine.ganging import Cut
from engine.lettering import shape
from engine.model import FontRef, Forme, Rect, Sheet
from engine.model.units import millimetres
from engine.press.labels import Labels
from engine.press.marks import Numbered, tick_area
from engine.press.pens.base import Pen, box
from engine.press.registration import rooms
from engine.press.ticks import Tick

SIZE = 5.0
"""Type size in points: below it nothing is readable in print (common practice, no published
source)."""
_CLEAR = 0.5
"""How far a number keeps from every finished insert, in mm: what a home trimmer errs (common
practice, no published source)."""
_OFF = 0.55
"""Between a number and its line, in mm."""
_AROUND = 0.2
"""Of the ground around a number, in mm."""
_STEP = 2.0
_GROUND, _INK = "#000000", "#ffffff"


def draw_cut_numbers(
    pen: Pen,
    sheet: Sheet,
    cuts: Sequence[Cut],
    inserts: Sequence[Numbered],
    ticks: Iterable[Tick],
    font: FontRef,
) -> dict[int, Rect]:
    """Set the numbers of ``cuts`` where there is room; return where they stand."""
    forme = sheet.forme
    kept = [one.finished.inset(-_CLEAR) for one in inserts]
    if sheet.strip is not None:
        kept.append(sheet.strip)
    kept += rooms(sheet)
    labels = Labels(box(tick_area(forme)), ([box(one)] for one in kept), ticks, 0.1)
    found: dict[int, Rect] = {}
    for cut in cuts:
        run = shape(f"{cut.number}", font, SIZE)
        breadth = run.width + 2 * _AROUND
        height = millimetres(SIZE) * 0.72 + 2 * _AROUND
        along = (places(cut, piece, forme, breadth, height) for piece in cut.pieces)
        spot = labels.place(chain.from_iterable(along))
        if spot is not None:
            pen.fill([box(spot)], _GROUND)
            pen.text(run, Transform(1, 0, 0, 1, spot.x + _AROUND, spot.y + _AROUND), _INK)
            found[cut.number] = spot
    return found


def places(cut: Cut, piece: Rect, forme: Forme, breadth: float, height: float) -> Iterator[Rect]:
    """Give places for a number along a cut of a piece: at its two ends, then inwards from them."""
    area = tick_area(forme)
    upright = cut.fence.upright
    first = max(piece.y, area.y) if upright else max(piece.x, area.x)
    end = piece.y + piece.height if upright else piece.x + piece.width
    far = area.y + area.height if upright else area.x + area.width
    last = min(end, far) - (height if upright else breadth)
    at = cut.line(piece).x if upright else cut.line(piece).y
    sides = at + _OFF, at - _OFF - (breadth if upright else height)
    for along in _inwards(first, last):
        for side in sides:
            x, y = (side, along) if upright else (along, side)
            yield Rect(x, y, breadth, height)


def _inwards(first: float, last: float) -> Iterator[float]:
    """Give the two ends of a stretch, then places further in, by turns."""
    step = 0.0
    while first + step <= last:
        yield first + step
        yield last - step
        step += _STEP
