"""Glyphs and places against HarfBuzz used plainly on the font file itself."""

from itertools import pairwise

import pytest
import uharfbuzz as hb
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.lettering import PlacedRun, default_font, lay, shape
from engine.lettering.compositor import compositor
from engine.lettering.shaping import exact_reach
from engine.model import FontRef, Size
from tests.lettering.typefaces import ARABIC, HEBREW, STYLE, TAMIL, THAI

EDGE = Size(101.5, 12.7)
EM = 10 * 25.4 / 72


def plain(text: str, font: FontRef, direction: str = "ltr"):
    """Shape one stretch of text with nothing between it and HarfBuzz."""
    face = hb.Face(hb.Blob.from_file_path(font.path), font.face)
    sized = hb.Font(face)
    sized.set_variations(dict(font.axes))
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    buffer.direction = direction
    hb.shape(sized, buffer)
    x, placed = 0, []
    for info, place in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        at = (x + place.x_offset) / face.upem * EM, place.y_offset / face.upem * EM
        placed.append((info.codepoint, *at, info.cluster))
        x += place.x_advance
    return placed, x / face.upem * EM


@pytest.mark.parametrize(
    ("text", "font", "direction"),
    [
        ("AVATAR To Wave", default_font(), "ltr"),  # kerning
        ("Maître d’Ö Đảo", default_font(), "ltr"),
        ("E\u0301clair a\u0308o\u0323\u0302", default_font(), "ltr"),  # combining marks
        ("द्वीप क्षितिज", default_font(), "ltr"),  # conjuncts, reordered vowels
        ("כתובת הנמל", HEBREW, "rtl"),
        ("كتاب البحر", ARABIC, "rtl"),  # joined forms
        ("ครู้ที่นี่", THAI, "ltr"),  # stacked marks
        ("தீவு கொடி", TAMIL, "ltr"),  # split vowels
    ],
)
def test_a_run_is_what_harfbuzz_makes_of_it(text, font, direction):
    wanted, width = plain(text, font, direction)
    run = shape(text, font, 10.0)
    assert [(glyph.gid, glyph.cluster) for glyph in run.glyphs] == [
        (gid, cluster) for gid, _, _, cluster in wanted
    ]
    # Pinning an axis rounds each advance and mark to a unit of the font, of 1000 to the em.
    unit = EM / 1000 * len(wanted)
    for glyph, (_, x, y, _) in zip(run.glyphs, wanted, strict=True):
        assert (glyph.x, glyph.y) == (pytest.approx(x, abs=unit), pytest.approx(y, abs=unit))
    assert run.width == pytest.approx(width, abs=unit)


def test_kerning_draws_letters_together():
    apart = sum(shape(char, default_font(), 10.0).width for char in "AV")
    assert shape("AV", default_font(), 10.0).width < apart - 0.1


def test_arabic_letters_join():
    alone = {shape(char, ARABIC, 10.0).glyphs[0].gid for char in "كتاب"}
    joined = {glyph.gid for glyph in shape("كتاب", ARABIC, 10.0).glyphs}
    assert not joined <= alone


@given(st.sampled_from(["Rook", "שלום 12", "كتاب", "द्वीप"]), st.floats(1, 60))
def test_shaping_is_linear_in_the_size(text, size):
    small, large = shape(text, default_font(), 1.0), shape(text, default_font(), size)
    assert large.width == pytest.approx(small.width * size)
    for one, other in zip(small.glyphs, large.glyphs, strict=True):
        assert (other.gid, other.x) == (one.gid, pytest.approx(one.x * size))


def test_nothing_is_a_run_of_nothing():
    assert shape("", default_font(), 10.0).glyphs == ()
    assert lay(("",), 10.0, EDGE, default_font()) == ()


def test_a_line_of_two_directions_in_one_font_is_one_run():
    (line,) = lay(("Rook אור 12",), 10.0, EDGE, HEBREW, STYLE)
    assert line.run.text == "Rook אור 12"
    xs = {glyph.cluster: glyph.x for glyph in line.run.glyphs}
    # By UAX #9 from left to right: Rook, 12, then the Hebrew from its end to its beginning.
    assert xs[0] < xs[9] < xs[10] < xs[7] < xs[6] < xs[5]


def test_a_line_of_two_fonts_is_parted_and_nothing_overlaps():
    lines = lay(("Rook 灯台 Two",), 10.0, EDGE, default_font(), STYLE)
    assert [line.run.text for line in lines] == ["Rook ", "灯台 ", "Two"]
    for one, other in pairwise(lines):
        assert other.x == pytest.approx(one.x + one.run.width)
        assert other.y == one.y


def test_a_line_knows_its_place_as_a_transform():
    run = shape("A", default_font(), 10.0)
    assert PlacedRun(run, 3.0, 4.0).at.transformPoint((2.0, 1.0)) == (5.0, 5.0)
    turned = PlacedRun(run, 3.0, 4.0, 90).at.transformPoint((2.0, 1.0))
    assert turned == (pytest.approx(2.0), pytest.approx(6.0))
    assert PlacedRun(run, 3.0, 4.0, 0, 0.5).at.transformPoint((2.0, 1.0)) == (4.0, 5.0)


@settings(max_examples=60)
@given(st.text("abdgjpqyAVTWÉÅQ fi.-'", min_size=1, max_size=20).filter(str.strip))
def test_quick_measures_cover_the_exact_ones(text):
    ink = compositor(default_font(), STYLE).ink(text)
    (piece,) = ink.pieces
    exact = exact_reach(piece.buffer, piece.face)
    assert ink.reach.bottom <= exact.bottom + 1e-9
    assert ink.reach.top >= exact.top - 1e-9
    if not text.startswith(" ") and not text.endswith(" "):
        assert ink.reach.left <= exact.left + 0.02 or exact.left == 0.0
        assert ink.reach.right >= exact.right - 0.02
