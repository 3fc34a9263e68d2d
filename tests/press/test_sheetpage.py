"""Pressed sheets, measured by readers that had no hand in writing them."""

from __future__ import annotations

from io import BytesIO
from itertools import combinations
from pathlib import Path

import msgspec
import pdfplumber
import pytest
from PIL import Image
from pypdf import PdfReader

from engine.artwork import page_pixels
from engine.cases import Role
from engine.model import Forme, Placement, Rect, Rule, Sheet, Stock
from engine.model.errors import RefusedError
from engine.press import Insert, sheet_page
from tests.press.making import A4, LETTER, insert, place, sheet

MM = 25.4 / 72  # the inch of 1959; ISO 32000-1, 8.3.2.3
NAMES = {"tovarby": "Tovarby Nights", "ninth": "The Ninth Tide", "kettle": "Bo's Kettle"}


@pytest.fixture(scope="module")
def inserts(picture: Path) -> dict[str, Insert]:
    return {
        "tovarby": insert("snap-shell", NAMES["tovarby"], picture, base="#204060"),
        "ninth": insert("jewel-tray", NAMES["ninth"], picture, base="#f0e020", text="#000000"),
        "kettle": insert("snap-shell", NAMES["kettle"], picture, base="#602040"),
    }


def laid(stock: Stock, inserts: dict[str, Insert]) -> Sheet:
    return sheet(
        stock,
        [
            place("tovarby", inserts["tovarby"], 13.0, 27.0),
            place("ninth", inserts["ninth"], 13.0, 125.0),
            place("kettle", inserts["kettle"], 95.0, 27.0, rotated=True),
        ],
    )


def on_stock(placement: Placement, one: Insert, rect: Rect) -> list[float]:
    """Where a rectangle of the net lies on the stock: worked out here for a second time."""
    x, y, width, height = rect
    if placement.rotated:  # by 90 degrees counter-clockwise: up becomes left
        left = placement.x + one.net.size.height - y - height
        return [left, placement.y + x, left + height, placement.y + x + width]
    return [placement.x + x, placement.y + y, placement.x + x + width, placement.y + y + height]


def measured(things: list[dict[str, float]]) -> list[list[float]]:
    return [[thing[key] * MM for key in ("x0", "y0", "x1", "y1")] for thing in things]


def has(found: list[list[float]], wanted: list[float], within: float = 0.1) -> bool:
    return any(max(abs(a - b) for a, b in zip(f, wanted, strict=True)) <= within for f in found)


# ISO 216:2007: A4 is 210 × 297 mm. ASME Y14.1: Letter is 8.5 × 11 in, 215.9 × 279.4 mm.
@pytest.mark.parametrize(("stock", "mm"), [(A4, (210.0, 297.0)), (LETTER, (8.5 * 25.4, 11 * 25.4))])
def test_the_page_is_the_paper(
    stock: Stock, mm: tuple[float, float], inserts: dict[str, Insert]
) -> None:
    reader = PdfReader(BytesIO(sheet_page(laid(stock, inserts), inserts, NAMES)))
    assert len(reader.pages) == 1
    page = reader.pages[0]
    for name in ("mediabox", "cropbox", "bleedbox", "trimbox"):
        side = getattr(page, name)
        assert (float(side.width) * MM, float(side.height) * MM) == pytest.approx(mm, abs=1e-4)
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"


@pytest.fixture(scope="module", params=["a4", "letter"])
def pressed(request: pytest.FixtureRequest, inserts: dict[str, Insert]) -> tuple[Sheet, bytes]:
    made = laid(A4 if request.param == "a4" else LETTER, inserts)
    return made, sheet_page(made, inserts, NAMES)


@pytest.fixture(scope="module")
def pixels(pressed: tuple[Sheet, bytes]) -> Image.Image:
    """The page at 20 pixels to the mm."""
    return page_pixels(pressed[1], 0, 508)


