"""Files read back with readers that had no hand in writing them: pypdf and pdfplumber."""

from __future__ import annotations

from io import BytesIO
from unicodedata import normalize

import pdfplumber
import pytest
from fontTools.misc.transform import Transform
from pypdf import PdfReader

from engine.artwork import page_pixels
from engine.lettering import default_font, lay, shape
from engine.model import FontRef, Rect, Size
from engine.model.units import MM_PER_INCH, POINTS_PER_INCH
from engine.press import PdfDocument, box, turned
from engine.press.pens.typeface import Typeface
from tests.lettering.typefaces import STYLE

A4 = Size(210, 297)
MM = MM_PER_INCH / POINTS_PER_INCH


def jpeg(mode: str = "RGB", size: tuple[int, int] = (60, 40)) -> bytes:
    from PIL import Image

    file = BytesIO()
    Image.linear_gradient("L").resize(size).convert(mode).save(file, "JPEG", quality=80)
    return file.getvalue()


# ISO 216:2007 for A4, A5 and A6; ASME Y14.1 for Letter, 8.5 × 11 in; the inch is 25.4 mm
# (international yard and pound agreement, 1959) and 72 pt (ISO 32000-1, 8.3.2.3).
@pytest.mark.parametrize(
    ("size", "pt"),
    [
        (A4, (210 / 25.4 * 72, 297 / 25.4 * 72)),
        (Size(148, 210), (148 / 25.4 * 72, 210 / 25.4 * 72)),
        (Size(105, 148), (105 / 25.4 * 72, 148 / 25.4 * 72)),
        (Size(215.9, 279.4), (612, 792)),
    ],
)
def test_the_page_is_the_stock(size: Size, pt: tuple[float, float]) -> None:
    document = PdfDocument("sizes")
    document.page(size)
    page = PdfReader(BytesIO(document.finish())).pages[0]
    for name in ("mediabox", "cropbox", "bleedbox", "trimbox"):
        side = getattr(page, name)
        assert (side.left, side.bottom) == (0, 0)
        assert (float(side.width), float(side.height)) == pytest.approx(pt, abs=1e-4)
    assert "/UserUnit" not in page
    assert page.rotation == 0


def test_the_trim_lies_in_the_bleed_and_that_in_the_media() -> None:
    # ISO 15930: exactly one of TrimBox and ArtBox, inside the BleedBox, inside the MediaBox.
    document = PdfDocument("boxes")
    document.page(A4, trim=Rect(20, 30, 100, 50), bleed=Rect(19, 29, 102, 52))
    page = PdfReader(BytesIO(document.finish())).pages[0]
    assert "/ArtBox" not in page
    assert [float(n) * MM for n in page.trimbox] == pytest.approx([20, 30, 120, 80], abs=1e-4)
    assert [float(n) * MM for n in page.bleedbox] == pytest.approx([19, 29, 121, 81], abs=1e-4)


def test_the_viewer_is_asked_not_to_scale() -> None:
    # ISO 32000-1, 12.2: PrintScaling None.
    document = PdfDocument("Sheet 3")
    document.page(A4)
    reader = PdfReader(BytesIO(document.finish()))
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert reader.metadata is not None
    assert reader.metadata.title == "Sheet 3"


def drawn() -> bytes:
    document = PdfDocument("all")
    pen = document.page(A4)
    pen.fill([box(Rect(10, 20, 100, 50)), box(Rect(30, 30, 10, 10))], "#204060")
    with pen.clip([box(Rect(50, 50, 30, 20))]):
        pen.image(jpeg(), Transform(60, 0, 0, 40, 40, 40))
    pen.image(jpeg(), turned(90, 200, 100).scale(60, 40))
    pen.image(jpeg("L"), Transform(30, 0, 0, 30, 10, 240))
    pen.text(shape("Tovarby 2", default_font(), 12), Transform(1, 0, 0, 1, 20, 200), "#aa0000")
    pen.text(shape("Tovarby 2", default_font(), 12), turned(270, 20, 190), "#aa0000")
    pen.cut([box(Rect(120, 20, 30, 30))])
    pen.score(120, 35, 150, 35, 90)
    pen.tick(5, 20, 8, 20)
    return document.finish()


def test_the_same_drawing_gives_the_same_bytes() -> None:
    assert drawn() == drawn()


def test_lengths_come_back_as_they_were_given() -> None:
    with pdfplumber.open(BytesIO(drawn())) as pdf:
        page = pdf.pages[0]
        upright, lying, grey = (
            [image[key] * MM for key in ("x0", "y0", "x1", "y1")] for image in page.images
        )
        ticks = [line for line in page.lines if line["stroking_color"] == 0]
        tick = [ticks[-1][key] * MM for key in ("x0", "y0", "x1", "y1")]
        width = ticks[-1]["linewidth"] * MM
    assert upright == pytest.approx([40, 40, 100, 80], abs=1e-3)
    assert lying == pytest.approx([160, 100, 200, 160], abs=1e-3)
    assert grey == pytest.approx([10, 240, 40, 270], abs=1e-3)
    assert tick == pytest.approx([5, 20, 8, 20], abs=1e-3)
    assert width == pytest.approx(0.1, abs=1e-3)


