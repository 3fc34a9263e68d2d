"""Sheets filled insert by insert."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.ganging import Cancelled
from engine.ganging.shuffling import Shuffler
from tests.ganging import brute
from tests.ganging.strategies import as_field, as_footprints, cuttable


@settings(deadline=None, max_examples=60)
@given(cuttable(), st.data())
def test_fillings_hold_what_is_wanted_and_can_be_cut(
    sheet: tuple[tuple[int, int], brute.Sizes], data: st.DataObject
) -> None:
    field, some = sheet
    wanted = tuple(data.draw(st.integers(1, 5)) for _ in some)
    shuffler = Shuffler(as_field(*field), as_footprints(some), wanted, None)
    plain, better = shuffler.in_order(), shuffler.shuffled(1, 80)
    assert len(better) <= len(plain)
    for filling in (plain, better):
        assert tuple(map(sum, zip(*filling, strict=True))) == wanted
        assert set(filling) <= brute.guillotine(*field, some)


def test_shuffling_mends_what_plain_orders_do_badly() -> None:
    # 183 of area on bins of 100: two at least, and two are enough (own instance).
    sides = [(6, 2), (5, 4), (6, 3), (5, 2), (5, 2), (9, 7), (7, 4), (4, 2), (7, 2)]
    some = as_footprints(tuple((w, h, True) for w, h in sides))
    shuffler = Shuffler(as_field(10, 10), some, (1,) * len(some), None)
    assert len(shuffler.in_order()) == 3
    assert len(shuffler.shuffled(2, 2000)) == 2


def test_a_footprint_larger_than_the_field() -> None:
    with pytest.raises(ValueError, match="does not fit"):
        Shuffler(as_field(4, 4), as_footprints(((5, 2, True),)), (1,), None)


def test_giving_up() -> None:
    shuffler = Shuffler(as_field(4, 4), as_footprints(((3, 2, True),)), (2,), lambda: True)
    shuffler.in_order()
    with pytest.raises(Cancelled):
        shuffler.shuffled(0, 10)
