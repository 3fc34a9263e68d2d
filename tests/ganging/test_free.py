"""Free placement, against trying everything and against published optima."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.ganging.footprints import Field, Footprint
from engine.ganging.free import FreeSearch, Undecided
from engine.ganging.knife import Knife
from engine.ganging.relaxed import Relaxation
from tests.ganging import brute
from tests.ganging.strategies import as_field, as_footprints, fields, sizes

# Length and width of the sheet, length and width of the inserts, how many fit: free placement
# and, where published, edge to edge. The first eight are of Dowsland's set; the optima were
# proven by two exact methods against the bound of Barnes (1979), the others by a constraint
# solver (own calculations on published instances).
PALLETS = [
    ((22, 16, 5, 3), 23),
    ((30, 22, 7, 4), 23),
    ((46, 34, 11, 6), 23),
    ((50, 36, 11, 7), 23),
    ((53, 51, 9, 7), 42),
    ((63, 60, 11, 8), 42),
    ((76, 73, 13, 10), 42),
    ((86, 82, 15, 11), 42),
    ((43, 26, 7, 3), 53),
    ((49, 28, 8, 3), 57),
    ((32, 22, 5, 4), 34),
    ((37, 30, 8, 3), 45),
]


@pytest.mark.parametrize(("pallet", "most"), PALLETS)
def test_pallets_are_loaded_to_the_optimum(pallet: tuple[int, int, int, int], most: int) -> None:
    length, width, long, short = pallet
    knife = Knife(Field(width, length), [Footprint(long, short, turns=True)])
    spots = knife.scatter((most,))
    assert spots is not None
    cells = {
        (x, y)
        for spot in spots
        for x in range(spot.x, spot.x + spot.width)
        for y in range(spot.y, spot.y + spot.height)
    }
    assert len(cells) == most * long * short
    assert cells <= {(x, y) for x in range(width) for y in range(length)}
    assert knife.scatter((most + 1,)) is None


@settings(deadline=None, max_examples=120)
@given(fields, sizes, st.data())
def test_what_fits_is_what_brute_force_can_place(
    field: tuple[int, int], some: brute.Sizes, data: st.DataObject
) -> None:
    counts = tuple(data.draw(st.integers(0, 2)) for _ in some)
    can = brute.free(*field, some, counts)
    search = FreeSearch(as_field(*field), as_footprints(some), counts, effort=50_000)
    assert (search.find() is not None) == can
    fitting = [size for size in some if brute.free(*field, (size,), (1,))]
    if len(fitting) == len(some) and can:
        assert Relaxation(as_field(*field), as_footprints(some)).allows(counts)


@settings(deadline=None, max_examples=40)
@given(fields, sizes, st.data())
def test_the_dearest_that_may_fit(
    field: tuple[int, int], some: brute.Sizes, data: st.DataObject
) -> None:
    some = tuple(size for size in some if brute.free(*field, (size,), (1,)))
    worth = tuple(data.draw(st.integers(0, 9)) for _ in some)
    relaxation = Relaxation(as_field(*field), as_footprints(some))
    caps = tuple(4 for _ in some)
    every = relaxation.every(caps, 10_000)
    assert every is not None
    values = sorted((sum(map(int.__mul__, worth, one)) for one in every), reverse=True)
    above = data.draw(st.integers(0, 20))
    found = relaxation.dearest(worth, caps, above, 1)
    assert [value for value, _ in found] == [value for value in values if value > above][:1]


def test_a_search_that_was_given_up_says_so() -> None:
    search = FreeSearch(Field(32, 22), [Footprint(5, 4, turns=True)], (35,), effort=10)
    with pytest.raises(Undecided):
        search.find()