def test_a_hole_stays_open_and_a_clip_holds() -> None:
    picture = page_pixels(drawn(), 0, 127)  # 5 pixels to the mm

    def colour(x: float, y: float) -> tuple[int, int, int]:
        return picture.getpixel((round(x * 5), round((297 - y) * 5)))  # type: ignore[return-value]

    assert colour(15, 25) == (0x20, 0x40, 0x60)
    assert colour(35, 35) == (255, 255, 255)
    assert colour(45, 60) == (0x20, 0x40, 0x60), "the picture is clipped away"
    assert colour(65, 60) != (0x20, 0x40, 0x60), "the picture shows"
    assert colour(90, 75) == (255, 255, 255)


def test_a_jpeg_goes_in_byte_for_byte_and_once() -> None:
    reader = PdfReader(BytesIO(drawn()))
    images = reader.pages[0]["/Resources"]["/XObject"].values()
    kept = [image.get_object() for image in images]
    assert [image["/Filter"] for image in kept] == ["/DCTDecode", "/DCTDecode"]
    assert {image._data for image in kept} == {jpeg(), jpeg("L")}


def test_fonts_are_embedded_as_subsets_and_no_other_is_named() -> None:
    reader = PdfReader(BytesIO(drawn()))
    fonts = [f.get_object() for f in reader.pages[0]["/Resources"]["/Font"].values()]
    assert len(fonts) == 1
    inner = fonts[0]["/DescendantFonts"][0].get_object()
    tag, plus, name = inner["/BaseFont"].lstrip("/").partition("+")
    assert (len(tag), tag.isupper(), plus) == (6, True, "+")
    assert name.startswith("NotoSans")
    assert len(inner["/FontDescriptor"]["/FontFile2"].get_data()) < 10_000


def test_text_comes_back_by_three_readers_upright_and_turned() -> None:
    pdf = drawn()
    import pypdfium2

    with pypdfium2.PdfDocument(pdf) as document:
        text = document[0].get_textpage().get_text_range()
    assert text.split() == ["Tovarby", "2", "Tovarby", "2"]
    assert PdfReader(BytesIO(pdf)).pages[0].extract_text().count("Tovarby 2") == 2
    with pdfplumber.open(BytesIO(pdf)) as opened:
        chars = opened.pages[0].chars
    assert "".join(char["text"] for char in chars) == "Tovarby 2Tovarby 2"


def test_every_glyph_stands_where_it_was_shaped() -> None:
    run = shape("Tovarby 2", default_font(), 12)
    with pdfplumber.open(BytesIO(drawn())) as pdf:
        chars = pdf.pages[0].chars
    along = [char["matrix"][4] * MM - 20 for char in chars[:9]]
    down = [190 - char["matrix"][5] * MM for char in chars[9:]]
    assert along == pytest.approx([glyph.x for glyph in run.glyphs], abs=1e-3)
    assert down == pytest.approx([glyph.x for glyph in run.glyphs], abs=1e-3)
    assert all(char["matrix"][5] * MM == pytest.approx(200, abs=1e-3) for char in chars[:9])
    assert {round(char["size"], 3) for char in chars[:9]} == {12}


def test_a_glyph_above_the_line_keeps_its_height_and_the_rest_stay_down() -> None:
    run = shape("abc", default_font(), 10)
    raised = run.glyphs[1]._replace(y=1.5)
    run = type(run)(run.text, run.font, run.size, (run.glyphs[0], raised, run.glyphs[2]), run.width)
    document = PdfDocument("raised")
    document.page(A4).text(run, Transform(1, 0, 0, 1, 30, 40), "#000000")
    with pdfplumber.open(BytesIO(document.finish())) as pdf:
        places = [(c["matrix"][4] * MM, c["matrix"][5] * MM) for c in pdf.pages[0].chars]
    wanted = [(30 + glyph.x, 40 + glyph.y) for glyph in run.glyphs]
    assert [n for place in places for n in place] == pytest.approx(
        [n for place in wanted for n in place], abs=1e-3
    )


@pytest.fixture
def cff(tmp_path_factory: pytest.TempPathFactory) -> FontRef:
    """A font with CFF outlines: a square for A and nothing for the space."""
    from fontTools.fontBuilder import FontBuilder
    from fontTools.pens.t2CharStringPen import T2CharStringPen

    square, empty = T2CharStringPen(600, None), T2CharStringPen(600, None)
    for point in ((100, 0), (500, 0), (500, 700), (100, 700)):
        (square.lineTo if point[0] + point[1] > 100 else square.moveTo)(point)
    square.closePath()
    glyphs = {".notdef": empty, "space": empty, "A": square}
    builder = FontBuilder(1000, isTTF=False)
    builder.setupGlyphOrder(list(glyphs))
    builder.setupCharacterMap({32: "space", 65: "A"})
    charstrings = {name: pen.getCharString() for name, pen in glyphs.items()}
    builder.setupCFF("Squares", {}, charstrings, {})
    builder.setupHorizontalMetrics(dict.fromkeys(glyphs, (600, 100)))
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupNameTable({"familyName": "Squares", "styleName": "Regular"})
    builder.setupOS2(sCapHeight=700)
    builder.setupPost()
    path = tmp_path_factory.mktemp("fonts") / "squares.otf"
    builder.save(path)
    return FontRef(str(path))


