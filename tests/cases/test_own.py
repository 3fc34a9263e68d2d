from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.cases import QUESTIONS, CaseShape, Fits, doubts, draft, flatten, fold, kind_id
from engine.model.errors import CaseError

WRAP = {"height": 107.0, "front": 67.5, "spine": 14.0, "back": 67.5}
SLEEVE = {"height": 72.0, "width": 64.0, "right": 10.0, "top": 10.0}


@given(st.sampled_from(CaseShape), st.data())
@settings(max_examples=60)
def test_what_was_measured_comes_back_from_the_folded_case(
    shape: CaseShape, data: st.DataObject
) -> None:
    measures = {
        q.key: data.draw(st.floats(q.least, q.most).map(lambda mm: round(mm, 1)), q.key)
        for q in QUESTIONS[shape]
    }
    kind = draft(shape, "Mine", measures)
    body = fold(kind, 0.25).outside
    deepest = {
        CaseShape.WRAP: measures.get("spine"),
        CaseShape.TRAY: measures.get("spine"),
        CaseShape.SLEEVE: max(measures.get(k, 0) for k in ("left", "right", "top", "bottom")),
        CaseShape.STRIP: None,
    }[shape]
    assert body.height == pytest.approx(measures["height"] - 0.5)
    if deepest is not None:
        assert body.depth == pytest.approx(deepest - 0.5)
        widest = max(measures.get(k, 0) for k in ("width", "front", "back"))
        assert body.width == pytest.approx(widest - 0.5)


def test_a_wrap_without_a_back_and_a_sleeve_without_flaps() -> None:
    assert [p.name for p in draft(CaseShape.WRAP, "Mine", {**WRAP, "back": 0}).panels] == [
        "front",
        "spine",
    ]
    assert [
        p.name for p in draft(CaseShape.SLEEVE, "Mine", {"height": 72, "width": 64}).panels
    ] == ["front"]


def test_a_sleeve_has_the_flaps_that_were_measured() -> None:
    net = flatten(draft(CaseShape.SLEEVE, "Mine", SLEEVE), 0.25)
    assert {p.name for p in net.panels} == {"front", "right flap", "top flap"}
    assert len(net.dieline[0]) == 6


def test_a_wrap_round_the_outside_gets_room() -> None:
    body = fold(draft(CaseShape.WRAP, "Mine", WRAP, fits=Fits.AROUND), 0.25).inside
    assert body == pytest.approx((68.0, 107.5, 14.5))


@pytest.mark.parametrize(
    ("measures", "sentence"),
    [
        ({"front": 60, "spine": 12}, "height: is not given. Measure it: height inside."),
        ({**WRAP, "height": -5}, "height: -5 is not a length. Give it in mm, above 0."),
        ({**WRAP, "spine": 0}, "spine: 0 is not a length. Give it in mm, above 0."),
        ({**WRAP, "lid": 5}, "lid: is no measure of a wrap. Give height, front, spine, back."),
        ({**WRAP, "spine": float("inf")}, "spine: inf is not a length. Give it in mm, above 0."),
    ],
)
def test_a_figure_that_cannot_be_is_refused(measures: dict[str, float], sentence: str) -> None:
    with pytest.raises(CaseError) as fault:
        draft(CaseShape.WRAP, "Mine", measures)
    assert str(fault.value) == sentence


def test_plausible_figures_raise_no_doubt() -> None:
    assert doubts(CaseShape.WRAP, WRAP) == ()
    assert doubts(CaseShape.SLEEVE, SLEEVE) == ()
    assert doubts(CaseShape.TRAY, {"height": 118, "width": 138, "spine": 6.5}) == ()
    assert doubts(CaseShape.STRIP, {"height": 65, "width": 8}) == ()
    # A keep case's wrap (273 x 184, common practice) still fits A4.
    assert doubts(CaseShape.WRAP, {"height": 184, "front": 129.5, "spine": 14, "back": 129.5}) == ()


@pytest.mark.parametrize(
    ("shape", "measures", "words"),
    [
        (CaseShape.WRAP, {k: v / 10 for k, v in WRAP.items()}, "centimetres or inches"),
        (CaseShape.WRAP, {**WRAP, "spine": 140}, "spine: 140 mm is over 45 mm, .* Is it 14?"),
        (CaseShape.WRAP, {**WRAP, "spine": 1.4}, "spine: 1.4 mm is under 4 mm, .* Is it 14?"),
        (CaseShape.WRAP, {**WRAP, "spine": 70}, "wider than the case"),
        (CaseShape.WRAP, {**WRAP, "back": 90}, "back is wider than the front"),
        (CaseShape.SLEEVE, {**SLEEVE, "top": 16}, "differ by more than 2 mm"),
        (CaseShape.SLEEVE, {"height": 72, "width": 64}, "no flap"),
        (CaseShape.STRIP, {"height": 20, "width": 30}, "wider than it is long"),
        (CaseShape.WRAP, {**WRAP, "front": 190, "back": 190}, "fits neither A4 nor Letter"),
    ],
)
def test_an_implausible_figure_is_warned_of(
    shape: CaseShape, measures: dict[str, float], words: str
) -> None:
    assert any(re.search(words, sentence) for sentence in doubts(shape, measures))
    draft(shape, "Mine", measures)  # warned of, not refused


def test_figures_in_inches_are_told_before_they_are_refused() -> None:
    inches = {key: mm / 25.4 for key, mm in WRAP.items()}
    assert "inches" in doubts(CaseShape.WRAP, inches)[0]
    with pytest.raises(CaseError, match='nothing is left of panel "spine"'):
        draft(CaseShape.WRAP, "Mine", inches)


@pytest.mark.parametrize(
    ("name", "slug"),
    [
        ("My Tins", "my-tins"), ("  Étui à cartes (2) ", "etui-a-cartes-2"), ("A/B..C", "a-b-c"),
        ("Коробка, большая", "korobka-bolshaya"), ("箱", "xiang"), ("กล่อง", "klong"),
    ],
)  # fmt: skip
def test_a_name_becomes_an_id(name: str, slug: str) -> None:
    assert kind_id(name) == slug


def test_a_name_of_which_nothing_is_left_is_refused() -> None:
    with pytest.raises(CaseError, match="has no letter or digit"):
        kind_id("☃ – ")
