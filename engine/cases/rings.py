"""Outlines as plain numbers, and their way into shapely and back."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from shapely import Geometry, Polygon

Ring = tuple[tuple[float, float], ...]
"""A closed outline in mm, its first point not repeated: outer ones counter-clockwise, holes
clockwise."""

_DIGITS = 6
"""Outlines are given to a millionth of a millimetre, so that equal nets compare equal."""


def rings(shape: Geometry) -> tuple[Ring, ...]:
    """Return the outlines of a shape: of each piece the outer one, then its holes.

    Pieces come from left to right, then upwards; lines and points are passed over.
    """
    from shapely import Polygon
    from shapely.geometry.polygon import orient

    pieces = [
        orient(piece)
        for piece in getattr(shape, "geoms", (shape,))
        if isinstance(piece, Polygon) and not piece.is_empty
    ]
    pieces.sort(key=lambda piece: piece.bounds)
    return tuple(
        _plain(line.coords) for piece in pieces for line in (piece.exterior, *piece.interiors)
    )


def shape_of(outlines: Iterable[Ring]) -> Geometry:
    """Return the shape that the outlines bound: clockwise ones are holes."""
    from shapely import Polygon, unary_union

    parts = [Polygon(ring) for ring in outlines]
    solid = unary_union([part for part in parts if part.exterior.is_ccw])
    return solid.difference(unary_union([part for part in parts if not part.exterior.is_ccw]))


def box_ring(x: float, y: float, width: float, height: float) -> Ring:
    """Return the outline of a rectangle, from its lower left corner."""
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def grown(outlines: tuple[Ring, ...], by: float) -> tuple[Ring, ...]:
    """Return the outlines grown outwards by ``by`` mm with mitred corners; holes shrink.

    A negative ``by`` draws them in; where nothing is left, there are no outlines.
    """
    if by == 0:
        return outlines
    return rings(shape_of(outlines).buffer(by, join_style="mitre", mitre_limit=2.0))


def polygon(ring: Ring) -> Polygon:
    """Return the area inside one outline."""
    from shapely import Polygon

    return Polygon(ring)


def _plain(coordinates: Iterable[tuple[float, ...]]) -> Ring:
    points = [(round(c[0], _DIGITS) + 0.0, round(c[1], _DIGITS) + 0.0) for c in coordinates][:-1]
    count = len(points)
    return tuple(
        here
        for i, here in enumerate(points)
        if not _straight(points[i - 1], here, points[(i + 1) % count])
    )


def _straight(
    before: tuple[float, float], here: tuple[float, float], after: tuple[float, float]
) -> bool:
    """Whether the outline runs straight on at a point, which then says nothing."""
    to, on = (here[0] - before[0], here[1] - before[1]), (after[0] - here[0], after[1] - here[1])
    return bool(abs(to[0] * on[1] - to[1] * on[0]) < 10**-_DIGITS)
