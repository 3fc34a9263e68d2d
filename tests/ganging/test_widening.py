"""Spare room that becomes bleed and gutter."""

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from engine.ganging import Coming, Item, Layout, gang
from engine.ganging.widening import widened
from engine.model import Forme
from engine.model.stocks import STOCKS
from tests.ganging.checks import assert_right
from tests.ganging.strategies import forme, item, queues
from tests.packing.checks import separable
from tests.packing.strategies import fields

A4 = Forme(STOCKS["a4-card"])


def full(width: float, height: float, many: int) -> Layout:
    (sheet, *_) = gang([item(f"g{n}", width, height) for n in range(many)], (), A4).ready
    return sheet


def test_a_sheet_with_room_has_all_the_bleed_and_gutter() -> None:
    sheet, roomy = widened(full(72.75, 80.75, 6), A4, 2.0, 6.0)
    assert (roomy.bleed, roomy.gutter, len(sheet.laid)) == (2.0, 6.0, 6)


def test_bleed_goes_before_gutter() -> None:
    sheet, roomy = widened(full(95.0, 120.0, 2), A4, 3.0, 6.0)
    assert len(sheet.laid) == 2
    assert roomy.bleed == 3.0


def test_a_sheet_without_room_stays_as_it_is() -> None:
    sheet = full(8.0, 65.0, 90)
    assert widened(sheet, A4, 2.0, 6.0) == (sheet, A4)


def test_nothing_is_narrowed() -> None:
    sheet = full(72.75, 80.75, 6)
    assert widened(sheet, A4, 0.0, 0.0)[1] == A4


@settings(max_examples=25)
@given(fields, queues(), st.integers(0, 3), st.integers(0, 6))
def test_the_same_inserts_lie_right_with_wider_gutters(
    field: tuple[int, int], queue: tuple[list[Item], list[Coming]], bleed: int, gutter: int
) -> None:
    paper = forme(field[0] + 4, field[1] + 4, gutter=1)
    for sheet in gang(*queue, paper).ready[:1]:
        wider, roomy = widened(sheet, paper, bleed, gutter)
        assert_right(wider, queue[0], roomy)
        assert roomy.gutter >= max(paper.gutter, 2 * roomy.bleed)
        assert roomy.bleed <= max(bleed, paper.bleed)
        assert roomy.gutter <= max(gutter, paper.gutter)
        way = Counter((one.key, one.rotated) for one in sheet.laid)
        assert way == Counter((one.key, one.rotated) for one in wider.laid)
        assert separable(wider.laid)
