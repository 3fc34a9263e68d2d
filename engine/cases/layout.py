"""From a case kind to its flat net."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING

from engine.cases.facing import turns
from engine.cases.folding import frames, shift_along
from engine.cases.model import CaseKind, Panel, Pose, Role, Side, Spine
from engine.cases.net import FlatNet, FlatPanel, FlatScore, ends
from engine.cases.outline import bare_shape, notch_ring, panel_shape
from engine.cases.rings import Ring, rings
from engine.cases.sizes import Kept, is_scored, panel_sizes, walk
from engine.errors import CaseError
from engine.values import Rect, Size

if TYPE_CHECKING:
    from shapely import Geometry

APART = 6.0
"""Between two pieces of one insert on the sheet, in mm: twice the usual bleed of 3 mm
(common practice, no published source)."""

_SLIVER = 1e-4
"""Areas in mm2 below this are rounding, not overlap."""


def flatten(
    kind: CaseKind,
    caliper: float,
    *,
    pose: Pose | None = None,
    spine: Spine = Spine.DESCENDING,
    left_out: frozenset[str] = frozenset(),
) -> FlatNet:
    """Return the flat net of a case kind on stock of a caliper in mm.

    ``pose`` is the kind's own unless given; ``left_out`` names panels that this insert
    does without. Raises CaseError where panels overlap when flat or run into each other
    when folded (both are named), where a name is unknown, or where nothing is left.
    """
    return _flatten(kind, caliper, pose or kind.pose, spine, left_out)


@lru_cache(maxsize=256)
def _flatten(
    kind: CaseKind, caliper: float, pose: Pose, spine: Spine, left_out: frozenset[str]
) -> FlatNet:
    kept = kept_panels(kind, left_out)
    sizes = panel_sizes(kind, caliper, kept)
    placed = frames(kind, sizes, caliper)
    turned = turns(kind, placed, sizes, pose, spine)
    rects = _to_origin(kind, _in_a_row(kind, sizes, kept))
    shapes = panel_shapes(kind, rects, kept)
    _refuse_overlaps(kind, shapes)
    whole = _united(shapes)
    return FlatNet(
        kind=kind.id,
        size=_bounds(kind, rects),
        panels=tuple(
            FlatPanel(p.name, p.role, p.part, rects[p.name], turned[p.name])
            for p in _main_art_first(kind, kept)
        ),
        scores=_scores(kind, rects, kept, whole),
        notches=_notches(kind, rects),
        dieline=rings(whole),
    )


def kept_panels(kind: CaseKind, left_out: frozenset[str]) -> Kept:
    """Return the names of the panels that stay. Raises CaseError where none do."""
    names = frozenset(p.name for p in kind.panels)
    unknown = sorted(left_out - names)
    if unknown:
        have = ", ".join(p.name for p in kind.panels)
        raise CaseError(kind.id, f'no panel "{unknown[0]}" to leave out', f"Its panels are {have}")
    if not names - left_out:
        raise CaseError(kind.id, "every panel is left out", "Keep at least one")
    return names - left_out


def panel_shapes(kind: CaseKind, rects: Mapping[str, Rect], kept: Kept) -> dict[str, Geometry]:
    """Return the outline of every panel that stays, where its rectangle lies."""
    return {
        panel.name: panel_shape(kind, panel, rects[panel.name], _hinged(kind, panel, kept))
        for panel in kind.panels
        if panel.name in kept
    }


def _hinged(kind: CaseKind, panel: Panel, kept: Kept) -> dict[Side, bool]:
    sides = {c.side for c in kind.children(panel.name) if is_scored(c, kept)}
    if panel.side and is_scored(panel, kept):
        sides.add(panel.side.opposite)
    return {side: side in sides for side in Side}


def _in_a_row(kind: CaseKind, sizes: Mapping[str, Size], kept: Kept) -> dict[str, Rect]:
    """Return every kept panel's rectangle, separate pieces set side by side."""
    whole = _unfolded(kind, sizes)
    pieces: dict[str, list[str]] = {}
    head: dict[str, str] = {}
    for panel in walk(kind):
        if panel.name not in kept:
            continue
        head[panel.name] = head[panel.on] if is_scored(panel, kept) else panel.name
        pieces.setdefault(head[panel.name], []).append(panel.name)
    laid: dict[str, Rect] = {}
    x = 0.0
    for piece in sorted(pieces.values(), key=lambda names: whole[names[0]][:2]):
        left = min(whole[name].x for name in piece)
        foot = min(whole[name].y for name in piece)
        for name in piece:
            rect = whole[name]
            laid[name] = Rect(rect.x - left + x, rect.y - foot, rect.width, rect.height)
        x = max(laid[name].x + laid[name].width for name in piece) + APART
    return laid


