"""Contents put together from pieces, against every content there is."""

from hypothesis import given, settings
from hypothesis import strategies as st

from engine.ganging.assembling import Assembler
from tests.ganging import brute
from tests.ganging.strategies import as_field, as_footprints, cuttable


@settings(deadline=None, max_examples=60)
@given(cuttable(), st.integers(1, 3), st.data())
def test_every_content_can_be_cut(
    sheet: tuple[tuple[int, int], brute.Sizes], rounds: int, data: st.DataObject
) -> None:
    field, some = sheet
    caps = tuple(data.draw(st.integers(1, 5)) for _ in some)
    worth = [data.draw(st.floats(0, 1)) for _ in some]
    found = Assembler(as_field(*field), as_footprints(some), caps).contents(worth, rounds, 50)
    possible = brute.guillotine(*field, some)
    for value, counts in found:
        assert counts in possible
        assert all(n <= cap for n, cap in zip(counts, caps, strict=True))
        assert abs(value - sum(map(float.__mul__, worth, map(float, counts)))) < 1e-9
    assert [value for value, _ in found] == sorted((value for value, _ in found), reverse=True)


@settings(deadline=None, max_examples=60)
@given(cuttable(), st.data())
def test_one_round_finds_all_pairs(
    sheet: tuple[tuple[int, int], brute.Sizes], data: st.DataObject
) -> None:
    field, some = sheet
    caps = tuple(data.draw(st.integers(1, 3)) for _ in some)
    assembler = Assembler(as_field(*field), as_footprints(some), caps)
    found = {counts for _, counts in assembler.contents([0.5] * len(some), 1, 1000)}
    assert found == {
        counts
        for counts in brute.guillotine(*field, some)
        if sum(counts) == 2 and all(n <= cap for n, cap in zip(counts, caps, strict=True))
    }


def test_many_footprints_of_many_inserts() -> None:
    some = tuple((2, n, False) for n in range(2, 32))
    assembler = Assembler(as_field(4, 31), as_footprints(some), (40,) * 30)
    value, counts = assembler.contents([0.0] * 29 + [1.0], 1, 10)[0]
    assert (value, counts) == (2.0, (0,) * 29 + (2,))
