"""What is still needed: the arithmetic, and the worked example of the page."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.model.house import House, Pack
from engine.shelf.supplies import (
    INKS,
    PAGE,
    Inked,
    Need,
    Sort,
    Spoilage,
    bought,
    evenly,
    ink_needed,
    sheets_needed,
)

NONE = Spoilage(settled=0, spoiled=0)


def test_a_page_is_five_percent_of_a4() -> None:
    """ISO 216:2007: A4 is 210 x 297 mm. ISO/IEC 24712: about 5 % a colour (from memory)."""
    assert pytest.approx(3118.5) == PAGE


def test_a_solid_a4_of_black_is_twenty_pages() -> None:
    solid = {"cyan": 0.0, "magenta": 0.0, "yellow": 0.0, "black": 210.0 * 297.0}
    pages, sample = ink_needed([Inked(3, [solid])], NONE)
    assert pages == pytest.approx({"cyan": 0, "magenta": 0, "yellow": 0, "black": 60})
    assert (sample.measured, sample.inserts, sample.error) == (1, 3, 0)


def test_the_error_of_a_sample_by_hand() -> None:
    """Cochran 1977, 5.2: N = 10, n = 2, s2 = 2: variance 10 x 8 x 2 / 2 = 80, in all 20."""
    measured = [dict.fromkeys(INKS, 0.25), dict.fromkeys(INKS, 0.75)]
    _, sample = ink_needed([Inked(10, measured)], NONE)
    assert sample.error == pytest.approx(2 * 80**0.5 / 20)


@pytest.mark.parametrize(
    ("settled", "spoiled", "sheets"),
    [(0, 0, 26), (11, 1, 29), (10, 5, 52), (4, 0, 26), (2, 2, 104)],
)
def test_sheets_with_spoilage(settled: int, spoiled: int, sheets: int) -> None:
    assert sheets_needed(26, Spoilage(settled=settled, spoiled=spoiled)) == sheets


def need(sort: Sort, needed: float) -> Need:
    return Need("it", sort, "it", needed)


def test_what_is_in_the_house_is_not_bought() -> None:
    house = House(have={"it": 20}, packs={"it": Pack(10, 4.5)})
    found = bought(need(Sort.CASE, 98), house)
    assert (found.missing, found.packs, found.price) == (78, 8, 36.0)
    assert bought(need(Sort.CASE, 12), house).packs == 0


def test_ink_in_the_house_counts_by_the_yield_of_its_cartridge() -> None:
    half = House(have={"it": 0.5}, packs={"it": Pack(400, 14.5)})
    found = bought(need(Sort.INK, 250), half)
    assert (found.have, found.missing, found.packs, found.price) == (200, 50, 1, 14.5)
    unknown = bought(need(Sort.INK, 250), House(have={"it": 0.5}))
    assert (unknown.have, unknown.packs, unknown.price) == (0, None, None)


@settings(max_examples=60)
@given(st.floats(0, 1e5), st.floats(0, 1e5), st.floats(0.1, 500))
def test_packs_are_the_fewest_that_do(needed: float, have: float, holds: float) -> None:
    house = House(have={"it": have}, packs={"it": Pack(holds)})
    packs = bought(need(Sort.PAPER, needed), house).packs
    assert packs is not None
    assert have + packs * holds >= needed - 1e-3
    assert packs == 0 or have + (packs - 1) * holds < needed


@settings(max_examples=60)
@given(st.integers(0, 60), st.integers(1, 20))
def test_a_sample_is_even_and_each_once(things: int, most: int) -> None:
    names = [str(n) for n in range(things)]
    found = evenly(names, most)
    assert len(found) == len(set(found)) == min(things, most)
    assert found == [name for name in names if name in set(found)]