def test_every_panel_lies_where_it_was_laid(
    pressed: tuple[Sheet, bytes], inserts: dict[str, Insert]
) -> None:
    made, pdf = pressed
    with pdfplumber.open(BytesIO(pdf)) as opened:
        fills = measured(opened.pages[0].rects)
        images = measured(opened.pages[0].images)
    for placement in made.placements:
        one = inserts[placement.game]
        for panel in one.net.panels:
            if panel.role is Role.EDGE:
                assert has(fills, on_stock(placement, one, panel.rect)), panel.name
        art = next(panel for panel in one.net.panels if panel.role is Role.ART)
        cut = one.net.cut_sides(art.name)
        x, y, width, height = art.rect
        left, bottom = ("left" in cut) * 1.0, ("bottom" in cut) * 1.0
        right, top = ("right" in cut) * 1.0, ("top" in cut) * 1.0
        bled = Rect(x - left, y - bottom, width + left + right, height + bottom + top)
        assert has(images, on_stock(placement, one, bled)), "art with its bleed over cuts"


def test_a_tray_card_is_as_the_trade_has_it(
    pressed: tuple[Sheet, bytes], pixels: Image.Image
) -> None:
    # CD jewel case tray card: 151 × 118 mm = 6.5 + 138 + 6.5 (common practice; the split from
    # memory). Measured from the colours of the rasterised page.
    made, _ = pressed
    placement = made.placements[1]
    y = round((made.forme.stock.height - placement.y - placement.height / 2) * 20)
    yellow = [pixels.getpixel((x, y)) == (0xF0, 0xE0, 0x20) for x in range(pixels.width)]
    edges = [x / 20 for x in range(1, len(yellow)) if yellow[x] != yellow[x - 1]]
    outer = [edges[0], edges[-1]]
    assert outer == pytest.approx([placement.x - 1, placement.x + 152], abs=0.1), "with 1 mm bleed"
    # Each edge's colour runs 0.5 mm past its fold.
    found = [min(edges, key=lambda e: abs(e - placement.x - at)) for at in (7.0, 144.0)]
    assert [at - placement.x for at in found] == pytest.approx([7.0, 144.0], abs=0.1)


def test_colour_runs_past_every_cut_and_no_farther(
    pressed: tuple[Sheet, bytes], pixels: Image.Image
) -> None:
    made, _ = pressed
    height = made.forme.stock.height

    def white(x: float, y: float) -> bool:
        return pixels.getpixel((round(x * 20), round((height - y) * 20))) == (255, 255, 255)

    for placement in made.placements:
        x, y, w, h = placement.x, placement.y, placement.width, placement.height
        beside = {
            "left": (x, y + h * 0.4, -1, 0), "bottom": (x + w * 0.4, y, 0, -1),
        }  # fmt: skip
        for side, (px, py, dx, dy) in beside.items():
            assert not white(px + dx * 0.85, py + dy * 0.85), f"{placement.game} {side} bleeds"
            assert white(px + dx * 1.15, py + dy * 1.15), f"{placement.game} {side} stops"


def test_ticks_and_bars_stand_where_they_should(
    pressed: tuple[Sheet, bytes], inserts: dict[str, Insert]
) -> None:
    made, pdf = pressed
    with pdfplumber.open(BytesIO(pdf)) as opened:
        black = [line for line in opened.pages[0].lines if line["stroking_color"] == 0]
        lines = measured(black)
        widths = {round(line["linewidth"] * MM, 3) for line in black}
    assert widths == {0.1}
    area = made.forme.printable
    assert has(lines, [area.x + 0.5, area.y + 0.5, area.x + 100.5, area.y + 0.5])
    foot = area.y + made.forme.foot
    assert has(lines, [area.x + 2.5, foot, area.x + 2.5, foot + 100])
    for placement in made.placements:
        one = inserts[placement.game]
        for x in (0.0, one.net.size.width):
            corner = on_stock(placement, one, Rect(x, 0, 0, 0))[:2]
            begins = [
                line for line in lines
                if min(abs(a - b) for a in line[::2] for b in [corner[0]]) <= 0.6
                and min(abs(a - b) for a in line[1::2] for b in [corner[1]]) <= 0.6
            ]  # fmt: skip
            level = [line for line in begins if abs(line[1] - corner[1]) <= 0.05]
            upright = [line for line in begins if abs(line[0] - corner[0]) <= 0.05]
            assert level
            assert upright
        for score in one.net.scores:
            start = on_stock(placement, one, Rect(score.x1, score.y1, 0, 0))[:2]
            end = on_stock(placement, one, Rect(score.x2, score.y2, 0, 0))[:2]
            axis = 0 if abs(start[0] - end[0]) < 1e-6 else 1
            low, high = sorted((start[1 - axis], end[1 - axis]))
            marks = [
                line for line in lines
                if max(abs(line[axis] - start[axis]), abs(line[axis + 2] - start[axis])) <= 0.05
                and (-4 <= line[3 - axis] - low <= -0.4 or 0.4 <= line[1 - axis] - high <= 4)
            ]  # fmt: skip
            assert marks, f"{placement.game}: a score without a mark"