def test_outlines_that_cannot_be_embedded_are_drawn_with_the_text_beneath(cff: FontRef) -> None:
    document = PdfDocument("cff")
    run = shape("A A", cff, 36)
    document.page(A4).text(run, Transform(1, 0, 0, 1, 50, 100), "#00ff00")
    pdf = document.finish()
    with pdfplumber.open(BytesIO(pdf)) as opened:
        page = opened.pages[0]
        assert "".join(char["text"] for char in page.chars) == "A A"
        drawn_at = [[shape_[key] * MM for key in ("x0", "y0", "x1", "y1")] for shape_ in page.rects]
        beneath = [char["matrix"][4] * MM for char in page.chars]
    em = 36 * MM
    assert beneath == pytest.approx([50, 50 + 0.6 * em, 50 + 1.2 * em], abs=1e-3)
    assert drawn_at[0] == pytest.approx(
        [50 + 0.1 * em, 100, 50 + 0.5 * em, 100 + 0.7 * em], abs=1e-3
    )
    picture = page_pixels(pdf, 0, 127)
    inside = (50 + 0.3 * em, 100 + 0.3 * em)
    assert picture.getpixel((round(inside[0] * 5), round((297 - inside[1]) * 5))) == (0, 255, 0)
    fonts = PdfReader(BytesIO(pdf)).pages[0]["/Resources"]["/Font"].values()
    inner = [f.get_object()["/DescendantFonts"][0].get_object() for f in fonts]
    assert all("/FontFile2" in font["/FontDescriptor"] for font in inner)


SCRIPTS = {
    "Latin": "Tovarby office 2",
    "Latin with marks": "Cafe\u0301 e\u0323tude",
    "Devanagari": "चन्द्रमा क्षितिज की किताब",
    "Tamil": "தமிழ் விளையாட்டு",
    "Thai": "สวัสดีชาวโลก",
    "Arabic": "قصة المدينة",
    "Arabic, with a ligature of two letters": "سلام الأبطال",
    "Hebrew": "הדג הזהוב: מסע שני",
    "Hebrew, with a number": "שלום עולם 3",
    "Japanese": "月の港 2",
}


def printed(title: str) -> bytes:
    document = PdfDocument("title")
    pen = document.page(A4)
    for line in lay((title,), 12, Size(150, 12), default_font(), STYLE):
        pen.text(line.run, Transform().translate(20, 200).transform(line.at), "#000000")
    return document.finish()


@pytest.mark.parametrize("title", SCRIPTS.values(), ids=SCRIPTS)
def test_every_reader_gives_back_the_title(title: str) -> None:
    import pypdfium2
    from bidi import get_display

    pdf, wanted = printed(title), normalize("NFC", title)
    with pypdfium2.PdfDocument(pdf) as document:
        assert normalize("NFC", document[0].get_textpage().get_text_range()) == wanted
    # pypdf takes any page to be read from left to right: a number at the end comes first.
    found = normalize("NFC", PdfReader(BytesIO(pdf)).pages[0].extract_text()).split()
    assert sorted(found) == sorted(wanted.split())
    # pdfplumber gives what stands on the page from left to right (UAX #9 by python-bidi).
    with pdfplumber.open(BytesIO(pdf)) as opened:
        signs = "".join(char["text"] for char in opened.pages[0].chars)
    assert normalize("NFC", signs) == normalize("NFC", get_display(title))


@pytest.mark.parametrize("title", ["مُغامَرة", "שָׁלוֹם"])
def test_points_and_vowels_are_found_with_their_letter(title: str) -> None:
    with pdfplumber.open(BytesIO(printed(title))) as opened:
        clusters = [char["text"] for char in opened.pages[0].chars]
    assert "".join(reversed(clusters)) == title


def test_dots_and_marks_are_drawn_at_their_place_all_the_same() -> None:
    # The same glyphs, once as text with their marks as outlines, once all as outlines.
    title = SCRIPTS["Arabic"]
    picture = page_pixels(printed(title), 0, 300)
    wanted = PdfDocument("outlines")
    pen = wanted.page(A4)
    for line in lay((title,), 12, Size(150, 12), default_font(), STYLE):
        at = Transform().translate(20, 200).transform(line.at)
        face = Typeface(line.run.font)
        pen._trace(line.run.glyphs, line.run.size, at, face, "#000000")
    import numpy as np

    a, b = (
        np.asarray(p.convert("L"), dtype=int)
        for p in (picture, page_pixels(wanted.finish(), 0, 300))
    )
    assert (a < 128).sum() > 1200
    assert ((a < 128) != (b < 128)).sum() < 0.05 * (a < 128).sum()
