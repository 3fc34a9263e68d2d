"""Free placement, against trying everything and against published optima."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.model.waiting import Cancelled
from engine.packing.rectangles import Field, Footprint, Spot
from engine.packing.skyline.bound import least_sheets
from engine.packing.skyline.search import BEAMS, dearest, scatter
from tests.bench.ganging.pallets import PALLETS, Pallet
from tests.packing import brute
from tests.packing.checks import apart
from tests.packing.strategies import as_field, as_footprints, cuttable, fields, sizes


def assert_lies(field: Field, some: tuple[Footprint, ...], spots: tuple[Spot, ...]) -> None:
    for spot in spots:
        assert (spot.width, spot.height) in some[spot.size].ways
        assert 0 <= spot.x <= field.width - spot.width
        assert 0 <= spot.y <= field.height - spot.height
    assert all(apart(a, b) >= 0 for n, a in enumerate(spots) for b in spots[n + 1 :])


@pytest.mark.parametrize("pallet", PALLETS, ids=str)
def test_pallets_are_loaded_to_the_optimum(pallet: Pallet) -> None:
    """The usual beam reaches all but two of the published optima, of which it lays one less."""
    field, most = Field(pallet.width, pallet.length), pallet.knife
    some = (Footprint(pallet.long, pallet.short, turns=True),)
    reached = most - (most in {53, 57})
    spots = scatter(field, some, (reached,))
    assert spots is not None
    assert len(spots) == reached
    assert_lies(field, some, spots)
    assert scatter(field, some, (most + 1,)) is None


def test_a_notch_may_be_left_empty_on_the_way() -> None:
    """One of 58 by 126 mm and eight of 37 by 147 on 202 by 289, placed by an exact search."""
    some = (Footprint(126, 58, turns=True), Footprint(147, 37, turns=True))
    spots = scatter(Field(202, 289), some, (1, 8))
    assert spots is not None
    assert_lies(Field(202, 289), some, spots)


def test_a_footprint_may_stand_at_the_right_of_a_notch() -> None:
    """An exact search placed these nine; from the left alone no beam did."""
    field = Field(2079, 2714)
    some = tuple(
        Footprint(w, h, turns=True)
        for w, h in ((1440, 810), (1390, 610), (990, 770), (1470, 350), (1060, 350), (780, 400))
    )
    spots = scatter(field, some, (1, 1, 1, 3, 1, 2))
    assert spots is not None
    assert_lies(field, some, spots)


@settings(max_examples=100)
@given(fields, sizes, st.data())
def test_what_is_laid_lies_and_what_is_not_hardly_ever_could(
    field: tuple[int, int], some: brute.Sizes, data: st.DataObject
) -> None:
    counts = tuple(data.draw(st.integers(0, 2)) for _ in some)
    spots = scatter(as_field(*field), as_footprints(some), counts)
    can = brute.free(*field, some, counts)
    assert (spots is not None) == can
    if spots is not None:
        laid = [spot.size for spot in spots]
        assert tuple(laid.count(index) for index in range(len(some))) == counts
        assert_lies(as_field(*field), as_footprints(some), spots)


@settings(max_examples=40)
@given(cuttable(), st.data())
def test_the_dearest_pattern_lies(
    sheet: tuple[tuple[int, int], brute.Sizes], data: st.DataObject
) -> None:
    field, some = sheet
    caps = tuple(data.draw(st.integers(1, 3)) for _ in some)
    worth = [w * h * 100 + data.draw(st.integers(-30, 30)) for w, h, _ in some]

    def value(counts: brute.Counts) -> int:
        return sum(map(int.__mul__, worth, counts))

    every = product(*(range(cap + 1) for cap in caps))
    best = max(value(counts) for counts in every if brute.free(*field, some, counts))
    found = dearest(
        as_field(*field), as_footprints(some), caps, worth, above=best // 2, beam=BEAMS[1]
    )
    assert value(found[0]) == best
    assert [value(one) for one in found] == sorted(map(value, found), reverse=True)
    assert all(brute.free(*field, some, counts) for counts in found[:5])


@settings(max_examples=60)
@given(cuttable(), st.data())
def test_no_placement_takes_fewer_sheets_than_the_bound(
    sheet: tuple[tuple[int, int], brute.Sizes], data: st.DataObject
) -> None:
    field, some = sheet
    wanted = tuple(data.draw(st.integers(0, 3)) for _ in some)
    bound = least_sheets(as_field(*field), as_footprints(some), wanted)
    area = sum(n * w * h for n, (w, h, _) in zip(wanted, some, strict=True))
    assert -(-area // (field[0] * field[1])) <= bound
    assert bound <= brute.fewest(wanted, lambda one: brute.free(*field, some, one))


def test_two_that_are_wider_and_higher_than_half_take_two_sheets() -> None:
    assert least_sheets(Field(10, 10), (Footprint(6, 6, turns=False),), (7,)) == 7


def test_giving_up() -> None:
    some = (Footprint(5, 4, turns=True),)
    with pytest.raises(Cancelled):
        dearest(Field(32, 22), some, (35,), (1,), above=0, beam=12, cancel=lambda: True)