def test_nothing_is_drawn_outside_what_the_printer_reaches(pressed: tuple[Sheet, bytes]) -> None:
    made, pdf = pressed
    with pdfplumber.open(BytesIO(pdf)) as opened:
        page = opened.pages[0]
        boxes = measured([*page.chars, *page.lines])
        names = "".join(char["text"] for char in page.chars)
    area = made.forme.printable
    for x0, _, x1, y1 in boxes:
        assert x0 >= area.x - 0.01
        assert x1 <= area.x + area.width + 0.01
        assert y1 <= area.y + area.height + 0.01
    picture = page_pixels(pdf, 0, 127)
    inked = picture.convert("L").point(lambda level: 255 * (level < 250)).getbbox()
    assert inked is not None
    left, top, right, bottom = (edge / 5 for edge in inked)
    assert left >= area.x - 0.3
    assert made.forme.stock.height - bottom >= area.y - 0.3
    assert right <= area.x + area.width + 0.3
    assert made.forme.stock.height - top <= area.y + area.height + 0.3
    assert "Sheet 7" in names


def test_no_two_inserts_overlap_with_their_bleed(pressed: tuple[Sheet, bytes]) -> None:
    _, pdf = pressed
    with pdfplumber.open(BytesIO(pdf)) as opened:
        images = measured(opened.pages[0].images)
    for a, b in combinations(images, 2):
        assert (
            a[2] <= b[0] + 1e-6 or b[2] <= a[0] + 1e-6 or a[3] <= b[1] + 1e-6 or b[3] <= a[1] + 1e-6
        )


def test_images_are_jpeg_and_no_finer_than_is_printed(pressed: tuple[Sheet, bytes]) -> None:
    # 300 pixels to the inch at the printed size is the habit (common practice).
    _, pdf = pressed
    with pdfplumber.open(BytesIO(pdf)) as opened:
        images = opened.pages[0].images
        assert len(images) == 3
        for image in images:
            assert image["stream"].attrs["Filter"].name == "DCTDecode"
            pixels = sorted(image["srcsize"])
            inches = sorted((image["width"] / 72, image["height"] / 72))
            for count, length in zip(pixels, inches, strict=True):
                assert count <= 300 * length + 1, "to the whole pixel"


def test_fonts_are_embedded_subsets_and_titles_can_be_searched(
    pressed: tuple[Sheet, bytes],
) -> None:
    _, pdf = pressed
    reader = PdfReader(BytesIO(pdf))
    page = reader.pages[0]
    for font in page["/Resources"]["/Font"].values():
        inner = font.get_object()["/DescendantFonts"][0].get_object()
        assert "/FontFile2" in inner["/FontDescriptor"]
        assert inner["/BaseFont"][7] == "+"
        assert "/ToUnicode" in font.get_object()
    text = " ".join(page.extract_text().split())
    for number, title in enumerate(NAMES.values(), start=1):
        assert f"{number} {title}" in text
        assert text.count(title) >= 2, "in the foot and on its edges"


def test_a_second_run_gives_the_same_bytes(
    pressed: tuple[Sheet, bytes], inserts: dict[str, Insert]
) -> None:
    made, pdf = pressed
    assert sheet_page(made, inserts, NAMES) == pdf


def test_bleed_never_reaches_a_neighbour_across_a_narrow_gutter(inserts: dict[str, Insert]) -> None:
    from msgspec.structs import replace

    one = inserts["tovarby"]
    width = one.net.size.width
    made = sheet(A4, [place("tovarby", one, 13, 27), place("tovarby", one, 13 + width + 0.5, 27)])
    made = replace(made, forme=replace(made.forme, gutter=0.5))
    picture = page_pixels(sheet_page(made, inserts, NAMES), 0, 508)
    y = (297 - 27 - 30) * 20
    base = (0x20, 0x40, 0x60)
    row = [picture.getpixel((round(x * 20), y)) for x in (13 + width - 0.1, 13 + width + 0.6)]
    assert row[0] == base, "the edge of the left one is whole"
    assert row[1] != base, "the art of the right one is whole"


