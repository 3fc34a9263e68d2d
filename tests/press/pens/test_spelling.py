"""What glyphs say to readers of the page."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.lettering import default_font, shape
from engine.model import FontRef, Glyph, TextRun
from engine.press.pens.spelling import Letter, Spelt, spell, spelling

FONT = FontRef("none")
WIDTHS = {1: 900, 2: 500, 3: 0, 4: 200}.__getitem__


@given(st.text(st.characters(codec="latin-1", categories=["L", "N", "P", "Zs"]), max_size=40))
def test_glyphs_spell_the_text_they_were_shaped_from(text: str) -> None:
    assert "".join(spelling(shape(text, default_font(), 10))) == text


def test_a_ligature_stands_for_all_its_letters_and_a_mark_for_itself() -> None:
    # Three glyphs: a ligature of two letters, then a letter and its accent in one cluster.
    glyphs = (Glyph(1, 0, 0, 0), Glyph(2, 5, 0, 2), Glyph(3, 6, 1, 2))
    run = TextRun("fie\u0323", FONT, 10, glyphs, 9)
    assert spelling(run) == ("fi", "e", "\u0323")
    assert spell(run, WIDTHS).whole


def test_a_cluster_of_more_glyphs_than_letters_is_stated_as_a_whole() -> None:
    glyphs = (Glyph(1, 0, 0, 0), Glyph(2, 5, 0, 0), Glyph(3, 6, 0, 1))
    run = TextRun("ab", FONT, 10, glyphs, 9)
    assert spelling(run) == ("a", "", "b")
    assert not spell(run, WIDTHS).whole


@pytest.mark.parametrize("gids", [(2, 3), (3, 2), (4, 2)])
def test_a_hebrew_letter_says_its_point_too(gids: tuple[int, int]) -> None:
    glyphs = tuple(Glyph(gid, 0, 0, 0) for gid in gids)
    letter, point = sorted(glyphs, key=lambda glyph: glyph.gid != 2)
    spelt = spell(TextRun("\u05e9\u05c1", FONT, 10, glyphs, 5), WIDTHS)
    assert spelt == Spelt((Letter(letter, "\u05e9\u05c1"),), (point,))


def test_letters_read_leftwards_stay_in_the_order_they_stand() -> None:
    glyphs = (Glyph(2, 0, 0, 1), Glyph(1, 5, 0, 0))
    spelt = spell(TextRun("\u05d0\u05d1", FONT, 10, glyphs, 14), WIDTHS)
    assert [letter.text for letter in spelt.letters] == ["\u05d1", "\u05d0"]
    assert spelt.whole
