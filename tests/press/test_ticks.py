from __future__ import annotations

from math import dist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon

from engine.model import Rect
from engine.press import Recorder, box
from engine.press.pens.recorder import FillStroke
from engine.press.ticks import (
    LONGEST,
    SHORTEST,
    SIGN,
    Score,
    Tick,
    Waste,
    crop_ticks,
    draw_score_ticks,
    score_ticks,
)
from tests.press.making import kinds, net

PAGE = box(Rect(0, 0, 200, 200))
SQUARE = [box(Rect(50, 50, 100, 60))]
ELL = [((50.0, 50.0), (150, 50), (150, 80), (80, 80), (80, 120), (50, 120))]


def lines(ticks: tuple[Tick, ...]) -> set[tuple[str, float, float]]:
    """What each level or upright tick lies on, and the end of it near the insert."""
    found = set()
    for x1, y1, x2, y2 in ticks:
        if y1 == pytest.approx(y2):
            found.add(("level", round(y1, 3), round(x1, 3)))
        elif x1 == pytest.approx(x2):
            found.add(("upright", round(x1, 3), round(y1, 3)))
    return found


def test_a_rectangle_has_two_ticks_on_each_corner_on_its_cut_lines() -> None:
    ticks = crop_ticks(SQUARE, Waste(PAGE, [SQUARE], gutter=2))
    assert lines(ticks) == {("level", y, x) for y in (50, 110) for x in (49.5, 150.5)} | {
        ("upright", x, y) for x in (50, 150) for y in (49.5, 110.5)
    }
    assert {round(dist(tick[:2], tick[2:]), 3) for tick in ticks} == {LONGEST}


def test_a_corner_that_goes_in_has_one_tick_that_points_at_it() -> None:
    ticks = crop_ticks(ELL, Waste(PAGE, [ELL], gutter=2))
    slanted = [t for t in ticks if abs(t.x2 - t.x1) > 0.1 and abs(t.y2 - t.y1) > 0.1]
    assert len(ticks) == 2 * 5 + 1
    (tick,) = slanted
    assert tick.x1 - 80 == pytest.approx(tick.y1 - 80)
    assert tick.x2 - 80 == pytest.approx(tick.y2 - 80)
    assert (tick.x1, tick.y1) == pytest.approx((80.5, 80.5)), "clear of both edges by the gap"


def test_a_score_has_a_tick_with_a_diamond_on_its_line_at_each_end() -> None:
    away, towards = (
        score_ticks([Score((90, 50), (90, 110), angle)], Waste(PAGE, [SQUARE], gutter=2))
        for angle in (90, -90)
    )
    assert [tick.line for tick in away] == [tick.line for tick in towards]
    assert lines(tuple(tick.line for tick in away)) == {
        ("upright", 90, 49.5),
        ("upright", 90, 110.5),
    }
    for tick in away:
        sign = Polygon(tick.sign())
        assert sign.centroid.x == pytest.approx(90)
        assert sign.bounds[0] == pytest.approx(90 - SIGN[1])
        assert sign.distance(Polygon(SQUARE[0])) == pytest.approx(0.5)
    assert {tick.valley for tick in away} == {False}
    assert {tick.valley for tick in towards} == {True}


def test_a_diamond_is_solid_for_a_mountain_and_hollow_for_a_valley() -> None:
    waste = Waste(PAGE, [SQUARE], gutter=2)
    for angle, colours in ((90, ["#ffffff", "#000000"]), (-90, ["#ffffff", "#000000", "#ffffff"])):
        pen = Recorder()
        (tick, _) = score_ticks([Score((90, 50), (90, 110), angle)], waste)
        draw_score_ticks(pen, [tick])
        fills = [stroke for stroke in pen.strokes if isinstance(stroke, FillStroke)]
        assert [fill.colour for fill in fills] == colours
        areas = [Polygon(fill.rings[0]).area for fill in fills]
        assert areas == sorted(areas, reverse=True), "each within the one before"


