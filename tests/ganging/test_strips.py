"""Where the bars and the names of a sheet stand, and what that leaves its inserts."""

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.ganging import Coming, gang
from engine.ganging.papers import Proposed
from engine.ganging.strips import most_on, roomy, with_bars
from engine.model import Forme, Size
from engine.model.settings import Settings
from engine.model.stocks import STOCKS
from tests.ganging.checks import assert_right
from tests.ganging.strategies import item

A4 = Forme(STOCKS["a4-card"])
LOW = (72.75, 49.75)
"""The insert of a low snap shell."""


def coming(width: float, height: float, count: int = 999) -> Coming:
    return Coming("c", width, height, turns=True, count=count)


def test_one_strip_leaves_the_room_of_the_other() -> None:
    """A4 less margins of 12 and 18 mm is 198 × 279; less 1 mm of bleed on each side 196 × 277."""
    at_foot, up_side = A4.with_one_bar
    assert A4.field[2:] == pytest.approx((196 - 6, 277 - 8))
    assert at_foot.field[2:] == pytest.approx((196, 277 - 8))
    assert up_side.field[2:] == pytest.approx((196 - 8, 277))
    for way in A4.ways:
        x, y, width, height = way.field.inset(-way.bleed)
        area = way.printable
        assert x + width <= area.x + area.width + 1e-9
        assert y + height <= area.y + area.height + 1e-9
        assert (x, y) == pytest.approx((area.x + way.side, area.y + way.foot))


def test_a_bar_is_given_up_for_a_sheet_in_twenty_and_no_less() -> None:
    """Twelve in 188 × 277 mm: a column of five lying, and three rows of two upright, one more.

    With both bars eleven fit (by `python -m tests.bench.strips`). Labels gain 3 in 76: too few.
    """
    assert most_on(A4, "low", Size(*LOW), turns=True) == 12
    assert roomy(A4, [coming(*LOW)]) == A4.with_one_bar[1]
    assert roomy(A4, [coming(8.0, 65.0)]) == A4
    assert roomy(A4, [coming(8.0, 65.0, 900), coming(*LOW, 2)]) == A4


def test_marks_for_a_machine_and_bleed_without_ticks_keep_both_strips() -> None:
    machine = Settings(machine="svg").forme_on(A4.stock)
    assert machine.with_one_bar == ()
    assert roomy(machine, [coming(*LOW)]).has_both_strips
    assert msgspec.structs.replace(A4, bleed=0.5).with_one_bar == ()


def test_a_sheet_with_room_has_both_bars_all_the_same() -> None:
    forme = A4.with_one_bar[1]
    items = [item(f"g{n}", *LOW) for n in range(12)]
    (full,) = gang(items, (), forme).ready
    assert Proposed(forme, full).widened(Settings()).forme.has_both_strips is False
    (some,) = gang(items[:10], (), forme).ready
    laid, way = with_bars(some, forme, A4)
    assert way == A4
    assert_right(laid, items, way)
    (wide,) = gang([item("wide", 270.0, 184.0)], (), forme).ready
    assert with_bars(wide, forme, A4)[1] == A4.with_names_beside


@settings(max_examples=25)
@given(st.integers(250, 1200), st.integers(250, 1200))
def test_no_sheet_holds_fewer_for_it(width: int, height: int) -> None:
    size = Size(width / 10, height / 10)
    stock = msgspec.structs.replace(STOCKS["photo-4x6"], id="one")
    usual = Forme(stock)
    only_both = msgspec.structs.replace(usual, registered=True)
    counts = [most_on(way, "c", size, turns=True) for way in (only_both, usual)]
    way = roomy(usual, [coming(*size)])
    assert counts[1] >= counts[0]
    if not way.has_both_strips:
        assert counts[1] * 19 >= counts[0] * 20
