"""What helps a title that does not read from the shelf."""

from engine.lettering import TypeStyle, default_font, remedies
from engine.model import FontRef, Size
from tests.lettering.typefaces import STYLE

FONT = default_font()
FLAP = Size(57.0, 6.0)
LONG = "The Lantern Keeper of Old Harbour: Second Voyage"


def test_a_title_that_reads_needs_no_help():
    assert remedies("Rook", FLAP, FONT, STYLE) == ()


def test_each_remedy_helps_and_the_best_comes_first():
    found = remedies(LONG, FLAP, FONT, STYLE, {"soft cassette case": Size(101.5, 12.7)})
    words = [one.words for one in found]
    assert words[0] == "Use the case kind soft cassette case"
    assert "Abridge it to Lantern Keeper of Old Harbour" in words
    distances = [one.setting.reads_at for one in found]
    assert distances == sorted(distances, reverse=True)
    assert found[0].reaches(500.0)


def test_two_lines_help_where_only_one_was_allowed():
    style = TypeStyle(lines=1, fallbacks=())
    found = remedies(LONG + " and the Long Way Home", FLAP, FONT, style)
    assert "Set it in two lines" in [one.words for one in found]


def test_a_lighter_font_is_told_to_be_bolder():
    light = FontRef(FONT.path, 0, (("wdth", 100.0), ("wght", 300.0)))
    assert [one.words for one in remedies(LONG, FLAP, light, STYLE)][-1] == "Use a bolder weight"
    assert "Use a bolder weight" not in [one.words for one in remedies(LONG, FLAP, FONT, STYLE)]
