"""The numbers of the cuts beside their ticks, in the margin of a sheet.

A cut's number stands where its line leaves the piece in hand: at the foot or the head of an
upright cut, at the left or the right of a level one, beside the line and outside everything
that is kept. Inner cuts, between inserts that nearly touch, have no such place: the list
tells them, and the piece in hand then has cut edges to measure from.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from engine.ganging import Cut
from engine.lettering import shape
from engine.press.captions import Caption, draw_captions
from engine.press.marks import Numbered, tick_area
from engine.press.pens.base import Pen, box
from engine.press.ticks import Tick, area_of
from engine.units import millimetres
from engine.values import FontRef, Forme, Rect

SIZE = 5.0
"""Type size in points: below it nothing is readable in print (common practice, no published
source)."""
_CLEAR = 0.5
"""How far a number keeps from every finished insert, in mm: what a home trimmer errs (common
practice, no published source)."""
_OFF = 0.25
"""Between a number and its line, in mm."""
_STEP = 2.0
_GROUND = "#ffffff"


def draw_cut_numbers(
    pen: Pen,
    forme: Forme,
    cuts: Sequence[Cut],
    inserts: Sequence[Numbered],
    ticks: Iterable[Tick],
    font: FontRef,
) -> tuple[int, ...]:
    """Set the numbers of ``cuts`` where there is room; return those that were set.

    They stand on a white ground, since bleed may run under them; it is cut off with them.
    """
    from shapely import LineString, Polygon, prepare, unary_union

    area = Polygon(box(tick_area(forme)))
    kept = unary_union([Polygon(box(one.finished.inset(-_CLEAR))) for one in inserts])
    bleeds = unary_union([area_of(one.bleed) for one in inserts])
    taken = unary_union([LineString([t[:2], t[2:]]).buffer(0.15) for t in ticks])
    prepare(area)
    captions: list[Caption] = []
    found: list[int] = []
    for cut in cuts:
        run = shape(f"{cut.number}", font, SIZE)
        breadth, height = run.width + 0.4, millimetres(SIZE) * 0.72 + 0.3
        for spot in places(cut, forme, breadth, height):
            label = Polygon(box(spot))
            if area.covers(label) and not kept.intersects(label) and not taken.intersects(label):
                if bleeds.intersects(label):
                    pen.fill([box(spot)], _GROUND)
                captions.append(Caption(run, spot.x + 0.2, spot.y + 0.15))
                found.append(cut.number)
                taken = taken.union(label)
                break
    draw_captions(pen, captions)
    return tuple(found)


def places(cut: Cut, forme: Forme, breadth: float, height: float) -> Iterator[Rect]:
    """Give places for a number along a cut: at its two ends, then inwards from them."""
    area, piece = tick_area(forme), cut.piece
    upright = cut.fence.upright
    first = max(piece.y, area.y) if upright else max(piece.x, area.x)
    end = piece.y + piece.height if upright else piece.x + piece.width
    far = area.y + area.height if upright else area.x + area.width
    last = min(end, far) - (height if upright else breadth)
    for along in _inwards(first, last):
        for side in (cut.at + _OFF, cut.at - _OFF - (breadth if upright else height)):
            x, y = (side, along) if upright else (along, side)
            yield Rect(x, y, breadth, height)


def _inwards(first: float, last: float) -> Iterator[float]:
    """Give the two ends of a stretch, then places further in, by turns."""
    step = 0.0
    while first + step <= last:
        yield first + step
        yield last - step
        step += _STEP
