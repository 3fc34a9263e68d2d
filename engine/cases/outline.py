"""The outline of each panel: its rectangle, tongues out, notches and corners off."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING

from engine.cases.model import CaseKind, Corner, Notch, Panel, Side, Tongue
from engine.cases.net import ends
from engine.cases.rings import Ring, box_ring, polygon
from engine.model import Rect

if TYPE_CHECKING:
    from shapely import Geometry

_ARC_STEPS = 24
"""Straight pieces to a half round: at 5 mm radius they lie within 0.011 mm of the arc."""


def panel_shape(kind: CaseKind, panel: Panel, rect: Rect, scored: Mapping[Side, bool]) -> Geometry:
    """Return what is left of a panel on the net after notches and corners, tongues added."""
    shape = bare_shape(kind, panel, rect)
    for notch in kind.notches:
        if notch.panel == panel.name:
            shape = shape.difference(polygon(notch_ring(notch, rect)))
    for corner in kind.corners:
        if corner.panel == panel.name:
            for ring in corner_rings(corner, rect, scored):
                shape = shape.difference(polygon(ring))
    return shape


def bare_shape(kind: CaseKind, panel: Panel, rect: Rect) -> Geometry:
    """Return a panel's rectangle with its tongues, before any notch."""
    shape: Geometry = polygon(box_ring(*rect))
    for tongue in kind.tongues:
        if tongue.panel == panel.name:
            shape = shape.union(polygon(tongue_ring(tongue, rect)))
    return shape


def notch_ring(notch: Notch, rect: Rect) -> Ring:
    """Return the outline of a notch in the net's frame."""
    half, depth = notch.width / 2, notch.depth
    profile = {
        "rectangle": [(-half, 0.0), (-half, depth), (half, depth), (half, 0.0)],
        "wedge": [(-half, 0.0), (0.0, depth), (half, 0.0)],
        "round": _half_round(half, depth),
    }[notch.shape]
    return _against(rect, notch.side, notch.at, [(along, -deep) for along, deep in profile])


def tongue_ring(tongue: Tongue, rect: Rect) -> Ring:
    """Return the outline of a tongue in the net's frame."""
    half, depth = tongue.width / 2, tongue.depth
    taper = min(depth, half / 2)
    profile = {
        "rectangle": [(-half, 0.0), (-half, depth), (half, depth), (half, 0.0)],
        "wedge": [(-half, 0.0), (taper - half, depth), (half - taper, depth), (half, 0.0)],
        "round": _half_round(half, depth),
    }[tongue.shape]
    return _against(rect, tongue.side, tongue.at, profile)


def corner_rings(corner: Corner, rect: Rect, scored: Mapping[Side, bool]) -> tuple[Ring, ...]:
    """Return what is cut off at a corner, or at all corners that no score touches."""
    names = {
        "bottom left": (Side.BOTTOM, Side.LEFT),
        "bottom right": (Side.BOTTOM, Side.RIGHT),
        "top right": (Side.TOP, Side.RIGHT),
        "top left": (Side.TOP, Side.LEFT),
    }
    if corner.corner != "all":
        chosen = [names[corner.corner]]
    else:
        chosen = [pair for pair in names.values() if not any(scored[side] for side in pair)]
    return tuple(_corner_ring(corner, rect, level, upright) for level, upright in chosen)


def _corner_ring(corner: Corner, rect: Rect, level: Side, upright: Side) -> Ring:
    x = rect.x if upright is Side.LEFT else rect.x + rect.width
    y = rect.y if level is Side.BOTTOM else rect.y + rect.height
    inward_x = 1 if upright is Side.LEFT else -1
    inward_y = 1 if level is Side.BOTTOM else -1
    size = corner.size
    if corner.shape == "bevel":
        cut = [(size, 0.0), (0.0, size)]
    else:
        angles = [math.pi / 2 * i / (_ARC_STEPS // 2) for i in range(_ARC_STEPS // 2 + 1)]
        cut = [(size - size * math.sin(a), size - size * math.cos(a)) for a in angles]
    return tuple((x + inward_x * u, y + inward_y * v) for u, v in [(0.0, 0.0), *cut])


def _half_round(half: float, depth: float) -> list[tuple[float, float]]:
    angles = [math.pi * i / _ARC_STEPS for i in range(_ARC_STEPS + 1)]
    return [(-half * math.cos(a), depth * math.sin(a)) for a in angles]


def _against(rect: Rect, side: Side, at: float | None, profile: list[tuple[float, float]]) -> Ring:
    """Return a profile (along the side, out of it) set against a side of a rectangle."""
    (x1, y1), (x2, y2) = ends(rect, side)
    length = math.hypot(x2 - x1, y2 - y1)
    middle = length / 2 if at is None else at
    along = ((x2 - x1) / length, (y2 - y1) / length)
    out = side.outward
    return tuple(
        (
            x1 + along[0] * (middle + u) + out[0] * v,
            y1 + along[1] * (middle + u) + out[1] * v,
        )
        for u, v in profile
    )
