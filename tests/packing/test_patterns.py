"""What a sheet can hold under the trimmer rule, against trying everything."""

from hypothesis import given, settings
from hypothesis import strategies as st

from engine.packing.patterns.layouts import arrange
from engine.packing.patterns.maximal import Patterns, Prize
from engine.packing.rectangles import Field, Footprint
from tests.packing import brute
from tests.packing.strategies import as_field, as_footprints, fields, sizes


@settings(max_examples=60)
@given(fields, sizes)
def test_the_maximal_patterns_are_those_of_brute_force(
    field: tuple[int, int], some: brute.Sizes
) -> None:
    found = Patterns(as_field(*field), as_footprints(some))
    assert set(found.maximal) == brute.maximal(brute.guillotine(*field, some))


@settings(max_examples=60)
@given(fields, sizes, st.data())
def test_with_a_limit_on_each_footprint(
    field: tuple[int, int], some: brute.Sizes, data: st.DataObject
) -> None:
    caps = tuple(data.draw(st.integers(0, 3)) for _ in some)
    found = Patterns(as_field(*field), as_footprints(some), caps=caps)
    within = {
        one
        for one in brute.guillotine(*field, some)
        if all(n <= cap for n, cap in zip(one, caps, strict=True))
    }
    assert set(found.maximal) == brute.maximal(frozenset(within))


@settings(max_examples=60)
@given(fields, sizes, st.data())
def test_the_patterns_near_the_best_are_all_found(
    field: tuple[int, int], some: brute.Sizes, data: st.DataObject
) -> None:
    worth = tuple(data.draw(st.integers(0, 9)) for _ in some)
    slack = data.draw(st.integers(0, 12))

    def value(counts: brute.Counts) -> int:
        return sum(n * each for n, each in zip(counts, worth, strict=True))

    everything = brute.guillotine(*field, some)
    best = max(map(value, everything))
    near = {one for one in brute.maximal(everything) if value(one) >= best - slack}
    found = Patterns(as_field(*field), as_footprints(some), prize=Prize(worth, slack))
    assert set(found.maximal) >= near
    assert set(found.maximal) <= brute.maximal(everything)


@settings(max_examples=60)
@given(fields, sizes, st.data())
def test_arranging_says_exactly_what_fits(
    field: tuple[int, int], some: brute.Sizes, data: st.DataObject
) -> None:
    counts = tuple(data.draw(st.integers(0, 4)) for _ in some)
    spots = arrange(as_field(*field), as_footprints(some), counts)
    assert (spots is not None) == (counts in brute.guillotine(*field, some))
    if spots is not None:
        laid = [spot.size for spot in spots]
        assert tuple(laid.count(index) for index in range(len(some))) == counts


@settings(max_examples=60)
@given(fields, sizes)
def test_what_is_left_lies_at_the_far_sides(field: tuple[int, int], some: brute.Sizes) -> None:
    paper, kinds = as_field(*field), as_footprints(some)
    for counts in Patterns(paper, kinds).maximal:
        spots = arrange(paper, kinds, counts)
        assert spots is not None
        assert {spot.x for spot in spots} <= {0, *(spot.x + spot.width for spot in spots)}
        assert {spot.y for spot in spots} <= {0, *(spot.y + spot.height for spot in spots)}


def test_rows_leave_one_offcut() -> None:
    spots = arrange(Field(1900, 2770), (Footprint(840, 720, turns=False),), (6,))
    assert spots is not None
    assert max(spot.y + spot.height for spot in spots) == 3 * 720
    assert max(spot.x + spot.width for spot in spots) == 2 * 840
