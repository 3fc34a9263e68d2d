"""The back of a sheet, measured by pdfplumber: turned over, it lies on the front."""

from __future__ import annotations

from io import BytesIO

import msgspec
import pdfplumber
import pytest
from pypdf import PdfReader

from engine.model import Sheet, Size
from engine.model.calibration import Calibration, Shift
from engine.press import Insert, PdfDocument, sheet_page
from engine.press.correcting import printed, printer_page
from engine.press.pens.base import turned
from tests.press.making import A4, LETTER, insert, place, sheet

MM = 25.4 / 72  # ISO 32000-1, 8.3.2.3
TRUE = 0.05
NAMES = {"kite": "Kite", "tide": "Tide"}

Line = tuple[float, float, float, float]


@pytest.fixture(scope="module")
def inserts() -> dict[str, Insert]:
    return {"kite": insert("snap-shell", "", None), "tide": insert("jewel-tray", "", None)}


def laid(inserts: dict[str, Insert], stock=A4, **more) -> Sheet:
    placed = [
        place("kite", inserts["kite"], 20.0, 150.0, rotated=True),
        place("tide", inserts["tide"], 14.0, 24.0),
    ]
    return msgspec.structs.replace(sheet(stock, placed), **more)


def lines_of(page: pdfplumber.page.Page) -> list[Line]:
    """All straight lines of a page in mm, those that are sides of outlines too."""
    found = [[line["pts"][0], line["pts"][-1]] for line in page.lines]
    for outline in (*page.rects, *page.curves):
        if outline["stroke"]:
            points = outline["pts"]
            found += [list(pair) for pair in zip(points, [*points[1:], points[0]], strict=True)]
    return [
        (a * MM, (float(page.height) - b) * MM, c * MM, (float(page.height) - d) * MM)
        for (a, b), (c, d) in found
    ]


def straight(lines: list[Line]) -> set[tuple[str, float]]:
    """Which upright and level lines there are, and where."""
    upright = {("upright", round(x1, 3)) for x1, _, x2, _ in lines if abs(x1 - x2) < 0.01}
    return upright | {("level", round(y1, 3)) for _, y1, _, y2 in lines if abs(y1 - y2) < 0.01}


@pytest.mark.parametrize("edge", ["long", "short"])
@pytest.mark.parametrize("stock", [A4, LETTER])
def test_the_back_turned_over_lies_on_the_front(inserts, edge: str, stock) -> None:
    made = laid(inserts, stock, reverse=edge)
    pdf = sheet_page(made, inserts, NAMES)
    with pdfplumber.open(BytesIO(pdf)) as opened:
        front, back = opened.pages
        ticks = [line for line in front.lines if line["stroking_color"] == 0]
        on_front = [tuple(t[k] * MM for k in ("x0", "y0", "x1", "y1")) for t in ticks]
        width, height = float(front.width) * MM, float(front.height) * MM
        assert (width, height) == (float(back.width) * MM, float(back.height) * MM)
        behind = lines_of(back)
    # Portrait paper turned over its long edge keeps its head up; over the short one it does not.
    over = [
        (width - a, b, width - c, d) if edge == "long" else (a, height - b, c, height - d)
        for a, b, c, d in behind
    ]
    there = straight(over)
    checked = 0
    for x1, y1, x2, y2 in on_front:
        inside = made.forme.field.y - 4 < min(y1, y2) and made.forme.field.x - 2.5 < min(x1, x2)
        upright, level = abs(x1 - x2) < 0.01, abs(y1 - y2) < 0.01
        if not inside or upright is level:
            continue  # bars, and the slanted tick of an inner corner
        way, at = ("upright", x1) if upright else ("level", y1)
        assert min(abs(at - place) for kind, place in there if kind == way) < TRUE, (way, at)
        checked += 1
    assert checked >= 2 * 8 + 2 * 3, "the ticks of eight corners, and those of four scores"
    # The other way round: every line of the back has its tick.
    for placement in made.placements:
        flat = inserts[placement.game].net
        for score in flat.scores:
            if placement.rotated:
                y = placement.y + score.x1 if score.x1 == score.x2 else None
                x = placement.x + flat.size.height - score.y1 if score.y1 == score.y2 else None
            else:
                x = placement.x + score.x1 if score.x1 == score.x2 else None
                y = placement.y + score.y1 if score.y1 == score.y2 else None
            kind, at = ("upright", x) if x is not None else ("level", y)
            assert min(abs(at - place) for way, place in there if way == kind) < TRUE


def test_a_mountain_of_the_front_is_a_valley_on_the_back(inserts) -> None:
    pdf = sheet_page(laid(inserts, reverse="long"), inserts, NAMES)
    with pdfplumber.open(BytesIO(pdf)) as opened:
        dashes = [line["dash"] for line in opened.pages[1].lines if line["dash"][0]]
    assert len(dashes) == 4
    assert all(len(dash[0]) == 2 for dash in dashes), "strokes alone: dashes"


def test_the_file_asks_for_both_sides_and_names_the_back(inserts) -> None:
    for edge, flip in (("long", "/DuplexFlipLongEdge"), ("short", "/DuplexFlipShortEdge")):
        reader = PdfReader(BytesIO(sheet_page(laid(inserts, reverse=edge), inserts, NAMES)))
        assert reader.page_labels == ["Sheet 7", "Sheet 7, back"]
        assert reader.trailer["/Root"]["/ViewerPreferences"]["/Duplex"] == flip  # 32000-1, 12.2
        text = reader.pages[1].extract_text()
        assert f"turned over the {edge} edge" in text


def test_a_back_is_moved_onto_the_front_where_the_printer_shifts_it() -> None:
    cal = Calibration(
        "", "a4", 0.997, 1.002, 0.2, -0.1, Shift(0.4, -0.3),
        sheet(A4, []).pressed_at, back=Shift(-0.8, 0.6),
    )  # fmt: skip
    lands, half = printed(cal, back=True), turned(180, 210, 297)
    for tumble in (False, True):
        document = PdfDocument("Back")
        pen = printer_page(document, Size(210, 297), cal, back=True, tumble=tumble)
        pen.tick(60.0, 90.0, 70.0, 90.0)
        with pdfplumber.open(BytesIO(document.finish())) as opened:
            tick = opened.pages[0].lines[0]["pts"][0]
        at = (tick[0] * MM, 297 - tick[1] * MM)
        # A printer that tumbles turns the page by half a circle, and errs as it always does.
        on_paper = lands.transformPoint(half.transformPoint(at) if tumble else at)
        wanted = half.transformPoint((60.0, 90.0)) if tumble else (60.0, 90.0)
        assert on_paper == pytest.approx(wanted, abs=0.001)


def test_a_sheet_without_a_back_is_one_page(inserts) -> None:
    assert len(PdfReader(BytesIO(sheet_page(laid(inserts), inserts, NAMES))).pages) == 1
