"""One sheet less, or not: what the linear programme leaves open."""

import pytest

from engine.ganging import Coming, plan
from engine.model import Rule
from tests.ganging.strategies import forme


@pytest.mark.parametrize("turns", [False, True])
def test_two_that_cannot_share_a_sheet_take_two(turns: bool) -> None:
    """On 4 by 4, 2 by 3 and 3 by 2 lie beside themselves but not beside each other unturned."""
    coming = [Coming("high", 2, 3, turns, 1), Coming("wide", 3, 2, turns, 1)]
    found = plan(coming, forme(4, 4, rule=Rule.KNIFE))
    assert found.proven
    assert found.sheets == (1 if turns else 2)


def test_a_sheet_less_is_found_where_the_programme_leaves_it_open() -> None:
    """Four of 3 by 2 lie round a hole on 5 by 5; edge to edge a sheet holds three."""
    coming = [Coming("a", 3, 2, turns=True, count=7), Coming("b", 5, 2, turns=True, count=1)]
    found = plan(coming, forme(5, 5, rule=Rule.KNIFE))
    assert (found.sheets, found.proven) == (3, True)
    coming = [Coming("a", 3, 2, turns=True, count=8)]
    found = plan(coming, forme(5, 5, rule=Rule.KNIFE))
    assert (found.sheets, found.proven) == (2, True)
