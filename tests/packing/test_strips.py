"""Layouts in strips, checked from their coordinates alone."""

from hypothesis import given, settings
from hypothesis import strategies as st

from engine.packing.patterns.strips import strips
from engine.packing.rectangles import Field, Footprint, Spot
from tests.packing import brute
from tests.packing.checks import apart, separable
from tests.packing.strategies import as_field, as_footprints, fields, sizes


@settings(max_examples=80)
@given(fields, sizes, st.data())
def test_every_layout_holds_the_content_and_can_be_cut(
    field: tuple[int, int], some: brute.Sizes, data: st.DataObject
) -> None:
    counts = tuple(data.draw(st.integers(0, 3)) for _ in some)
    paper, kinds = as_field(*field), as_footprints(some)
    for spots in strips(paper, kinds, counts):
        laid = [spot.size for spot in spots]
        assert tuple(laid.count(index) for index in range(len(some))) == counts
        for spot in spots:
            assert (spot.width, spot.height) in kinds[spot.size].ways
            assert min(spot.x, spot.y) >= 0
            assert spot.x + spot.width <= paper.width
            assert spot.y + spot.height <= paper.height
        assert all(apart(a, b) >= 0 for n, a in enumerate(spots) for b in spots[n + 1 :])
        assert separable(spots)


def test_rows_of_one_kind_fill_the_width() -> None:
    # Five of 60 by 50 on 200 by 300: three in the first row, two in the second.
    found = set(strips(Field(200, 300), (Footprint(60, 50, turns=False),), (5,)))
    rows = tuple(Spot(0, x, y, 60, 50) for x, y in ((0, 0), (60, 0), (120, 0), (0, 50), (60, 50)))
    assert rows in found


def test_what_needs_a_wheel_lies_in_no_strips() -> None:
    # Four of 6 by 4 round a hole fill 10 by 10; no cut goes through.
    assert not list(strips(Field(10, 10), (Footprint(6, 4, turns=True),), (4,)))
