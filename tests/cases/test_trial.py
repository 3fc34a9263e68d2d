from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.cases import Misfit, Side, correct, flatten, load_kinds, scales
from engine.model.errors import CaseError

KINDS = load_kinds()


@given(st.sampled_from(sorted(KINDS)), st.data())
@settings(max_examples=60)
def test_the_corrected_kind_is_that_much_shorter(name: str, data: st.DataObject) -> None:
    kind = KINDS[name]
    before = flatten(kind, 0.25)
    panel = data.draw(st.sampled_from(before.panels))
    dimension = data.draw(st.sampled_from(("width", "height")))
    by = data.draw(st.floats(-2, 2).map(lambda mm: round(mm, 1)))
    after = flatten(correct(kind, [Misfit(panel.name, dimension, by)]), 0.25)
    index = 2 if dimension == "width" else 3
    change = panel.rect[index] - after.panel(panel.name).rect[index]
    assert change == pytest.approx(by, abs=1e-6)
    for other in before.panels:
        now = after.panel(other.name).rect
        for i in (2, 3):
            moved = other.rect[i] - now[i]
            assert moved == pytest.approx(0, abs=1e-6) or (
                i == index and moved == pytest.approx(by, abs=1e-6)
            )


def test_a_measure_that_all_its_panels_missed_alike_is_mended_itself() -> None:
    shell = KINDS["snap-shell"]
    mended = correct(shell, [Misfit("long", "width", 0.4), Misfit("short", "height", 0.4)])
    assert {m.name: m.value for m in mended.measures} == {
        "width": 64.0,
        "height": 72.0,
        "depth": 9.6,
    }
    assert mended.panels == shell.panels
    assert mended.sources[-1] == ("trial cut: long width 0.4 mm less, short height 0.4 mm less")


def test_a_measure_that_one_of_two_panels_missed_parts_them() -> None:
    mended = correct(KINDS["snap-shell"], [Misfit("long", "width", -0.3)])
    long, short = mended.panel("long"), mended.panel("short")
    assert long is not None
    assert short is not None
    assert (long.width, short.height) == (10.3, "depth")


def test_a_side_that_hangs_on_another_is_mended_there() -> None:
    mended = correct(KINDS["keep-case"], [Misfit("spine", "height", 1.0)])
    net = flatten(mended, 0.25)
    assert {p.rect.height for p in net.panels} == {183.0}


def test_nothing_off_changes_nothing() -> None:
    assert correct(KINDS["keep-case"], [Misfit("spine", "width", 0.0)]) == KINDS["keep-case"]


def test_corrections_that_cannot_be_are_refused() -> None:
    case = KINDS["keep-case"]
    with pytest.raises(CaseError, match='no panel "lid"'):
        correct(case, [Misfit("lid", "width", 1)])
    with pytest.raises(CaseError, match='"spine" and "front" share one height'):
        correct(case, [Misfit("front", "height", 1), Misfit("spine", "height", 2)])
    with pytest.raises(CaseError, match="leaves nothing of its 14 mm"):
        correct(case, [Misfit("spine", "width", 14)])


@pytest.mark.parametrize("name", KINDS)
def test_every_cut_side_has_a_scale_of_true_millimetres(name: str) -> None:
    net = flatten(KINDS[name], 0.25)
    found = scales(net)
    assert {(s.panel, s.side) for s in found} == {
        (p.name, side) for p in net.panels for side in net.cut_sides(p.name)
    }
    for scale in found:
        rect = net.panel(scale.panel).rect
        along = 1 if scale.side.upright else 0
        starts = [mark[along] - rect[along] for mark in scale.marks]
        assert [b - a for a, b in itertools.pairwise(starts)] == pytest.approx(
            [1.0] * (len(starts) - 1)
        )
        assert starts == pytest.approx([mark.mm for mark in scale.marks])
        assert scale.length == pytest.approx(rect[2 + along])
        assert starts[-1] >= scale.length - 1
        inward = {Side.LEFT: 1, Side.BOTTOM: 1, Side.RIGHT: -1, Side.TOP: -1}[scale.side]
        assert all((m[3 - along] - m[1 - along]) * inward > 0 for m in scale.marks)
