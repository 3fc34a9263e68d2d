from __future__ import annotations

import pytest
from hypothesis import assume, given, settings

from engine.cases import CaseKind, Notch, Panel, Role, Side, flatten, load_kinds
from engine.cases.layout import APART
from engine.cases.rings import shape_of
from engine.model.errors import CaseError
from tests.cases.nets import nets

KINDS = load_kinds()


def kind(*panels: Panel, front: str = "") -> CaseKind:
    return CaseKind("mine", "Mine", (), panels, front=front)


ROOT = Panel("front", Role.ART, width=60, height=90)


def test_panels_that_overlap_flat_are_refused_by_both_names() -> None:
    net = kind(
        ROOT,
        Panel("left", Role.EDGE, on="front", side=Side.LEFT, width=10),
        Panel("lid", Role.BLANK, on="left", side=Side.RIGHT, width=10),
    )
    with pytest.raises(CaseError, match='"front" and "lid" overlap'):
        flatten(net, 0.25)


def test_a_front_that_lies_at_the_head_is_refused() -> None:
    net = kind(ROOT, Panel("lid", Role.ART, on="front", side=Side.TOP, height=9), front="lid")
    with pytest.raises(CaseError, match='"lid" lies at the head'):
        flatten(net, 0.25)


def test_a_panel_beside_its_side_is_refused() -> None:
    flap = Panel("flap", Role.EDGE, on="front", side=Side.LEFT, width=9, height=20, offset=95)
    with pytest.raises(CaseError, match='"flap" does not touch the side of "front"'):
        flatten(kind(ROOT, flap), 0.25)


@pytest.mark.parametrize(
    ("depth", "words"), [(60.0, "leave nothing of it"), (59.0, None), (90.0, "leave nothing")]
)
def test_notches_must_leave_a_panel(depth: float, words: str | None) -> None:
    net = CaseKind("mine", "Mine", (), (ROOT,), notches=(Notch("front", Side.LEFT, 90.0, depth),))
    if words is None:
        flatten(net, 0.25)
    else:
        with pytest.raises(CaseError, match=words):
            flatten(net, 0.25)


def test_a_notch_that_cuts_a_panel_in_two_is_refused() -> None:
    net = CaseKind("mine", "Mine", (), (ROOT,), notches=(Notch("front", Side.LEFT, 5.0, 70.0),))
    with pytest.raises(CaseError, match='"front" cut it to pieces'):
        flatten(net, 0.25)


def test_a_kind_made_in_code_is_checked_as_one_from_a_file_is() -> None:
    lost = Panel("flap", Role.EDGE, on="lid", side=Side.LEFT, width=9)
    with pytest.raises(CaseError, match='there is no panel "lid"'):
        flatten(kind(ROOT, lost), 0.25)


@given(nets())
@settings(max_examples=80)
def test_a_net_that_comes_out_is_whole(net: CaseKind) -> None:
    try:
        flat = flatten(net, 0.25)
    except CaseError:
        assume(False)
    shape = shape_of(flat.dieline)
    assert shape.is_valid
    assert shape.bounds == pytest.approx((0, 0, *flat.size))
    assert shape.area == pytest.approx(sum(p.rect.width * p.rect.height for p in flat.panels))
    apart = sum(1 for p in net.panels if p.apart)
    assert len(getattr(shape, "geoms", [shape])) == 1 + apart
    assert len(flat.scores) == len(net.panels) - 1 - apart


@given(nets())
@settings(max_examples=30)
def test_any_panel_can_be_left_out_and_the_rest_keeps_its_sizes(net: CaseKind) -> None:
    assume(len(net.panels) > 1)
    try:
        whole = flatten(net, 0.25)
    except CaseError:
        assume(False)
    for panel in net.panels:
        flat = flatten(net, 0.25, left_out=frozenset({panel.name}))
        assert {p.name for p in flat.panels} == {p.name for p in net.panels} - {panel.name}
        assert shape_of(flat.dieline).bounds == pytest.approx((0, 0, *flat.size))
        for kept in flat.panels:
            if abs(kept.rect.width - kept.rect.height) > 0.5:  # not nearly square
                assert kept.turn == whole.panel(kept.name).turn


def test_leaving_a_flap_out_takes_its_score_and_its_room() -> None:
    shell = KINDS["snap-shell"]
    whole = flatten(shell, 0.25)
    one = flatten(shell, 0.25, left_out=frozenset({"short"}))
    assert (len(whole.scores), len(one.scores)) == (2, 1)
    assert one.size.width == whole.size.width
    # The score's half caliper goes with it.
    assert one.size.height == pytest.approx(72.0 - 0.5)
    assert len(one.dieline[0]) == 4
    neither = flatten(shell, 0.25, left_out=frozenset({"short", "long"}))
    assert [p.name for p in neither.panels] == ["back"]
    assert neither.size == (63.5, 71.5)


def test_what_hung_on_a_dropped_panel_is_a_piece_of_its_own() -> None:
    flat = flatten(KINDS["soft-cassette"], 0.25, left_out=frozenset({"spine"}))
    front, back = flat.panel("front").rect, flat.panel("back").rect
    assert len(flat.dieline) == 2
    assert front.x - (back.x + back.width) == pytest.approx(APART)
    assert flat.scores == ()


def test_art_can_be_dropped_and_the_edge_kept() -> None:
    flat = flatten(KINDS["keep-case"], 0.25, left_out=frozenset({"front", "back"}))
    assert [p.name for p in flat.panels] == ["spine"]
    assert flat.panel("spine").turn == 270


def test_leaving_out_what_is_not_there_or_everything_is_refused() -> None:
    shell = KINDS["snap-shell"]
    with pytest.raises(CaseError, match='no panel "lid" to leave out'):
        flatten(shell, 0.25, left_out=frozenset({"lid"}))
    with pytest.raises(CaseError, match="every panel is left out"):
        flatten(shell, 0.25, left_out=frozenset({"back", "long", "short"}))