def test_a_name_the_font_lacks_gives_way_to_the_game_s_id(inserts: dict[str, Insert]) -> None:
    made = laid(A4, inserts)
    pdf = sheet_page(made, inserts, {**NAMES, "ninth": "第九の潮"})
    text = PdfReader(BytesIO(pdf)).pages[0].extract_text()
    assert "2 ninth" in text


def test_what_changed_since_it_was_laid_out_is_refused(
    inserts: dict[str, Insert], picture: Path
) -> None:
    made = laid(A4, inserts)
    recoloured = insert("snap-shell", NAMES["tovarby"], picture, base="#000000")
    with pytest.raises(RefusedError, match="sheet 7, insert 1: its design was changed"):
        sheet_page(made, {**inserts, "tovarby": recoloured}, NAMES)
    from msgspec.structs import replace

    tight = replace(made.placements[1], width=150.0)
    made = replace(made, placements=(made.placements[0], tight, made.placements[2]))
    with pytest.raises(RefusedError, match=r"insert 2: it is 151\.0 × 118\.0 mm now"):
        sheet_page(made, inserts, NAMES)


def test_a_sheet_gives_the_same_bytes_each_time(inserts: dict[str, Insert]) -> None:
    made = laid(A4, inserts)
    assert sheet_page(made, inserts, NAMES) == sheet_page(made, inserts, NAMES)


# --- one strip alone ---------------------------------------------------------------------


@pytest.fixture(scope="module", params=[0, 1], ids=["foot", "side"])
def narrow(request: pytest.FixtureRequest) -> tuple[Sheet, bytes]:
    """Four plain inserts to the corners of what one strip leaves of A4."""
    one = insert("snap-shell", NAMES["kettle"], None, base="#602040")
    forme = msgspec.structs.replace(Forme(A4).with_one_bar[request.param], rule=Rule.KNIFE)
    x, y, width, height = forme.field
    right, top = x + width - one.net.size.width, y + height - one.net.size.height
    spots = [place("kettle", one, *at) for at in ((x, y), (right, y), (x, top), (right, top))]
    made = msgspec.structs.replace(sheet(A4, spots), forme=forme)
    return made, sheet_page(made, {"kettle": one}, NAMES)


def test_one_strip_holds_a_bar_of_100_mm_and_says_how_far_ticks_lie_apart(
    narrow: tuple[Sheet, bytes],
) -> None:
    """A4 less margins, one strip of 8 mm and 1 mm of bleed at each side: 196 × 269 or 188 × 277."""
    made, pdf = narrow
    at_foot = made.forme.side == 0
    said = 269.0 if at_foot else 188.0
    with pdfplumber.open(BytesIO(pdf)) as opened:
        page = opened.pages[0]
        lines = measured([one for one in page.lines if one["stroking_color"] == 0])
        words = " ".join(one["text"] for one in page.extract_words(use_text_flow=True))
        chars = measured(page.chars)
    area = made.forme.printable
    bar = [area.x + 0.5, area.y + 0.5, area.x + 100.5, area.y + 0.5]
    if not at_foot:
        bar = [area.x + 2.5, area.y + 0.5, area.x + 2.5, area.y + 100.5]
    assert has(lines, bar, within=0.02)
    axis = 1 if at_foot else 0
    edge = area.x if at_foot else area.y
    ticks = [
        line[axis] for line in lines
        if abs(line[axis] - line[axis + 2]) < 0.01 and abs(line[1 - axis] - edge) < 0.01
        and line[3 - axis] - line[1 - axis] < 0.6
    ]  # fmt: skip
    assert max(ticks) - min(ticks) == pytest.approx(said, abs=0.1)
    if at_foot:
        assert f"{said:.1f} mm" in words
    descent = 0.3  # a character's box reaches below its line, whether it does or not
    for x0, y0, x1, y1 in [*chars, *lines]:
        assert min(x0 - area.x, y0 - area.y) >= -descent, "the printer's margins"
        assert max(x1 - area.x - area.width, y1 - area.y - area.height) <= 0.01
    strip = [c for c in chars if (c[3] <= area.y + 8 if at_foot else c[2] <= area.x + 8)]
    assert len(strip) > 60
    for one in made.placements:
        inside = [
            c for c in strip
            if c[2] > one.x - 1 and c[0] < one.x + one.width + 1
            and c[3] > one.y - 1 and c[1] < one.y + one.height + 1
        ]  # fmt: skip
        assert not inside, "its lettering keeps off the bleed"
