"""What is left to cut of an insert by hand, once its rectangle is free.

A trimmer cuts from edge to edge. What the net lacks of its rectangle is taken out afterwards with
a knife along a steel rule, or a corner punch: corners, notches, gaps between pieces, holes.
Everything is told of the net as it is drawn, printed face up.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from math import pi
from typing import NamedTuple

from engine.cases.net import FlatNet
from engine.cases.rings import box_ring, polygon, shape_of
from engine.model import Rect

_NEAR = 0.01
"""In mm; outlines are given finer."""
_LIKE = 0.02
"""How far the part of its rectangle that a cutout fills may be off for its form to be told."""
_ROUND_CORNER, _HALF_ROUND, _SQUARE, _POINTED = 1 - pi / 4, pi / 4, 1.0, 0.5
"""Parts of their rectangles that a rounded corner leaves, a half ellipse, a rectangle and a
triangle take."""

_APART = "Part its pieces: cut out the gap"


class _Cutout(NamedTuple):
    rect: Rect
    fill: float
    """The part of the rectangle that is cut out."""
    sides: tuple[str, ...]
    """Those of the insert's rectangle that it touches."""

    def like(self, fill: float) -> bool:
        return abs(self.fill - fill) < _LIKE


def hand_cuts(net: FlatNet) -> tuple[str, ...]:
    """Return what is cut by hand once the rectangle of an insert is free, a step each.

    'L corner at the upper left: cut out 49.0 × 52.0 mm'. Nothing where it is all of its rectangle.
    """
    corners: dict[str, list[str]] = defaultdict(list)
    steps: list[str] = []
    for one in _cutouts(net):
        rounded = one.like(_ROUND_CORNER) and abs(one.rect.width - one.rect.height) < _NEAR
        if len(one.sides) == 2 and _adjacent(one.sides) and (rounded or one.like(_POINTED)):
            size = f"{one.rect.width:.1f}"
            told = f"to a radius of {size} mm" if rounded else f"off {size} mm from either side"
            corners[f"{'Round' if rounded else 'Cut'} {{}} {told}"].append(_place(one.sides))
        else:
            steps.append(_step(one))
    gaps = [one for one in steps if one.startswith(_APART)]
    rest = [one for one in steps if one not in gaps]
    return (*gaps, *rest, *(told.format(_corners(where)) for told, where in corners.items()))


def _cutouts(net: FlatNet) -> Iterator[_Cutout]:
    whole = polygon(box_ring(0.0, 0.0, *net.size))
    left = whole.difference(shape_of(net.dieline))
    for piece in getattr(left, "geoms", (left,)):
        low, foot, high, head = piece.bounds if not piece.is_empty else (0.0, 0.0, 0.0, 0.0)
        if min(high - low, head - foot) < _NEAR:
            continue
        touched = (
            ("lower", foot < _NEAR),
            ("upper", head > net.size.height - _NEAR),
            ("left", low < _NEAR),
            ("right", high > net.size.width - _NEAR),
        )
        rect = Rect(low, foot, high - low, head - foot)
        fill = piece.area / (rect.width * rect.height)
        yield _Cutout(rect, fill, tuple(side for side, is_so in touched if is_so))


def _adjacent(sides: tuple[str, ...]) -> bool:
    return sides not in {("lower", "upper"), ("left", "right")}


def _step(one: _Cutout) -> str:
    """Return how one cutout is made that is neither a rounded nor a bevelled corner."""
    rect, size = one.rect, f"{one.rect.width:.1f} × {one.rect.height:.1f} mm"
    ticks = "" if one.like(_SQUARE) else ", along the ticks"
    match one.sides:
        case ():
            where = f"{rect.x:.1f} mm from the left and {rect.y:.1f} mm from the foot"
            return f"Hole of {size}, {where}{ticks}"
        case (side,):
            return _notch(one, side)
        case ("lower", "upper"):
            return f"{_APART} of {rect.width:.1f} mm, {rect.x:.1f} mm from the left"
        case ("left", "right"):
            return f"{_APART} of {rect.height:.1f} mm, {rect.y:.1f} mm from the foot"
        case (_, _):
            end = "no further than its inner corner"
            return f"L corner at the {_place(one.sides)}: cut out {size}{ticks}, {end}"
    return f"Cut out {size} along the ticks"


def _notch(one: _Cutout, side: str) -> str:
    rect, upright = one.rect, side in {"left", "right"}
    along, deep = (rect.height, rect.width) if upright else (rect.width, rect.height)
    middle = (rect.y if upright else rect.x) + along / 2
    form = "Round notch" if one.like(_HALF_ROUND) else "Notch"
    form = "Pointed notch" if one.like(_POINTED) else form
    return (
        f"{form} in the {side} side: {along:.1f} mm long and {deep:.1f} mm deep, "
        f"its middle {middle:.1f} mm from the {'foot' if upright else 'left'}"
    )


def _place(sides: tuple[str, ...]) -> str:
    return " ".join(sides)


def _corners(where: list[str]) -> str:
    if len(where) == 4:
        return "all four corners"
    return f"the {' and '.join(where)} corner{'s' if len(where) > 1 else ''}"
