"""Three hundred titles as they come off the page: nothing runs over, nothing gets lost."""

import re
from functools import cache

import pytest

from engine.lettering import Setting, default_font, lay, propose_title, safe_area
from engine.model import Size
from tests.lettering.sheet import PPI, ProofPages
from tests.lettering.titles import shelf
from tests.lettering.typefaces import STYLE

FLAP, SPINE = Size(57.0, 6.0), Size(101.5, 12.7)
TITLES = shelf(300)
RIGHT_TO_LEFT = re.compile("[\u0590-\u08ff]")
SIMPLE = re.compile("[ -\u052f\u1e00-\u1eff\u3000-\u9fff]+")
"""Scripts whose glyphs stand for one character each, in the order they are read."""
PIXEL = 25.4 / PPI


@cache
def pressed(edge: Size) -> tuple[list[Setting], ProofPages]:
    font = default_font()
    settings = [propose_title(title, edge, font, STYLE) for title in TITLES]
    laid = [lay(one.lines, one.size, edge, font, STYLE) for one in settings]
    return settings, ProofPages(edge, laid)


@pytest.mark.parametrize("edge", [FLAP, SPINE], ids=["flap", "spine"])
def test_no_ink_leaves_the_safe_area(edge):
    _, pages = pressed(edge)
    area = safe_area(edge)
    for index, title in enumerate(TITLES):
        reach = pages.reach(index)
        assert reach is not None, title
        assert reach.x >= area.x - PIXEL, title
        assert reach.y >= area.y - PIXEL, title
        assert reach.x + reach.width <= area.x + area.width + PIXEL, title
        assert reach.y + reach.height <= area.y + area.height + PIXEL, title


@pytest.mark.parametrize("edge", [FLAP, SPINE], ids=["flap", "spine"])
def test_there_is_white_between_two_lines(edge):
    settings, pages = pressed(edge)
    two = [index for index, setting in enumerate(settings) if len(setting.lines) == 2]
    assert len(two) > 20
    for index in two:
        setting = settings[index]
        lines = lay(setting.lines, setting.size, edge, default_font(), STYLE)
        upper, lower = max(line.y for line in lines), min(line.y for line in lines)
        between = pages.ink(index)[pages.row(index, upper) : pages.row(index, lower)]
        assert not between.any(axis=1).all(), setting.lines


@pytest.mark.parametrize("edge", [FLAP, SPINE], ids=["flap", "spine"])
def test_the_page_states_the_text_that_was_set(edge):
    settings, pages = pressed(edge)
    for index, setting in enumerate(settings):
        wanted = "".join(setting.lines)
        found = pages.stated(index)
        if RIGHT_TO_LEFT.search(wanted):  # several runs stand in the order they are seen
            found, wanted = "".join(sorted(found)), "".join(sorted(wanted))
        assert found == wanted


@pytest.mark.parametrize("edge", [FLAP, SPINE], ids=["flap", "spine"])
def test_a_reader_extracts_the_text_that_was_set(edge):
    settings, pages = pressed(edge)
    read = [index for index, title in enumerate(TITLES) if SIMPLE.fullmatch(title)]
    assert len(read) > 150
    for index in read:
        assert pages.text(index) == "\n".join(settings[index].lines)


def test_every_title_fits_or_says_why_not():
    for edge in (FLAP, SPINE):
        for setting in pressed(edge)[0]:
            assert setting.fits == (not setting.notes)
            assert setting.fits or "pt it is smaller than" in setting.notes[0]
