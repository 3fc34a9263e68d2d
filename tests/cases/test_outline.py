from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.cases import CaseKind, Corner, Notch, Panel, Role, Side, Tongue, flatten
from engine.cases.rings import shape_of

SHEET = Panel("front", Role.ART, width=60, height=90)


def cut(
    notches: tuple[Notch, ...] = (),
    tongues: tuple[Tongue, ...] = (),
    corners: tuple[Corner, ...] = (),
    panels: tuple[Panel, ...] = (SHEET,),
) -> CaseKind:
    return CaseKind("mine", "Mine", (), panels, notches=notches, tongues=tongues, corners=corners)


def area(kind: CaseKind) -> float:
    return float(shape_of(flatten(kind, 0.25).dieline).area)


# Areas of a rectangle, a triangle and half an ellipse.
@pytest.mark.parametrize(
    ("shape", "taken"),
    [("rectangle", 20 * 6), ("wedge", 20 * 6 / 2), ("round", math.pi * 10 * 6 / 2)],
)
@pytest.mark.parametrize("side", Side)
def test_a_notch_takes_its_shape_from_its_side(side: Side, shape: str, taken: float) -> None:
    kind = cut(notches=(Notch("front", side, 20, 6, shape=shape),))  # type: ignore[arg-type]
    net = flatten(kind, 0.25)
    assert 60 * 90 - area(kind) == pytest.approx(taken, rel=0.005)
    assert net.size == (60, 90)
    (ring,) = net.notches
    along = 1 if side.upright else 0
    middle = (90, 60)[1 - along] / 2
    assert sum(p[along] for p in ring) / len(ring) == pytest.approx(middle)


@pytest.mark.parametrize("side", Side)
def test_a_tongue_stands_out_and_widens_the_footprint(side: Side) -> None:
    net = flatten(cut(tongues=(Tongue("front", side, 20, 6, at=15),)), 0.25)
    grown = (66, 90) if side.upright else (60, 96)
    assert net.size == grown
    assert shape_of(net.dieline).bounds == pytest.approx((0, 0, *grown))
    rect = net.panel("front").rect
    assert (rect.x, rect.y) == {Side.LEFT: (6, 0), Side.BOTTOM: (0, 6)}.get(side, (0, 0))


@given(st.floats(0.5, 12))
@settings(max_examples=25)
def test_rounded_corners_lie_on_their_circle(radius: float) -> None:
    net = flatten(cut(corners=(Corner("front", "all", radius),)), 0.25)
    (ring,) = net.dieline
    centre = (radius, radius)
    arc = [p for p in ring if p[0] <= radius and p[1] <= radius]
    assert len(arc) > 8
    for spot in arc:
        assert math.dist(spot, centre) == pytest.approx(radius, abs=1e-5)
    middles = [
        math.dist(((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), centre)
        for a, b in itertools.pairwise(arc)
    ]
    # The chords of the arc stray from it by less than what a home cutter errs.
    assert min(middles) > radius - 0.03


def test_corners_at_a_score_stay_square() -> None:
    flap = Panel("flap", Role.EDGE, on="front", side=Side.RIGHT, width=10)
    kind = cut(corners=(Corner("front", "all", 5, shape="bevel"),), panels=(SHEET, flap))
    (ring,) = flatten(kind, 0.25).dieline
    bevels = [p for p in ring if p in {(5.0, 0.0), (0.0, 5.0), (0.0, 85.0), (5.0, 90.0)}]
    assert len(bevels) == 4
    assert len(ring) == 6


def test_a_notch_across_a_score_parts_it_and_makes_the_side_cut() -> None:
    flap = Panel("flap", Role.EDGE, on="front", side=Side.RIGHT, width=10)
    kind = cut(notches=(Notch("front", Side.RIGHT, 20, 5),), panels=(SHEET, flap))
    net = flatten(kind, 0.25)
    assert [sorted((s.y1, s.y2)) for s in net.scores] == [[0, 35], [55, 90]]
    assert Side.RIGHT in net.cut_sides("front")


def test_a_flap_narrower_than_its_side_leaves_the_rest_cut() -> None:
    flap = Panel("flap", Role.EDGE, on="front", side=Side.RIGHT, width=10, height=40, offset=5)
    net = flatten(cut(panels=(SHEET, flap)), 0.25)
    (score,) = net.scores
    assert sorted((score.y1, score.y2)) == [5, 45]
    assert Side.RIGHT in net.cut_sides("front")
    assert Side.LEFT not in net.cut_sides("flap")
