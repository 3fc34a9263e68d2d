from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.cases import Side, flatten, load_kinds
from engine.cases.rings import shape_of
from engine.model.errors import CaseError

KINDS = load_kinds()


@given(st.sampled_from(sorted(KINDS)), st.floats(0.1, 2.9))
@settings(max_examples=60)
def test_the_bleed_covers_all_within_its_reach_of_the_dieline(name: str, by: float) -> None:
    net = flatten(KINDS[name], 0.25)
    trimmed, bled = shape_of(net.dieline), shape_of(net.bleed(by))
    assert bled.buffer(1e-6).contains(trimmed.buffer(by * 0.999))
    left, foot, right, top = bled.bounds
    assert (left, foot) == pytest.approx((-by, -by), abs=1e-6)
    assert (right - net.size.width, top - net.size.height) == pytest.approx((by, by), abs=1e-6)
    # Mitred, not rounded: a square corner stays one.
    if name == "keep-case":
        assert len(net.bleed(by)[0]) == 4


def test_the_bleed_of_an_l_is_an_l() -> None:
    (outline,) = flatten(KINDS["snap-shell"], 0.25).bleed(1.0)
    assert len(outline) == 6


def test_cut_sides_are_those_without_a_whole_score() -> None:
    net = flatten(KINDS["snap-shell"], 0.25)
    assert net.cut_sides("back") == {Side.LEFT, Side.BOTTOM}
    assert net.cut_sides("long") == {Side.BOTTOM, Side.RIGHT, Side.TOP}
    assert net.cut_sides("short") == {Side.LEFT, Side.RIGHT, Side.TOP}


def test_an_unknown_panel_is_told_with_those_there_are() -> None:
    net = flatten(KINDS["keep-case"], 0.25)
    with pytest.raises(CaseError, match=r'no panel "lid"\. Its panels are front, spine, back'):
        net.panel("lid")


def test_a_turned_panel_is_read_along_its_height() -> None:
    spine = flatten(KINDS["keep-case"], 0.25).panel("spine")
    assert spine.turn == 270
    assert spine.reading == (spine.rect.height, spine.rect.width)
