"""The net folded: every panel in space, and the refusal of nets that run into themselves.

The frame of space is the root panel's own as it lies on the flat net: x to its right, y up,
z out of its printed face.
"""

from __future__ import annotations

from collections.abc import Mapping

from engine.cases.model import CaseKind, Panel, Side
from engine.cases.sizes import walk
from engine.cases.space import Frame, Vector
from engine.model import Size

_FLAT = Frame(Vector(0, 0, 0), Vector(1, 0, 0), Vector(0, 1, 0), Vector(0, 0, 1))


def frames(kind: CaseKind, sizes: Mapping[str, Size], caliper: float) -> dict[str, Frame]:
    """Return where each panel lies once the net is folded, its neutral lines meeting at scores.

    A panel folded by 180 degrees lies one caliper from the one it hangs on.
    """
    placed: dict[str, Frame] = {}
    for panel in walk(kind):
        if panel.on:
            placed[panel.name] = _folded(panel, placed[panel.on], sizes, caliper)
        else:
            placed[panel.name] = _FLAT
    return placed


def shift_along(panel: Panel, size: Size, parent: Size) -> float:
    """Return how far along its parent's side a panel begins, from the left or lower end."""
    if panel.offset is not None:
        return panel.offset
    if panel.side and panel.side.upright:
        return (parent.height - size.height) / 2
    return (parent.width - size.width) / 2


def _folded(panel: Panel, parent: Frame, sizes: Mapping[str, Size], caliper: float) -> Frame:
    side = panel.side or Side.RIGHT
    size, room = sizes[panel.name], sizes[panel.on]
    flat_out = _direction(parent, side)
    out, normal = _turned(flat_out, parent.normal, panel.angle)
    along = shift_along(panel, size, room)
    hinge = {
        Side.LEFT: parent.at(0, along),
        Side.RIGHT: parent.at(room.width, along),
        Side.BOTTOM: parent.at(along, 0),
        Side.TOP: parent.at(along, room.height),
    }[side]
    if abs(panel.angle) == 180:
        hinge = hinge.plus(parent.normal, -caliper if panel.angle > 0 else caliper)
    right, up = parent.right, parent.up
    match side:
        case Side.LEFT:
            return Frame(hinge.plus(out, size.width), out.scaled(-1), up, normal)
        case Side.RIGHT:
            return Frame(hinge, out, up, normal)
        case Side.BOTTOM:
            return Frame(hinge.plus(out, size.height), right, out.scaled(-1), normal)
        case Side.TOP:
            return Frame(hinge, right, out, normal)


def _direction(frame: Frame, side: Side) -> Vector:
    x, y = side.outward
    return frame.right.scaled(x).plus(frame.up, y)


def _turned(out: Vector, normal: Vector, angle: int) -> tuple[Vector, Vector]:
    """Return a panel's outward direction and normal after folding about its score."""
    cosine, sine = {90: (0, 1), 180: (-1, 0), -90: (0, -1), -180: (-1, 0)}[angle]
    return (
        out.scaled(cosine).plus(normal, -sine),
        normal.scaled(cosine).plus(out, sine),
    )
