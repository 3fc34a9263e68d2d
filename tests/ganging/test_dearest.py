"""The dearest content of free placement, against trying everything."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.ganging.bars import Way, best_prices, filled
from engine.ganging.dearest import Dearest, GivenUp
from engine.ganging.footprints import Field, Footprint
from engine.ganging.free import FreeSearch
from engine.ganging.relaxed import Relaxation
from engine.ganging.roof import Roof
from tests.ganging import brute
from tests.ganging.strategies import as_field, as_footprints, fields, sizes

EFFORT = 1_000_000


def dearest(field: Field, some: tuple[Footprint, ...], worth: tuple[int, ...]) -> Dearest:
    return Dearest(field, some, worth, Relaxation(field, some))


@settings(deadline=None, max_examples=80)
@given(fields, sizes, st.data())
def test_the_dearest_is_that_of_all_contents_that_can_be_laid(
    field: tuple[int, int], some: brute.Sizes, data: st.DataObject
) -> None:
    some = tuple(size for size in some if brute.free(*field, (size,), (1,)))
    if not some:
        return
    # Worths near the areas are the hard ones: whether they fit decides, not what they are worth.
    worth = tuple(w * h * 100 + data.draw(st.integers(-30, 30)) for w, h, _ in some)
    flat, footprints = as_field(*field), as_footprints(some)
    room = [field[0] * field[1] // (w * h) for w, h, _ in some]
    values = {
        counts: sum(map(int.__mul__, worth, counts))
        for counts in product(*(range(most + 1) for most in room))
    }

    def lies(counts: brute.Counts) -> bool:
        return FreeSearch(flat, footprints, counts, effort=EFFORT).find() is not None

    most = next(values[one] for one in sorted(values, key=lambda one: -values[one]) if lies(one))
    search = dearest(flat, footprints, worth)
    assert search.most >= most
    assert search.above(most, many=3, effort=EFFORT) == []
    for beam in (None, 2):
        found = search.above(most // 2, many=9, effort=EFFORT, beam=beam)
        assert all(value == values[counts] and lies(counts) for value, counts in found)
        assert beam or found[0][0] == most


def test_a_notch_may_be_left_empty_on_the_way_to_the_dearest() -> None:
    """One of 58 by 126 mm and eight of 37 by 147 on 202 by 289: 113 / 126 of the sheet."""
    some = (
        Footprint(126, 58, turns=True),
        Footprint(111, 50, turns=True),
        Footprint(147, 37, turns=True),
        Footprint(122, 35, turns=True),
    )
    worth = (113_636_363, 90_909_090, 113_636_363, 68_181_818)
    found = dearest(Field(202, 289), some, worth).above(1_012_700_000, many=1, effort=EFFORT)
    assert found == [(1_022_727_267, (1, 0, 8, 0))]


@settings(deadline=None, max_examples=60)
@given(fields, sizes, st.data())
def test_strips_are_never_worth_less_than_what_lies_across_them(
    field: tuple[int, int], some: brute.Sizes, data: st.DataObject
) -> None:
    ways = [
        Way(i, w, h, data.draw(st.integers(1, 10**9)))
        for i, size in enumerate(some)
        for w, h in brute.ways(size)
        if w <= field[0] and h <= field[1]
    ]
    if not ways:
        return
    for prices in best_prices(*field, ways):
        for way in ways:
            across = prices.across.get(way.width, 0)
            along = prices.along.get(way.height, 0)
            assert way.width * along + way.height * across >= way.worth
    level, stepped = ((1, field[0]),), ((1, 1), (0, field[0] - 1))
    roof = Roof(*field, ways)
    assert roof.over(level) <= roof.over(stepped) <= roof.over(((0, field[0]),))


def test_a_strip_is_filled_as_full_as_can_be() -> None:
    assert filled({3: 4, 5: 7}, 11) == [0, 0, 0, 4, 4, 7, 8, 8, 11, 12, 14, 15]


def test_a_search_that_was_given_up_says_so() -> None:
    search = dearest(Field(32, 22), (Footprint(5, 4, turns=True),), (20,))
    with pytest.raises(GivenUp):
        search.above(680, many=1, effort=10)
