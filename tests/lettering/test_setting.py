"""A title on an edge: as large as it can be, inside the safe area, balanced."""

from unittest import mock

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.lettering import (
    AbridgingStep,
    AbridgingWay,
    TypeStyle,
    default_font,
    is_sure,
    judge,
    lay,
    propose_title,
    safe_area,
    set_lines,
)
from engine.lettering.breaking import breaks
from engine.lettering.compositor import compositor
from engine.lettering.faces import open_face
from engine.model import Size
from tests.lettering.titles import shelf
from tests.lettering.typefaces import STYLE

FONT = default_font()
FLAP, SPINE = Size(57.0, 6.0), Size(101.5, 12.7)
EDGES = st.builds(Size, st.floats(25, 190), st.floats(4, 20))
TITLES = st.sampled_from(shelf(60, seed=3))


def ink(lines):
    """Return left, bottom, right and top of all glyphs of a layout, in mm, by their outlines."""
    from fontTools.pens.boundsPen import BoundsPen

    sides = []
    for line in lines:
        face = open_face(line.run.font)
        scale = line.run.size * 25.4 / 72 / face.upem
        for glyph in line.run.glyphs:
            pen = BoundsPen(None)
            face.hb_font.draw_glyph_with_pen(glyph.gid, pen)
            if pen.bounds:
                left, bottom, right, top = (side * scale for side in pen.bounds)
                at = line.at.transformPoint
                corners = (left, bottom), (right, top)
                sides += [at((glyph.x + x, glyph.y + y)) for x, y in corners]
    xs, ys = [x for x, _ in sides], [y for _, y in sides]
    return min(xs), min(ys), max(xs), max(ys)


@settings(max_examples=150)
@given(TITLES, EDGES)
def test_a_proposal_lies_inside_the_safe_area(title, edge):
    setting = propose_title(title, edge, FONT, STYLE)
    left, bottom, right, top = ink(lay(setting.lines, setting.size, edge, FONT, STYLE))
    area = safe_area(edge)
    slack = 0.01
    assert left >= area.x - slack
    assert right <= area.x + area.width + slack
    assert bottom >= area.y - slack
    assert top <= area.y + area.height + slack


@settings(max_examples=100)
@given(TITLES, EDGES)
def test_a_proposal_is_as_large_as_it_can_be(title, edge):
    setting = propose_title(title, edge, FONT, STYLE)
    if setting.size == STYLE.largest:
        return
    larger = judge(setting.lines, round(setting.size + 0.1, 1), edge, FONT, STYLE)
    assert "stands out of the safe area" in larger.notes
    one = set_lines((" ".join(title.split()),), edge, FONT, STYLE)
    assert setting.size >= one.size
    if len(setting.lines) == 2:
        assert setting.size > one.size


@settings(max_examples=60)
@given(TITLES, EDGES)
def test_two_lines_are_balanced(title, edge):
    setting = propose_title(title, edge, FONT, STYLE)
    text = " ".join(title.split())
    if len(setting.lines) != 2:
        return
    assert "".join(setting.lines).replace(" ", "") == text.replace(" ", "")
    spaced = [at for at in breaks(text) if text[at - 1] == " " and text[at] not in "-–—"]
    width = compositor(FONT, STYLE).ink
    longer = max(width(line).width for line in setting.lines)
    for at in spaced:
        other = max(width(part.strip()).width for part in (text[:at], text[at:]))
        assert longer <= other + 0.05  # a break is chosen by advances, ink differs a little


def test_a_long_title_on_a_flap_of_six_millimetres():
    title = "The Lantern Keeper of Old Harbour: Second Voyage and the Long Way Home"
    setting = propose_title(title, FLAP, FONT)
    assert setting.lines == (
        "The Lantern Keeper of Old Harbour:",
        "Second Voyage and the Long Way Home",
    )
    assert setting.fits


def test_a_short_title_on_a_flap_reads_from_arms_length():
    # ISO 9241-303: a capital of at least 16 minutes of arc; 2.327 mm at 500 mm.
    setting = propose_title("Lantern Keeper", FLAP, FONT)
    assert setting.cap_height > 2.327
    assert setting.reads_at > 500


def test_sizes_stay_between_the_smallest_and_the_largest():
    style = msgspec.structs.replace(STYLE, smallest=6.0, largest=11.0)
    assert propose_title("Rook", SPINE, FONT, style).size == 11.0
    tiny = propose_title("Rook " * 40, Size(30.0, 4.0), FONT, style)
    assert tiny.size < 6.0
    assert not tiny.fits
    assert "smaller than 6 pt" in tiny.notes[0]
    assert not is_sure(tiny)


def test_a_missing_character_is_told_and_never_sure():
    style = TypeStyle(fallbacks=())
    setting = propose_title("Rook ☃", SPINE, FONT, style)
    assert not setting.fits
    assert setting.notes == ("no font has ☃ (U+2603 snowman)",)
    (line,) = lay(setting.lines, setting.size, SPINE, FONT, style)
    assert len(line.run.glyphs) == len("Rook ")  # a gap, never the font's box
    assert all(glyph.gid for glyph in line.run.glyphs)


def test_an_accent_above_a_capital_stays_inside():
    plain, accented = (propose_title(t, FLAP, FONT) for t in ("A", "Ấ"))
    assert accented.size < plain.size
    assert accented.fits