def _unfolded(kind: CaseKind, sizes: Mapping[str, Size]) -> dict[str, Rect]:
    """Return every panel's rectangle, the root's lower left corner at the origin."""
    rects: dict[str, Rect] = {}
    for panel in walk(kind):
        size = sizes[panel.name]
        if not panel.on:
            rects[panel.name] = Rect(0.0, 0.0, *size)
            continue
        parent = rects[panel.on]
        along = shift_along(panel, size, sizes[panel.on])
        x, y = {
            Side.LEFT: (parent.x - size.width, parent.y + along),
            Side.RIGHT: (parent.x + parent.width, parent.y + along),
            Side.BOTTOM: (parent.x + along, parent.y - size.height),
            Side.TOP: (parent.x + along, parent.y + parent.height),
        }[panel.side or Side.RIGHT]
        rects[panel.name] = Rect(x, y, *size)
    return rects


def _to_origin(kind: CaseKind, rects: Mapping[str, Rect]) -> dict[str, Rect]:
    left, foot, _, _ = _bare(kind, rects).bounds
    return {
        name: Rect(rect.x - left, rect.y - foot, rect.width, rect.height)
        for name, rect in rects.items()
    }


def _bounds(kind: CaseKind, rects: Mapping[str, Rect]) -> Size:
    left, foot, right, top = _bare(kind, rects).bounds
    return Size(right - left, top - foot)


def _bare(kind: CaseKind, rects: Mapping[str, Rect]) -> Geometry:
    from shapely import GeometryCollection

    return GeometryCollection(
        [bare_shape(kind, p, rects[p.name]) for p in kind.panels if p.name in rects]
    )


def _united(shapes: Mapping[str, Geometry]) -> Geometry:
    from shapely import unary_union

    return unary_union(list(shapes.values()), grid_size=1e-6)


def _refuse_overlaps(kind: CaseKind, shapes: Mapping[str, Geometry]) -> None:
    names = list(shapes)
    for i, one in enumerate(names):
        for other in names[i + 1 :]:
            if shapes[one].intersection(shapes[other]).area > _SLIVER:
                raise CaseError(
                    kind.id,
                    f'panels "{one}" and "{other}" overlap when the net lies flat',
                    "Make one of them smaller or attach it elsewhere",
                )


def _scores(
    kind: CaseKind, rects: Mapping[str, Rect], kept: Kept, whole: Geometry
) -> tuple[FlatScore, ...]:
    from shapely import LineString

    found: list[FlatScore] = []
    for panel in kind.panels:
        if panel.side is None or not is_scored(panel, kept):
            continue
        own = ends(rects[panel.name], panel.side.opposite)
        line = LineString(own).intersection(LineString(ends(rects[panel.on], panel.side)), 1e-6)
        line = line.intersection(whole, 1e-6)
        for part in getattr(line, "geoms", (line,)):
            if part.length > 0:
                (x1, y1), (x2, y2) = part.coords[0], part.coords[-1]
                found.append(FlatScore(x1, y1, x2, y2, panel.angle))
    return tuple(found)


def _notches(kind: CaseKind, rects: Mapping[str, Rect]) -> tuple[Ring, ...]:
    return tuple(
        notch_ring(notch, rects[notch.panel]) for notch in kind.notches if notch.panel in rects
    )


def _main_art_first(kind: CaseKind, kept: Kept) -> tuple[Panel, ...]:
    """Return the kept panels in the kind's order, but the main art panel first."""
    main = kind.front or kind.back
    panels = [p for p in kind.panels if p.name in kept]
    return tuple(sorted(panels, key=lambda p: p.role is not Role.ART or p.name != main))
