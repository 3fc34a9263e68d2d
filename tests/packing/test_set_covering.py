"""Many footprints: the plan holds everything, and the bound holds for any plan."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.model.waiting import Cancelled
from engine.packing.cutting_stock import fewest, set_covering
from engine.packing.cutting_stock.column_generation import SHEET, CuttingStock
from tests.packing import brute
from tests.packing.strategies import as_field, as_footprints, cuttable


@pytest.mark.parametrize("filled", [200, 3])
@settings(max_examples=30)
@given(sheet=cuttable(), data=st.data())
def test_plan_and_bound_enclose_the_fewest_sheets(
    filled: int, sheet: tuple[tuple[int, int], brute.Sizes], data: st.DataObject
) -> None:
    field, some = sheet
    wanted = tuple(data.draw(st.integers(1, 4)) for _ in some)
    stock = CuttingStock(as_field(*field), as_footprints(some), wanted, None)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(set_covering, "_FILLED", filled)
        patch.setattr(set_covering, "_TRIES", 50)
        found = set_covering.solve(stock)
    possible = brute.guillotine(*field, some)
    assert found.bound <= brute.fewest(wanted, possible.__contains__) <= found.sheets
    printed = [sum(times * counts[i] for times, counts in found.runs) for i in range(len(some))]
    assert all(map(int.__le__, wanted, printed))
    for _, counts in found.runs:
        assert tuple(map(min, counts, wanted)) in possible
    for counts in brute.maximal(possible):
        assert sum(map(int.__mul__, counts, found.worth)) <= SHEET


def test_a_set_of_all_different_rectangles() -> None:
    # Twenty strips 10 wide and 1 to 20 long: 210 in area, so at least three sheets of 10 by
    # 70, and longest with shortest they fill three of them exactly.
    some = as_footprints(tuple((10, n, False) for n in range(1, 21)))
    found = fewest(as_field(10, 70), some, (1,) * 20, freely=False)
    assert (found.sheets, found.bound) == (3, 3)


def test_searching_mends_what_plain_orders_do_badly() -> None:
    # 183 of area on bins of 100: two at least, and two are enough (own instance).
    sides = [(6, 2), (5, 4), (6, 3), (5, 2), (5, 2), (9, 7), (7, 4), (4, 2), (7, 2)]
    some = as_footprints(tuple((w, h, True) for w, h in sides))
    stock = CuttingStock(as_field(10, 10), some, (1,) * len(some), None)
    orders = set_covering._fillings(stock, stock.wanted)
    assert len(next(orders)) == 3
    assert len(next(orders)) == 2


def test_giving_up() -> None:
    stock = CuttingStock(as_field(4, 4), as_footprints(((3, 2, True),)), (2,), lambda: True)
    orders = set_covering._fillings(stock, stock.wanted)
    next(orders)
    with pytest.raises(Cancelled):
        next(orders)
