"""Folding checked by a second way: rotating the flat net about its scores, one by one."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from engine.cases import CaseKind, Side
from engine.cases.folding import frames, shift_along
from engine.cases.sizes import panel_sizes, walk
from engine.model import Size
from tests.cases.nets import Point, nets, rotated


def flat(kind: CaseKind, sizes: dict[str, Size]) -> dict[str, tuple[float, float]]:
    """The lower left corner of every panel, the root's at the origin."""
    at: dict[str, tuple[float, float]] = {}
    for panel in walk(kind):
        if not panel.on:
            at[panel.name] = (0.0, 0.0)
            continue
        (x, y), own, room = at[panel.on], sizes[panel.name], sizes[panel.on]
        along = shift_along(panel, own, room)
        match panel.side:
            case Side.LEFT:
                at[panel.name] = (x - own.width, y + along)
            case Side.RIGHT:
                at[panel.name] = (x + room.width, y + along)
            case Side.BOTTOM:
                at[panel.name] = (x + along, y - own.height)
            case _:
                at[panel.name] = (x + along, y + room.height)
    return at


def hinge(side: Side, x: float, y: float, size: Size) -> tuple[Point, Point]:
    """The line to fold about, so that a right-handed turn takes what is outside down."""
    left, right, foot, head = x, x + size.width, y, y + size.height
    return {
        Side.RIGHT: ((right, foot, 0.0), (right, head, 0.0)),
        Side.LEFT: ((left, head, 0.0), (left, foot, 0.0)),
        Side.TOP: ((right, head, 0.0), (left, head, 0.0)),
        Side.BOTTOM: ((left, foot, 0.0), (right, foot, 0.0)),
    }[side]


@given(nets())
@settings(max_examples=150)
def test_a_folded_panel_is_the_flat_one_turned_about_its_scores(kind: CaseKind) -> None:
    kept = frozenset(p.name for p in kind.panels)
    sizes = panel_sizes(kind, 0.25, kept)
    placed = frames(kind, sizes, caliper=0.0)
    at = flat(kind, sizes)
    for panel in kind.panels:
        (x, y), size = at[panel.name], sizes[panel.name]
        for u, v in ((0.0, 0.0), (size.width, 0.0), (size.width, size.height)):
            point: Point = (x + u, y + v, 0.0)
            link = panel
            while link.side is not None:
                line = hinge(link.side, *at[link.on], sizes[link.on])
                point = rotated(point, *line, link.angle)
                link = next(p for p in kind.panels if p.name == link.on)
            assert placed[panel.name].at(u, v) == pytest.approx(point, abs=1e-6)


@given(nets())
@settings(max_examples=50)
def test_axes_stay_square_and_right_handed(kind: CaseKind) -> None:
    kept = frozenset(p.name for p in kind.panels)
    for frame in frames(kind, panel_sizes(kind, 0.25, kept), 0.25).values():
        assert frame.right.cross(frame.up) == frame.normal
        assert frame.right.dot(frame.right) == frame.up.dot(frame.up) == 1
        assert frame.right.dot(frame.up) == 0
