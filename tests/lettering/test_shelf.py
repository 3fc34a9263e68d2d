"""A whole shelf: even or free, everything that differs listed, nothing confused."""

import re

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.lettering import (
    AbridgingWay,
    Mode,
    Setting,
    Shelf,
    TypeStyle,
    default_font,
    is_sure,
    lay,
)
from engine.model import Size
from tests.lettering.titles import shelf
from tests.lettering.typefaces import STYLE

FONT = default_font()
FLAP, SPINE = Size(57.0, 6.0), Size(101.5, 12.7)
IDEOGRAPHS = re.compile("[\u3000-\u9fff]+")


def settings_of(found: Shelf) -> dict[str, Setting]:
    return {key: found.setting(key) for key in found.titles}


SHELF = {str(number): title for number, title in enumerate(shelf(300))}


@pytest.mark.parametrize("edge", [FLAP, SPINE], ids=["flap", "spine"])
def test_an_even_shelf_has_one_capital_height_but_for_those_listed(edge):
    even = Shelf(SHELF, edge, FONT, STYLE, Mode.EVEN)
    rest = [setting for key, setting in settings_of(even).items() if key not in even.apart]
    assert {setting.size for setting in rest} == {even.size}
    em = even.size * 25.4 / 72
    ideographs = {setting.cap_height for setting in rest if IDEOGRAPHS.fullmatch(setting.lines[0])}
    capitals = {setting.cap_height for setting in rest if setting.lines[0].isascii()}
    assert list(ideographs) == [pytest.approx(em)]
    assert list(capitals) == [pytest.approx(0.714 * em)]  # OS/2 sCapHeight of the font
    assert all(setting.fits and not setting.steps for setting in rest)
    assert len(rest) >= 0.9 * len(SHELF)


@pytest.mark.parametrize("edge", [FLAP, SPINE], ids=["flap", "spine"])
def test_the_even_size_is_the_largest_that_suits_nine_in_ten(edge):
    free = Shelf(SHELF, edge, FONT, STYLE, Mode.FREE)
    even = Shelf(SHELF, edge, FONT, STYLE, Mode.EVEN)
    sizes = [setting.size for setting in settings_of(free).values() if not setting.steps]
    assert sum(size >= even.size for size in sizes) >= 0.9 * len(SHELF)
    assert sum(size > even.size for size in sizes) < 0.9 * len(SHELF)


def test_an_even_shelf_stands_on_one_baseline():
    titles = {title: title for title in ("Rook", "Moss", "gypsy", "Lantern Keeper", "Quiet Fjord")}
    even = Shelf(titles, FLAP, FONT, STYLE, Mode.EVEN)
    laid = {lay(one.lines, one.size, FLAP, FONT, STYLE)[0].y for one in settings_of(even).values()}
    assert len(laid) == 1


def test_every_exemption_says_why():
    even = Shelf(SHELF, FLAP, FONT, STYLE, Mode.EVEN)
    assert even.apart
    for key, why in even.apart.items():
        setting = even.setting(key)
        if not setting.fits:
            assert why == ", ".join(setting.notes)
        elif setting.steps:
            assert why.startswith(f"{setting.steps[0].way}: ")
        else:
            assert why == f"set smaller, at {setting.size:g} pt"
            assert setting.size < even.size


SMALL = Size(34.0, 4.0)


@pytest.mark.parametrize("mode", Mode)
def test_a_title_too_long_for_its_edge_is_abridged_as_little_as_can_be(mode):
    long = "The Lantern Keeper of the Old Harbour and the Island of Moss: Second Voyage of the Rook"
    found = Shelf({"a": long, "b": "Rook"}, Size(66.0, 4.0), FONT, STYLE, mode)
    assert found.setting("a").fits
    assert found.setting("a").steps[0].way is AbridgingWay.SUBTITLE
    assert found.setting("b").steps == ()
    assert "subtitle: " in found.apart["a"]
    assert is_sure(found.setting("a"))


def test_two_games_of_a_series_never_end_up_alike():
    series = "The Lantern Keeper of the Old Harbour and the Island of Moss"
    titles = {
        "one": f"{series}: First Voyage of the Rook and the Lamp",
        "two": f"{series}: Second Voyage of the Rook and the Lamp",
    }
    found = Shelf(titles, SMALL, FONT, STYLE)
    shown = {" ".join(setting.lines) for setting in settings_of(found).values() if setting.fits}
    assert series not in shown
    fitting = [setting for setting in settings_of(found).values() if setting.fits]
    assert len(shown) == len(fitting)


def test_a_title_is_never_abridged_to_another_games_full_title():
    titles = {
        "full": "Lantern Keeper",
        "long": "Lantern Keeper: " + "The Very Long Voyage to the Far Islands of the Moss " * 2,
    }
    found = Shelf(titles, SMALL, FONT, STYLE)
    assert " ".join(found.setting("long").lines) != "Lantern Keeper"
    assert found.setting("full").lines == ("Lantern Keeper",)


WORDS = st.sampled_from(
    ["The", "Lantern", "Two", ":", "and", "Volume", "Harbour", "Rook", "-", "2"]
)


@settings(max_examples=60)
@given(st.lists(st.lists(WORDS, min_size=1, max_size=16).map(" ".join), unique=True, max_size=8))
def test_no_two_abridged_titles_are_alike(titles):
    titles = [title for title in titles if title.strip(" :-")]
    keyed = {str(number): title for number, title in enumerate(titles)}
    found = Shelf(keyed, SMALL, FONT, msgspec.structs.replace(STYLE, smallest=6.0))
    shown = {key: " ".join(setting.lines).casefold() for key, setting in settings_of(found).items()}
    for key, setting in settings_of(found).items():
        if setting.steps:
            others = [text for other, text in shown.items() if other != key]
            assert shown[key] not in others
            assert shown[key] not in [title.casefold() for title in titles]


def test_a_person_s_own_short_forms_are_used():
    style = TypeStyle(smallest=9.0, dictionary=(("Lantern Keeper", "LK"),), fallbacks=())
    title = "Lantern Keeper Harbour Moss Rook Tower"
    found = Shelf({"a": title}, Size(56.0, 5.0), FONT, style)
    assert found.setting("a").lines == ("LK Harbour Moss Rook Tower",)
    assert found.setting("a").steps[0].way is AbridgingWay.DICTIONARY


def test_an_empty_shelf_is_no_trouble():
    empty = Shelf({}, FLAP, FONT, STYLE, Mode.EVEN)
    assert (empty.size, empty.apart) == (STYLE.smallest, {})


def test_a_free_shelf_condenses_what_is_abridged_rather_than_set_it_too_small():
    style = msgspec.structs.replace(STYLE, smallest=6.0, lines=1, narrowest=0.7)
    free = Shelf(SHELF, FLAP, FONT, style, Mode.FREE)
    abridged = [setting for setting in settings_of(free).values() if setting.steps]
    assert len(abridged) > 20
    assert all(setting.fits and setting.size >= 6.0 for setting in abridged)


def test_a_shelf_that_was_not_asked_keeps_its_size_from_the_one_after_it():
    old = Shelf({"a": "Rook"}, FLAP, FONT, STYLE, Mode.EVEN)
    words = "The Long Way Home by the Harbour Wall"
    new, _ = old.after({"b": words, "c": words + " II"}, Shelf({}, FLAP, FONT, STYLE)._names, ())
    assert new.setting("a").size < old.setting("a").size
    assert old.setting("a").size == old.size
