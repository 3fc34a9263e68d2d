"""The fewest sheets for a whole backlog."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.ganging import Coming, plan
from engine.model import Forme, Margins, Rule, Stock
from engine.model.waiting import Cancelled
from tests.ganging.strategies import forme
from tests.packing import brute
from tests.packing.strategies import fields, sizes

A4 = Stock("a4", "A4", 210, 297, margins=Margins(5, 5, 5, 5))


@pytest.mark.parametrize("gutter", [0.0, 2.0])
@pytest.mark.parametrize(
    ("counts", "sheets"), [((120, 60, 50, 40, 30), 90), ((60, 60, 60, 60, 60), 120)]
)
def test_mixed_sizes_on_a4(counts: tuple[int, ...], sheets: int, gutter: float) -> None:
    # A4 less 5 mm margins, rotation allowed, trimmer rule; the optimum was proven twice over
    # the exact patterns with a solver of its own (own calculation, no published source).
    footprints = [(82, 74), (149, 107), (151, 118), (120, 120), (104, 101)]
    backlog = [
        Coming(f"kind {i}", w, h, True, n)
        for i, ((w, h), n) in enumerate(zip(footprints, counts, strict=True))
    ]
    paper = Forme(A4, bleed=0, gutter=gutter, foot=0, side=0)
    result = plan(backlog, paper)
    assert (result.sheets, result.bound, result.proven) == (sheets, sheets, True)


def test_a_knife_fits_more_on_a_sheet_than_a_trimmer() -> None:
    # Pallet loading (22, 16, 5, 3): 23 by free placement, 22 edge to edge (Dowsland's
    # published set).
    stock = Stock(
        id="p", name="p", width=22, height=16, margins=Margins(left=0, right=0, top=0, bottom=0)
    )
    for rule, count, sheets in [
        (Rule.TRIMMER, 22, 1),
        (Rule.TRIMMER, 23, 2),
        (Rule.KNIFE, 23, 1),
        (Rule.KNIFE, 24, 2),
    ]:
        paper = Forme(stock=stock, rule=rule, bleed=0, gutter=0, foot=0, side=0)
        found = plan([Coming("k", 5, 3, turns=True, count=count)], paper)
        assert (found.sheets, found.bound, found.proven) == (sheets, sheets, True)


@pytest.mark.parametrize("turns", [False, True])
def test_two_that_cannot_share_a_sheet_take_two(turns: bool) -> None:
    """On 4 by 4, 2 by 3 and 3 by 2 lie beside themselves but not beside each other unturned."""
    coming = [Coming("high", 2, 3, turns, 1), Coming("wide", 3, 2, turns, 1)]
    assert plan(coming, forme(4, 4, rule=Rule.KNIFE)).sheets == (1 if turns else 2)


def test_where_no_fewer_are_found_but_might_be_nothing_is_claimed() -> None:
    """Of 4 by 4 no sheet holds both, though their area would fit: that is beyond the bound."""
    coming = [Coming("high", 2, 3, False, 1), Coming("wide", 3, 2, False, 1)]
    found = plan(coming, forme(4, 4, rule=Rule.KNIFE))
    assert (found.sheets, found.bound, found.proven) == (2, 1, False)


def test_a_sheet_less_is_found_where_the_programme_leaves_it_open() -> None:
    """Four of 3 by 2 lie round a hole on 5 by 5; edge to edge a sheet holds three."""
    coming = [Coming("a", 3, 2, turns=True, count=7), Coming("b", 5, 2, turns=True, count=1)]
    assert plan(coming, forme(5, 5, rule=Rule.KNIFE)).sheets == 3
    coming = [Coming("a", 3, 2, turns=True, count=8)]
    assert plan(coming, forme(5, 5, rule=Rule.KNIFE)).sheets == 2


@settings(max_examples=60)
@given(fields, sizes, st.sampled_from(Rule), st.data())
def test_the_fewest_sheets_are_those_of_trying_everything(
    field: tuple[int, int], some: brute.Sizes, rule: Rule, data: st.DataObject
) -> None:
    some = tuple(
        size for size in some if any(w <= field[0] and h <= field[1] for w, h in brute.ways(size))
    )
    counts = tuple(data.draw(st.integers(0, 4)) for _ in some)
    backlog = [
        Coming(f"kind {k}", w, h, turns, n)
        for k, ((w, h, turns), n) in enumerate(zip(some, counts, strict=True))
    ]
    found = plan(backlog, forme(*field, rule=rule))

    def holds(content: brute.Counts) -> bool:
        if rule is Rule.KNIFE:
            return brute.free(*field, some, content)
        return content in brute.guillotine(*field, some)

    assert found.bound <= brute.fewest(counts, holds) == found.sheets
    assert found.proven or rule is Rule.KNIFE


def test_so_little_that_even_the_bound_is_a_part_of_a_sheet() -> None:
    backlog = [Coming("a", 2, 4, turns=False, count=1), Coming("b", 2, 3, turns=False, count=2)]
    found = plan(backlog, forme(8, 8))
    assert (found.sheets, found.bound, found.proven) == (1, 1, True)


def test_an_insert_larger_than_the_sheet_is_named() -> None:
    backlog = [Coming("poster", 300, 300, True, 2), Coming("a", 48, 48, True, 4)]
    found = plan(backlog, forme(98, 98))
    assert (found.sheets, found.proven, found.too_large) == (1, True, ("poster",))


def test_nothing_left_takes_no_sheet() -> None:
    found = plan([Coming("a", 48, 48, True, 0)], forme(98, 98))
    assert (found.sheets, found.bound, found.proven) == (0, 0, True)


def test_giving_up() -> None:
    backlog = [Coming("a", 31, 47, True, 40), Coming("b", 29, 53, True, 40)]
    with pytest.raises(Cancelled):
        plan(backlog, forme(198, 281), cancel=lambda: True)
