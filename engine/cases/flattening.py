"""From a case kind to its flat net."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING

from engine.cases.facing import tall_edges, turns
from engine.cases.layout import Layout, lay_out
from engine.cases.model import CaseKind, Panel, Pose, Role, Spine
from engine.cases.net import FlatNet, FlatPanel, FlatScore, ends
from engine.cases.outline import notch_ring
from engine.cases.rings import Ring, rings
from engine.cases.sizes import Kept, is_scored
from engine.model import Rect

if TYPE_CHECKING:
    from shapely import Geometry


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
    laid = lay_out(kind, caliper, left_out)
    turned = turns(kind, laid.frames, laid.sizes, pose, spine)
    tall = tall_edges(kind, laid.frames, laid.sizes, pose)
    whole = _united(laid.shapes)
    return FlatNet(
        kind=kind.id,
        size=laid.size,
        panels=tuple(
            FlatPanel(
                p.name,
                p.role,
                p.part,
                laid.rects[p.name],
                turned[p.name],
                spine if p.name in tall else None,
            )
            for p in main_art_first(kind, laid.kept)
        ),
        scores=_scores(kind, laid),
        notches=_notches(kind, laid.rects),
        dieline=rings(whole),
    )


def _united(shapes: Mapping[str, Geometry]) -> Geometry:
    from shapely import unary_union

    return unary_union(list(shapes.values()), grid_size=1e-6)


def _scores(kind: CaseKind, laid: Layout) -> tuple[FlatScore, ...]:
    """Return the lines along which two panels hold together; a notch may part one."""
    from shapely import LineString

    found: list[FlatScore] = []
    for panel in kind.panels:
        if panel.side is None or not is_scored(panel, laid.kept):
            continue
        line: Geometry = LineString(ends(laid.rects[panel.name], panel.side.opposite))
        for name in (panel.name, panel.on):
            line = line.intersection(laid.shapes[name], grid_size=1e-6)
        for part in getattr(line, "geoms", (line,)):
            if part.length > 0:
                (x1, y1), (x2, y2) = part.coords[0], part.coords[-1]
                found.append(FlatScore(x1, y1, x2, y2, panel.angle))
    return tuple(found)


def _notches(kind: CaseKind, rects: Mapping[str, Rect]) -> tuple[Ring, ...]:
    return tuple(
        notch_ring(notch, rects[notch.panel]) for notch in kind.notches if notch.panel in rects
    )


def main_art_first(kind: CaseKind, kept: Kept) -> tuple[Panel, ...]:
    """Return the kept panels in the kind's order, but the main art panel first."""
    main = kind.front or kind.back
    panels = [p for p in kind.panels if p.name in kept]
    return tuple(sorted(panels, key=lambda p: p.role is not Role.ART or p.name != main))
