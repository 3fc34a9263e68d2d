"""Baselines: the same on every edge of a shelf, lines apart from each other."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.lettering import default_font, lay, safe_area, set_lines
from engine.model import Size
from tests.lettering.titles import shelf
from tests.lettering.typefaces import STYLE

FONT = default_font()
FLAP, SPINE = Size(57.0, 6.0), Size(101.5, 12.7)
PLAIN = ["Rook", "gypsy", "LANTERN", "ace", "Quiet Fjord", "Маяк"]


@pytest.mark.parametrize("size", [8.0, 12.6])
def test_titles_of_one_size_stand_on_one_baseline(size):
    heights = {lay((title,), size, FLAP, FONT, STYLE)[0].y for title in PLAIN}
    assert len(heights) == 1


def test_capitals_stand_in_the_middle_where_there_is_room():
    (line,) = lay(("Rook",), 9.0, FLAP, FONT)
    cap = 0.714 * 9 * 25.4 / 72
    assert line.y + cap / 2 == pytest.approx(FLAP.height / 2)


def test_a_line_stands_in_the_middle_of_its_safe_area():
    (line,) = lay(("HH",), 9.0, FLAP, FONT)
    middle = line.x + line.run.width / 2
    assert middle == pytest.approx(FLAP.width / 2, abs=0.02)


@settings(max_examples=80)
@given(st.lists(st.sampled_from(shelf(40, seed=5)), min_size=2, max_size=2))
def test_lines_never_touch(titles):
    from engine.lettering.compositor import compositor

    lines = tuple(titles)
    size = set_lines(lines, SPINE, FONT, STYLE).size
    laid = lay(lines, size, SPINE, FONT, STYLE)
    upper, lower = max(line.y for line in laid), min(line.y for line in laid)
    em = size * 25.4 / 72
    inks = [compositor(FONT, STYLE).ink(line) for line in lines]
    assert upper + inks[0].reach.bottom * em > lower + inks[1].reach.top * em


@settings(max_examples=50)
@given(st.floats(10, 300), st.floats(2, 60))
def test_the_safe_area_scales_with_the_edge(width, height):
    area = safe_area(Size(width, height))
    assert 0.6 <= area.x <= 5.0 + 1e-9
    assert 0.6 <= area.y <= 5.0 + 1e-9
    assert area.x >= area.y - 1e-9
    assert area.x + area.width <= width


def test_a_flap_keeps_three_quarters_of_its_height_for_type():
    assert safe_area(FLAP) == (1.9, 0.75, pytest.approx(53.2), 4.5)
