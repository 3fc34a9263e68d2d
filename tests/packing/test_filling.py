"""Sheets filled with one rectangle after the other."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.packing.cutting_stock.filling import RULES, fill
from tests.packing import brute
from tests.packing.strategies import as_field, as_footprints, cuttable


@settings(max_examples=80)
@given(cuttable(), st.sampled_from(RULES), st.data())
def test_sheets_hold_what_was_placed_and_can_be_cut(
    sheet: tuple[tuple[int, int], brute.Sizes], rule: object, data: st.DataObject
) -> None:
    field, some = sheet
    order = data.draw(st.lists(st.integers(0, len(some) - 1), max_size=9))
    filled = fill(as_field(*field), as_footprints(some), order, rule)
    assert tuple(map(sum, zip((0,) * len(some), *filled, strict=True))) == tuple(
        map(order.count, range(len(some)))
    )
    assert set(filled) <= brute.guillotine(*field, some)


def test_a_footprint_larger_than_the_field() -> None:
    with pytest.raises(ValueError, match="does not fit"):
        fill(as_field(4, 4), as_footprints(((5, 2, True),)), [0], RULES[0])