def test_ideographs_fill_the_edge_with_their_body():
    setting = propose_title("灯台守", FLAP, FONT, STYLE)
    _, bottom, _, top = ink(lay(setting.lines, setting.size, FLAP, FONT, STYLE))
    assert setting.size == 12.7  # 4.5 mm for a body of one em, down to a tenth of a point
    assert (bottom + top) / 2 == pytest.approx(FLAP.height / 2, abs=0.1)


def test_a_truncation_is_never_sure():
    setting = propose_title("Rook", SPINE, FONT)
    assert is_sure(setting)
    cut = msgspec.structs.replace(
        setting, steps=(AbridgingStep(AbridgingWay.TRUNCATION, "Rookery", "Rook…"),)
    )
    assert not is_sure(cut)


def test_white_space_of_a_list_does_not_matter():
    assert propose_title("  Rook\t Tower\n", FLAP, FONT) == propose_title("Rook Tower", FLAP, FONT)
    assert propose_title("灯台\u3000守", FLAP, FONT, STYLE).lines == ("灯台\u3000守",)


@pytest.mark.parametrize("title", ["", " ", "\u200d"])
def test_an_empty_title_is_set_as_nothing(title):
    setting = propose_title(title, FLAP, FONT, STYLE)
    assert sum(len(line.run.glyphs) for line in lay(setting.lines, setting.size, FLAP, FONT)) <= 1


def test_own_lines_are_set_as_given_less_the_empty_ones():
    setting = set_lines(("Lantern", " ", "Keeper of", "the Harbour"), SPINE, FONT)
    assert setting.lines == ("Lantern", "Keeper of", "the Harbour")
    assert setting.fits
    assert set_lines((), SPINE, FONT).lines == ("",)
    assert judge((), 9.0, SPINE, FONT).fits


# --- Condensing -------------------------------------------------------------------------

LONG = "Winter Harbour Lantern Keepers 25"
NARROW = TypeStyle(narrowest=0.85)


def test_type_is_condensed_only_to_read_from_the_shelf_and_no_further():
    usual, narrow = propose_title(LONG, FLAP, FONT), propose_title(LONG, FLAP, FONT, NARROW)
    assert usual.reads_at < 500 <= narrow.reads_at
    assert 0.85 <= narrow.width < 1.0
    wider = set_lines(narrow.lines, FLAP, FONT)
    assert wider.reads_at < 500
    assert propose_title("Rook", FLAP, FONT, NARROW).width == 1.0


def test_a_title_too_long_is_condensed_to_fit_at_all():
    edge, style = Size(48.0, 6.0), TypeStyle(narrowest=0.8, smallest=6.0)
    long = "The Lantern Keeper of Old Harbour: Second Voyage of the Rook and the Long Way Home"
    assert propose_title(long, edge, FONT).size < 6.0
    setting = propose_title(long, edge, FONT, style)
    assert setting.fits
    assert setting.width < 1.0


def test_type_is_not_condensed_where_that_does_not_help():
    title = "Winter Harbour Lantern Keepers and the Signal"
    assert propose_title(title, FLAP, FONT, NARROW).width == 1.0


def test_condensed_lines_are_laid_as_they_were_judged():
    setting = propose_title(LONG, FLAP, FONT, NARROW)
    lines = lay(setting.lines, setting.size, FLAP, FONT, NARROW, width=setting.width)
    left, _, right, _ = ink(lines)
    area = safe_area(FLAP)
    assert area.x - 0.01 <= left
    assert right <= area.x + area.width + 0.01
    assert dict(lines[0].run.font.axes)["wdth"] == pytest.approx(100 * setting.width)
    judged = judge(setting.lines, setting.size, FLAP, FONT, NARROW, width=setting.width)
    assert judged == setting


def test_a_font_without_a_width_axis_is_squeezed(tmp_path):
    from engine.lettering import choose_font
    from tests.lettering.making_fonts import make_font

    boxes = choose_font(make_font(tmp_path / "boxes.ttf"))
    style = TypeStyle(narrowest=0.85, fallbacks=())
    count = next(n for n in range(10, 60) if propose_title("A" * n, FLAP, boxes).reads_at < 500)
    setting = propose_title("A" * count, FLAP, boxes, style)
    (line,) = lay(setting.lines, setting.size, FLAP, boxes, style, width=setting.width)
    assert line.squeeze == setting.width < 1.0
    left, _, right, _ = ink([line])
    assert right - left <= safe_area(FLAP).width + 0.01


def test_no_type_is_condensed_further_than_the_limit():
    style = TypeStyle(narrowest=0.1, smallest=8.0)
    widths = {propose_title("Lantern " * n, FLAP, FONT, style).width for n in range(1, 8)}
    assert 0.7 <= min(widths) < 1.0


# --- Speed that is asked for ------------------------------------------------------------


def test_a_title_is_shaped_once_for_all_its_edges():
    face = open_face(FONT)
    with mock.patch.object(face, "shaped", wraps=face.shaped) as shaped:
        for width in range(60, 80):
            propose_title("Never Before Set Title", Size(width, 6.0), FONT)
    assert shaped.call_count == 1


def test_the_distance_of_the_shelf_is_the_persons():
    near = TypeStyle(narrowest=0.85, distance=300.0)
    assert propose_title(LONG, FLAP, FONT, near).width == 1.0
