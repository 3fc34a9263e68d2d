"""Ink coverage against pages of known coverage, and what the modes save."""

from __future__ import annotations

from io import BytesIO

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from reportlab.pdfgen.canvas import Canvas

from engine.artwork import (
    ArtRequest,
    Bleed,
    Coverage,
    art_in,
    base_in,
    coverage,
    laid,
    sum_of,
    text_in,
)
from engine.colours import contrast, difference, ink_on, luminance
from engine.model import Art, Fit, InkMode, Size
from tests.artwork.photos import photo

A4 = (210 * 72 / 25.4, 297 * 72 / 25.4)
"""ISO 216, in points."""

NEAR = 0.5
"""Points of percentage."""


def rasterised(canvas: Canvas, file: BytesIO) -> Image.Image:
    import pypdfium2

    canvas.showPage()
    canvas.save()
    with pypdfium2.PdfDocument(file.getvalue()) as document:
        return document[0].render(scale=150 / 72).to_pil().convert("RGB")


@pytest.mark.parametrize("percent", [5, 12])
def test_a_page_of_known_coverage_of_each_colour(percent):
    """ISO/IEC 24711 and 24712 measure yields on pages of about 5 % of each of C, M, Y and K."""
    file = BytesIO()
    canvas = Canvas(file, pagesize=A4)
    for row, colour in enumerate(((0, 1, 1), (1, 0, 1), (1, 1, 0), (0, 0, 0))):
        canvas.setFillColorRGB(*colour)
        # A hundred small squares, so that their edges count as those of letters would.
        side = (percent / 100 * A4[0] * A4[1] / 100) ** 0.5
        for place in range(100):
            x = 20 + place % 20 * (A4[0] - 40) / 20
            y = 20 + row * (A4[1] - 40) / 4 + place // 20 * (A4[1] - 40) / 20
            canvas.rect(x, y, side, side, stroke=0, fill=1)
    found = coverage(rasterised(canvas, file))
    for colour in found:
        assert colour == pytest.approx(percent, abs=NEAR)


@pytest.mark.parametrize(
    ("colour", "ink"),
    [
        ("#ffffff", (0, 0, 0, 0)),
        ("#000000", (0, 0, 0, 100)),
        ("#00ffff", (100, 0, 0, 0)),
        ("#ff00ff", (0, 100, 0, 0)),
        ("#ffff00", (0, 0, 100, 0)),
        ("#ff0000", (0, 100, 100, 0)),
        ("#808080", (0, 0, 0, 49.8)),
        ("#804020", (0, 25.1, 37.6, 49.8)),
    ],
)
def test_solid_patches_are_what_iso_32000_says(colour, ink):
    """ISO 32000-1, 10.3.5, with black generation and undercolour removal of all that is common."""
    assert coverage(Image.new("RGB", (40, 40), colour)) == pytest.approx(ink, abs=0.1)


def test_half_a_patch_is_half_the_ink():
    image = Image.new("RGB", (40, 40), "white")
    image.paste("#00ffff", (0, 0, 20, 40))
    assert coverage(image).cyan == pytest.approx(50)


def test_inserts_add_up_on_a_sheet():
    """An insert of a tenth of the sheet, all black, takes a tenth of what the sheet could."""
    black = coverage(Image.new("RGB", (9, 9), "black")).on(0.1)
    cyan = coverage(Image.new("RGB", (9, 9), "#00ffff")).on(0.2)
    assert sum_of([black, cyan]) == pytest.approx((20, 0, 0, 10))
    assert sum_of([]) == Coverage(0, 0, 0, 0)


def test_each_mode_saves_what_it_says():
    art = photo("coffee")
    full = coverage(art)
    grey = coverage(art_in(art, InkMode.GREY))
    draft = coverage(art_in(art, InkMode.DRAFT))
    assert grey.cyan == grey.magenta == grey.yellow == 0
    assert draft.total == pytest.approx(full.total / 2, rel=0.02)
    assert draft.saving(full) == pytest.approx(0.5, abs=0.02)
    for mode in (InkMode.EDGES, InkMode.LETTERS):
        assert coverage(art_in(art, mode)).total == 0
    assert coverage(art_in(art, InkMode.FULL)) == full
    assert Coverage(0, 0, 0, 0).saving(Coverage(0, 0, 0, 0)) == 0


hex_colours = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")


@given(hex_colours, st.sampled_from(InkMode))
def test_titles_stay_legible_in_every_mode(base, mode):
    text = text_in(base, ink_on(base), mode)
    assert contrast(text, base_in(base, mode)) >= 4.5


@given(hex_colours)
def test_grey_keeps_the_luminance(base):
    assert luminance(base_in(base, InkMode.GREY)) == pytest.approx(luminance(base), abs=0.005)


def test_grey_of_a_picture_and_of_a_colour_agree():
    image = art_in(Image.new("RGB", (4, 4), "#b05a3c"), InkMode.GREY)
    grey = "#{:02x}{:02x}{:02x}".format(*image.getpixel((1, 1)))
    assert difference(grey, base_in("#b05a3c", InkMode.GREY)) < 0.5


def test_letters_are_black_on_white():
    assert base_in("#204080", InkMode.LETTERS) == "#ffffff"
    assert text_in("#204080", "#ffffff", InkMode.LETTERS) == "#000000"
    assert text_in("#204080", "#ffffff", InkMode.EDGES) == "#ffffff"


def test_art_is_rendered_in_its_mode(tmp_path):
    path = tmp_path / "a.png"
    photo("coffee").save(path)
    art = Art("a.png", Fit.FILL)
    data = laid(
        ArtRequest(str(path), art, Size(50, 60), Bleed(), "#204080", mode=InkMode.GREY)
    ).data
    found = coverage(Image.open(BytesIO(data)))
    assert found.cyan + found.magenta + found.yellow < 0.5
    assert found.black > 20
