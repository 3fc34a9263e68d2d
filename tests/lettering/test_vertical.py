"""Lines set top down: what stands, what lies, and where it all goes."""

import pytest

from engine.cases import Spine
from engine.lettering import TypeStyle, default_font, judge, lay, propose_title, safe_area
from engine.lettering.faces import open_face
from engine.lettering.vertical import stands
from engine.model import Size
from tests.lettering.sheet import ProofPages
from tests.lettering.typefaces import CHAIN, JAPANESE

SPINE = Size(101.5, 12.7)
TITLE = "灯台守ーSecond「物語」。"
DOWN = TypeStyle(upright=True, fallbacks=CHAIN)
UP = TypeStyle(upright=True, fallbacks=CHAIN, spine=Spine.ASCENDING)


# VerticalOrientation.txt, Unicode Character Database 15.0: U and Tu stand; R lies; Tr lies
# unless the font turns it into a form of its own, which the Japanese font does.
@pytest.mark.parametrize(
    ("chars", "upright"),
    [
        ("灯㐀々あアㄅ가Ａ２①Ⅷ©×", True),  # U
        ("、。ぁゃッ！？㌔", True),  # Tu
        ("A5אกλЖ-–“‘", False),  # R
        ("ー「（【〜", True),  # Tr
    ],
)
def test_orientation(chars, upright):
    face = open_face(JAPANESE)
    assert {char: stands(char, face) for char in chars} == dict.fromkeys(chars, upright)


def test_what_has_no_vertical_form_lies():
    assert not stands("：", open_face(JAPANESE))  # Tr
    assert not stands("（", open_face(default_font()))


def test_latin_lies_in_the_column_and_ideographs_stand():
    lines = lay((TITLE,), 16.0, SPINE, default_font(), DOWN)
    assert [(line.run.text, line.turn) for line in lines] == [
        ("灯台守ー", 90),
        ("Second", 0),
        ("「物語」。", 90),
    ]
    assert [line.x for line in lines] == sorted(line.x for line in lines)


def test_punctuation_takes_the_vertical_forms_of_the_font():
    face = open_face(JAPANESE)
    run = lay(("「灯」。",), 16.0, SPINE, JAPANESE, DOWN)[0].run
    forms = {run.text[glyph.cluster]: glyph.gid for glyph in run.glyphs}
    assert forms["灯"] == face.glyph("灯")
    assert all(forms[mark] != face.glyph(mark) for mark in "「」。")


def test_characters_follow_each_other_an_em_apart():
    run = lay(("灯台守",), 18.0, SPINE, JAPANESE, DOWN)[0].run
    em = 18.0 * 25.4 / 72
    places = [glyph.y for glyph in run.glyphs]
    assert places[0] - places[1] == pytest.approx(em, abs=0.01)
    assert run.width == pytest.approx(3 * em, abs=0.01)


def test_an_ascending_spine_holds_the_same_column_turned_about():
    down = lay((TITLE,), 16.0, SPINE, default_font(), DOWN)
    up = lay((TITLE,), 16.0, SPINE, default_font(), UP)
    for one, other in zip(down, up, strict=True):
        assert other.turn == one.turn + 180
        assert one.x + other.x == pytest.approx(SPINE.width)
        assert one.y + other.y == pytest.approx(SPINE.height)


@pytest.mark.parametrize("style", [DOWN, UP], ids=["descending", "ascending"])
def test_columns_stay_in_the_safe_area(style):
    titles = (
        TITLE,
        "灯",
        "灯台守の物語、第二章、とても長い題名の続き（第三版）とその後の物語の終わり",
    )
    settings = [propose_title(title, SPINE, default_font(), style) for title in titles]
    assert [len(one.lines) for one in settings] == [1, 1, 2]
    assert all(one.upright and one.fits for one in settings)
    pages = ProofPages(
        SPINE, [lay(one.lines, one.size, SPINE, default_font(), style) for one in settings]
    )
    area = safe_area(SPINE)
    for index in range(len(titles)):
        reach = pages.reach(index)
        assert reach.x >= area.x - 0.1
        assert reach.x + reach.width <= area.x + area.width + 0.1
        assert reach.y >= area.y - 0.1
        assert reach.y + reach.height <= area.y + area.height + 0.1


def test_a_latin_title_is_set_as_ever():
    plain = judge(("Lantern Keeper",), 12.0, SPINE, default_font(), DOWN)
    assert not plain.upright
    assert lay(("Rook",), 12.0, SPINE, default_font(), DOWN) == lay(
        ("Rook",), 12.0, SPINE, default_font()
    )