def test_scores_that_share_a_gutter_have_one_diamond_between_them() -> None:
    above = [box(Rect(50, 112, 100, 60))]
    waste = Waste(PAGE, [SQUARE, above], gutter=2)
    scores = [Score((90, 50), (90, 110)), Score((90, 112), (90, 172))]
    signs = [Polygon(tick.sign()) for tick in score_ticks(scores, waste)]
    between = [sign for sign in signs if 110 < sign.centroid.y < 112]
    assert len(between) == 2
    assert between[0].symmetric_difference(between[1]).area < 0.1 * between[0].area


def test_a_score_that_ends_in_an_inner_corner_is_marked_at_its_other_end() -> None:
    (tick,) = score_ticks([Score((50, 80), (80, 80))], Waste(PAGE, [ELL], gutter=2))
    assert tick.line.x1 < 50


def test_rounded_corners_have_ticks_on_the_straight_edges_only() -> None:
    flat = net("cartridge-label")
    assert len(flat.dieline[0]) > 12, "rounded by short steps"
    around = box(Rect(-20, -20, flat.size.width + 40, flat.size.height + 40))
    ticks = crop_ticks(flat.dieline, Waste(around, [flat.dieline], gutter=2))
    assert len(ticks) == 8
    width, height = flat.size
    assert {(kind, at) for kind, at, _ in lines(ticks)} == {
        ("level", 0), ("level", height), ("upright", 0), ("upright", width)
    }  # fmt: skip


@pytest.mark.parametrize("kind", sorted(kinds()))
def test_every_built_in_kind_has_its_cut_and_score_lines_marked(kind: str) -> None:
    flat = net(kind)
    around = box(Rect(-9, -9, flat.size.width + 18, flat.size.height + 18))
    waste = Waste(around, [flat.dieline], gutter=2)
    cuts = {(kind_, round(at, 2)) for kind_, at, _ in lines(crop_ticks(flat.dieline, waste))}
    assert cuts >= {
        ("level", 0), ("level", round(flat.size.height, 2)),
        ("upright", 0), ("upright", round(flat.size.width, 2)),
    }  # fmt: skip
    for score in flat.scores:
        marks = score_ticks([Score((score.x1, score.y1), (score.x2, score.y2))], waste)
        assert marks
        for tick in (mark.line for mark in marks):
            along = LineString([(score.x1, score.y1), (score.x2, score.y2)])
            if score.x1 == score.x2:
                assert (tick.x1, tick.x2) == pytest.approx((score.x1, score.x1))
            else:
                assert (tick.y1, tick.y2) == pytest.approx((score.y1, score.y1))
            assert along.distance(LineString([tick[:2], tick[2:]])) >= waste.gap - 1e-6


@settings(max_examples=60)
@given(
    st.integers(0, 60).map(lambda n: n / 10),
    st.integers(20, 60).map(float),
    st.integers(20, 60).map(float),
)
def test_no_tick_touches_a_finished_insert_however_narrow_the_gutter(
    gutter: float, width: float, height: float
) -> None:
    ell = [tuple((x * width / 100, y * height / 70) for x, y in _at_origin(ELL[0]))]
    grid = [
        [tuple((x + i * (width + gutter) + 10, y + j * (height + gutter) + 10) for x, y in ell[0])]
        for i in range(2)
        for j in range(2)
    ]
    waste = Waste(PAGE, grid, gutter)
    finished = [Polygon(rings[0]) for rings in grid]
    for rings in grid:
        for tick in crop_ticks(rings, waste):
            line = LineString([tick[:2], tick[2:]])
            assert line.length >= SHORTEST - 1e-9
            # A white line 0.3 mm wide lies under the tick: half of it is 0.15.
            assert all(line.distance(shape) > 0.15 for shape in finished)
            assert Polygon(PAGE).covers(line)


def _at_origin(ring: tuple[tuple[float, float], ...]) -> list[tuple[float, float]]:
    return [(x - 50, y - 50) for x, y in ring]
