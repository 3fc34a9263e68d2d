"""Registration marks: three discs by which a machine that cuts a printed sheet finds it.

They stand in the strips along the foot and the left side, at the two lower corners and the upper
left one of what the printer reaches; the corner without one tells which way round the paper lies.
Three points tell scale, turn, lean and shift. Discs, as machines with a camera look for them, are
common practice, no published source.
"""

from __future__ import annotations

from typing import NamedTuple

from engine.model import Forme, Rect, Sheet
from engine.press.pens.base import Pen, Ring, box

_LARGEST, _SMALLEST = 5.0, 3.0
"""Diameters in mm."""
_EDGE, _CLEAR = 0.2, 0.5
"""White in mm between a disc and the edge of what the printer reaches, and all else."""


class Disc(NamedTuple):
    """A mark: its middle and its diameter in mm."""

    x: float
    y: float
    diameter: float


def room(forme: Forme) -> float:
    """Return the side of the square in a corner that a mark and the white around it take, in mm."""
    return _diameter(forme) + _EDGE + _CLEAR


def kept(sheet: Sheet) -> float:
    """Return the same for a sheet: nothing where it is cut by hand."""
    return 0.0 if sheet.machine == "none" else room(sheet.forme)


def rooms(sheet: Sheet) -> tuple[Rect, ...]:
    """Return the squares in the corners of a sheet that its marks take."""
    area, side = sheet.forme.printable, kept(sheet)
    right, top = area.x + area.width - side, area.y + area.height - side
    corners = ((area.x, area.y), (right, area.y), (area.x, top))
    return tuple(Rect(x, y, side, side) for x, y in corners) if side else ()


def discs(forme: Forme) -> tuple[Disc, ...]:
    """Return the marks of a sheet that is cut by machine."""
    area, diameter = forme.printable, _diameter(forme)
    off = _EDGE + diameter / 2
    right, top = area.x + area.width - off, area.y + area.height - off
    left, foot = area.x + off, area.y + off
    return tuple(Disc(x, y, diameter) for x, y in ((left, foot), (right, foot), (left, top)))


def draw_registration(pen: Pen, sheet: Sheet) -> None:
    """Draw the marks of a sheet, none where it is cut by hand."""
    if sheet.machine != "none":
        for disc in discs(sheet.forme):
            pen.register(*disc)


def without_rooms(area: Rect, sheet: Sheet) -> Ring:
    """Return the outline of an area less what the marks of a sheet take."""
    from shapely import Polygon, unary_union

    taken = unary_union([Polygon(box(one)) for one in rooms(sheet)])
    left = Polygon(box(area)) - taken
    return tuple((x, y) for x, y in left.exterior.coords[:-1])


def _diameter(forme: Forme) -> float:
    strip = min(forme.foot, forme.side) - _EDGE - _CLEAR
    return max(_SMALLEST, min(_LARGEST, strip))
