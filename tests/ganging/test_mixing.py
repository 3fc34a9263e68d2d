"""Backlogs of many footprints: the plan holds everything, and the bound holds for any plan."""

from hypothesis import given, settings
from hypothesis import strategies as st

from engine.ganging import Coming, plan
from engine.ganging.backlog import SHEET, Backlog
from engine.ganging.mixing import Mixing
from tests.ganging import brute
from tests.ganging.strategies import as_field, as_footprints, cuttable, forme


@settings(deadline=None, max_examples=40)
@given(cuttable(), st.data())
def test_plan_and_bound_enclose_the_fewest_sheets(
    sheet: tuple[tuple[int, int], brute.Sizes], data: st.DataObject
) -> None:
    field, some = sheet
    wanted = tuple(data.draw(st.integers(1, 4)) for _ in some)
    backlog = Backlog(as_field(*field), as_footprints(some), wanted, None)
    found = Mixing(backlog, None).solve()
    possible = brute.guillotine(*field, some)
    assert found.bound <= brute.fewest(wanted, possible.__contains__) <= found.sheets
    printed = [sum(times * counts[i] for times, counts in found.runs) for i in range(len(some))]
    assert all(map(int.__le__, wanted, printed))
    for _, counts in found.runs:
        assert tuple(map(min, counts, wanted)) in possible
    for counts in brute.maximal(possible):
        assert sum(map(int.__mul__, counts, found.worth)) <= SHEET


def test_a_set_of_all_different_inserts() -> None:
    # Twenty strips 10 wide and 1 to 20 long: 210 in area, so at least three sheets of 10 by
    # 70, and longest with shortest they fill three of them exactly.
    backlog = [Coming(f"kind {n}", 10, n, turns=False, count=1) for n in range(1, 21)]
    found = plan(backlog, forme(10, 70))
    assert (found.sheets, found.bound, found.proven) == (3, 3, True)
