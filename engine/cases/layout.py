"""The panels of a kind laid out: their sizes, where they lie flat and folded, their outlines.

Panels that overlap flat or meet in space are refused here, so no net that comes out of it
is impossible.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from engine.cases.collisions import refuse_collisions
from engine.cases.facing import front_panel, stance
from engine.cases.faults import NetError, faults
from engine.cases.folding import frames, shift_along
from engine.cases.model import CaseKind, Panel, Side
from engine.cases.outline import bare_shape, panel_shape
from engine.cases.sizes import Kept, is_scored, panel_sizes, walk
from engine.cases.space import Frame
from engine.model import Rect, Size
from engine.model.errors import CaseError

if TYPE_CHECKING:
    from shapely import Geometry

APART = 6.0
"""Between two pieces of one insert on the sheet, in mm: twice the usual bleed of 3 mm
(common practice, no published source)."""

THICKEST = 2.0
"""Board of this caliper in mm is no longer scored and folded by hand."""

_SLIVER = 1e-4
"""Areas in mm2 below this are rounding, not overlap."""


class Layout(NamedTuple):
    """A kind laid out on stock of one caliper, some panels left out."""

    kept: Kept
    sizes: Mapping[str, Size]
    """Of every panel, left out or not."""
    frames: Mapping[str, Frame]
    """Where every panel lies in space once the net is folded."""
    rects: Mapping[str, Rect]
    """Where each kept panel lies on the flat net; the origin is its lower left."""
    shapes: Mapping[str, Geometry]
    """The outline of each kept panel on the flat net."""
    size: Size
    """The bounding box before any notch."""


@lru_cache(maxsize=256)
def lay_out(kind: CaseKind, caliper: float, left_out: frozenset[str]) -> Layout:
    """Return a kind laid out. Raises CaseError where that cannot be; see ``flatten``."""
    if not 0 < caliper < THICKEST:
        raise CaseError(
            "caliper", f"{caliper:g} mm is not the thickness of paper", "Give it in mm, as 0.25"
        )
    for fault in faults(kind):
        raise CaseError(kind.id, fault.what, fault.mend)
    kept = kept_panels(kind, left_out)
    sizes = panel_sizes(kind, caliper, kept)
    placed = frames(kind, sizes, caliper)
    _refuse_lying_front(kind, placed)
    rects, size = _to_origin(kind, _in_a_row(kind, sizes, kept))
    shapes = {
        panel.name: panel_shape(kind, panel, rects[panel.name], _hinged(kind, panel, kept))
        for panel in kind.panels
        if panel.name in kept
    }
    _refuse_detached(kind, rects, kept)
    _refuse_ruined(kind, shapes)
    _refuse_overlaps(kind, shapes)
    refuse_collisions(kind, placed, rects, shapes, caliper)
    return Layout(kept, sizes, placed, rects, shapes, size)


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


def _refuse_lying_front(kind: CaseKind, placed: Mapping[str, Frame]) -> None:
    held = stance(kind, placed)
    if abs(held.front.dot(held.up)) > 0.5:
        name = kind.back or front_panel(kind)
        raise NetError(
            kind.id,
            (name,),
            f'panel "{name}" lies at the head or foot, so it is neither front nor back',
            'Name another as "front" or "back", or change "up"',
        )


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


def _to_origin(kind: CaseKind, rects: Mapping[str, Rect]) -> tuple[dict[str, Rect], Size]:
    """Return the rectangles moved to where the net's lower left is the origin, and its size."""
    left, foot, right, top = _bare(kind, rects).bounds
    moved = {
        name: Rect(*_tidy(rect.x - left, rect.y - foot, rect.width, rect.height))
        for name, rect in rects.items()
    }
    return moved, Size(*_tidy(right - left, top - foot))


def _tidy(*lengths: float) -> tuple[float, ...]:
    """Return lengths without the last digits that adding and subtracting leaves behind."""
    return tuple(round(length, 9) + 0.0 for length in lengths)


def _bare(kind: CaseKind, rects: Mapping[str, Rect]) -> Geometry:
    from shapely import GeometryCollection

    return GeometryCollection(
        [bare_shape(kind, p, rects[p.name]) for p in kind.panels if p.name in rects]
    )


def _refuse_detached(kind: CaseKind, rects: Mapping[str, Rect], kept: Kept) -> None:
    """Refuse a panel that lies beside the side it should hang on."""
    for panel in kind.panels:
        if panel.side is None or not is_scored(panel, kept):
            continue
        along = 1 if panel.side.upright else 0
        own, side = rects[panel.name], rects[panel.on]
        start = max(own[along], side[along])
        if min(own[along] + own[along + 2], side[along] + side[along + 2]) - start <= _SLIVER:
            raise NetError(
                kind.id,
                (panel.name,),
                f'panel "{panel.name}" does not touch the side of "{panel.on}" it hangs on',
                "Change its offset",
            )


def _refuse_ruined(kind: CaseKind, shapes: Mapping[str, Geometry]) -> None:
    """Refuse a panel of which notches and corners leave nothing, or more than one piece."""
    for name, shape in shapes.items():
        if shape.geom_type != "Polygon" or shape.area < _SLIVER:
            left = "leave nothing of it" if shape.area < _SLIVER else "cut it to pieces"
            raise NetError(
                kind.id,
                (name,),
                f'the notches and corners of panel "{name}" {left}',
                "Make them smaller",
            )


def _refuse_overlaps(kind: CaseKind, shapes: Mapping[str, Geometry]) -> None:
    names = list(shapes)
    for i, one in enumerate(names):
        for other in names[i + 1 :]:
            if shapes[one].intersection(shapes[other]).area > _SLIVER:
                raise NetError(
                    kind.id,
                    (one, other),
                    f'panels "{one}" and "{other}" overlap when the net lies flat',
                    "Make one of them smaller or attach it elsewhere",
                )
