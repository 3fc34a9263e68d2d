"""What a sheet can hold under the trimmer rule, against trying everything."""

from hypothesis import given, settings
from hypothesis import strategies as st

from engine.ganging.contents import Contents, Prize, arrange
from tests.ganging import brute
from tests.ganging.strategies import as_field, as_footprints, fields, sizes


@settings(deadline=None, max_examples=60)
@given(fields, sizes)
def test_the_maximal_contents_are_those_of_brute_force(
    field: tuple[int, int], some: brute.Sizes
) -> None:
    found = Contents(as_field(*field), as_footprints(some))
    assert set(found.maximal) == brute.maximal(brute.guillotine(*field, some))


@settings(deadline=None, max_examples=60)
@given(fields, sizes, st.data())
def test_with_a_limit_on_each_footprint(
    field: tuple[int, int], some: brute.Sizes, data: st.DataObject
) -> None:
    caps = tuple(data.draw(st.integers(0, 3)) for _ in some)
    found = Contents(as_field(*field), as_footprints(some), caps=caps)
    within = {
        one
        for one in brute.guillotine(*field, some)
        if all(n <= cap for n, cap in zip(one, caps, strict=True))
    }
    assert set(found.maximal) == brute.maximal(frozenset(within))


@settings(deadline=None, max_examples=60)
@given(fields, sizes, st.data())
def test_the_contents_near_the_best_are_all_found(
    field: tuple[int, int], some: brute.Sizes, data: st.DataObject
) -> None:
    worth = tuple(data.draw(st.integers(0, 9)) for _ in some)
    slack = data.draw(st.integers(0, 12))

    def value(counts: brute.Counts) -> int:
        return sum(n * each for n, each in zip(counts, worth, strict=True))

    everything = brute.guillotine(*field, some)
    best = max(map(value, everything))
    near = {one for one in brute.maximal(everything) if value(one) >= best - slack}
    found = Contents(as_field(*field), as_footprints(some), prize=Prize(worth, slack))
    assert set(found.maximal) >= near
    assert set(found.maximal) <= brute.maximal(everything)


@settings(deadline=None, max_examples=60)
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
