"""Panels that run into each other once the net is folded."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations
from typing import TYPE_CHECKING, NamedTuple

from engine.cases.faults import NetError
from engine.cases.model import CaseKind
from engine.cases.space import Frame
from engine.model import Rect

if TYPE_CHECKING:
    from shapely import Geometry

_SOFT = 0.05
"""Paper gives way by this much, in mm, beyond its own thickness (common practice, no
published source)."""
_AXES = {0: (1, 2), 1: (0, 2), 2: (0, 1)}
"""For each axis of space, the two that span the planes it stands on."""


class _Sheet(NamedTuple):
    """A folded panel: all folds are right angles, so it lies square to one axis of space."""

    axis: int
    level: float
    """Where on that axis."""
    area: Geometry
    """Its outline on the other two axes, drawn in by what paper gives way."""


def refuse_collisions(
    kind: CaseKind,
    placed: Mapping[str, Frame],
    rects: Mapping[str, Rect],
    shapes: Mapping[str, Geometry],
    caliper: float,
) -> None:
    """Raise NetError with the names of two panels that meet in space, if any do.

    Two sheets must lie a caliper apart where they cover each other, and none may pass
    through another; that their edges touch is what a fold is for.
    """
    give = caliper + _SOFT
    sheets = {
        name: _sheet(placed[name], rects[name], shape, give) for name, shape in shapes.items()
    }
    for one, other in combinations(sheets, 2):
        if _meet(sheets[one], sheets[other], caliper):
            raise NetError(
                kind.id,
                (one, other),
                f'panels "{one}" and "{other}" run into each other when the net is folded',
                "Make one of them smaller, or fold it the other way",
            )


def _sheet(frame: Frame, rect: Rect, shape: Geometry, give: float) -> _Sheet:
    from shapely.affinity import affine_transform, translate

    axis = max(range(3), key=lambda i: abs(frame.normal[i]))
    first, second = _AXES[axis]
    local = translate(shape, -rect.x, -rect.y)
    area = affine_transform(
        local,
        [
            frame.right[first],
            frame.up[first],
            frame.right[second],
            frame.up[second],
            frame.origin[first],
            frame.origin[second],
        ],
    )
    return _Sheet(axis, frame.origin[axis], area.buffer(-give, join_style="mitre"))


def _meet(one: _Sheet, other: _Sheet, caliper: float) -> bool:
    if one.area.is_empty or other.area.is_empty:
        return False
    if one.axis == other.axis:
        apart = abs(one.level - other.level)
        return apart < 0.99 * caliper and bool(one.area.intersects(other.area))
    along = 3 - one.axis - other.axis
    crossed = _section(one, other, along).intersection(_section(other, one, along))
    return bool(crossed.length > 0)


def _section(sheet: _Sheet, across: _Sheet, along: int) -> Geometry:
    """Return where a sheet is cut by the plane of another, as intervals of their common line."""
    from shapely import LineString
    from shapely.affinity import affine_transform

    spot = _AXES[sheet.axis].index(along)
    reach = (sheet.area.bounds[spot] - 1, sheet.area.bounds[spot + 2] + 1)
    ends = [(r, across.level) if spot == 0 else (across.level, r) for r in reach]
    cut = sheet.area.intersection(LineString(ends))
    return affine_transform(cut, [1 - spot, spot, 0, 0, 0, 0])
