"""Nets on paper and in cutting files, measured from the files."""

from __future__ import annotations

from io import BytesIO

import pdfplumber
import pytest
from fontTools.misc.transform import Transform
from PIL import Image

from engine.cases import CaseShape, draft, flatten, load_kinds
from engine.lettering import default_font
from engine.model import Stock
from engine.model.errors import InputError, RefusedError
from engine.press import Recorder
from engine.press.netdrawing import AROUND, draw_net, net_file, trial_page
from engine.press.pens.recorder import TextStroke, TickStroke
from tests.press.dielines import FLAT, MM_PER_POINT, READERS
from tests.press.making import A4, LETTER, kinds, net
from tests.press.reach import reach


def test_every_kind_is_measured() -> None:
    assert set(FLAT) == set(kinds())


@pytest.mark.parametrize("suffix", READERS)
@pytest.mark.parametrize("kind", FLAT)
def test_flat_sizes_measured_from_the_file(kind: str, suffix: str) -> None:
    dieline = READERS[suffix](net_file(net(kind), suffix))
    across, up = dieline.sizes()
    assert across == pytest.approx(FLAT[kind][0], abs=0.05)
    assert up == pytest.approx(FLAT[kind][1], abs=0.05)
    assert len(dieline.scores) == len(net(kind).scores)


@pytest.mark.parametrize("suffix", READERS)
def test_every_corner_of_the_dieline_is_in_the_file(suffix: str) -> None:
    """Also round ones and notches: each point of the outline, from its lower left."""
    for kind in ("soft-cassette-clips", "cartridge-label", "snap-shell"):
        (ring,) = READERS[suffix](net_file(net(kind), suffix)).cut
        left, foot = min(x for x, _ in ring), min(y for _, y in ring)
        found = {(round(x - left, 2), round(y - foot, 2)) for x, y in ring}
        for x, y in net(kind).dieline[0]:
            assert any(abs(x - u) < 0.02 and abs(y - v) < 0.02 for u, v in found)


def test_the_dieline_follows_the_stock() -> None:
    copy = flatten(kinds()["keep-case"], 0.10)
    across, _ = READERS[".dxf"](net_file(copy, ".dxf")).sizes()
    # Published for card of 0.25 mm; round a body it is half a caliper less at every score.
    assert across == pytest.approx((129.425, 13.85, 129.425), abs=0.001)


def test_a_picture_is_the_page_in_pixels() -> None:
    picture = Image.open(BytesIO(net_file(net("edge-label"), ".png")))
    assert picture.format == "PNG"
    wanted = [(side + 2 * AROUND) / 25.4 * 150 for side in (8.0, 65.0)]
    assert picture.size == pytest.approx(wanted, abs=1)


def test_an_unknown_format_is_told() -> None:
    with pytest.raises(InputError, match=r"\.ai: is no format for a net\. Use \.svg, \.dxf"):
        net_file(net("edge-label"), ".ai")
    assert net_file(net("edge-label"), ".SVG").startswith(b"<?xml")


@pytest.mark.parametrize("kind", FLAT)
def test_dimensions_say_what_was_drawn_and_stay_on_the_page(kind: str) -> None:
    pen = Recorder()
    flat = net(kind)
    draw_net(pen, flat, default_font())
    texts = [stroke.run.text for stroke in pen.strokes if isinstance(stroke, TextStroke)]
    for side in (*flat.size, *(s for p in flat.panels for s in p.rect[2:])):
        assert f"{side:.1f}" in texts
    assert {panel.name for panel in flat.panels} <= set(texts)
    whole = reach(pen)
    assert whole is not None
    assert min(whole.x, whole.y) > -AROUND
    assert whole.x + whole.width == pytest.approx(flat.size.width, abs=2)


@pytest.mark.parametrize("kind", FLAT)
def test_names_are_set_as_their_panels_read(kind: str) -> None:
    pen = Recorder()
    draw_net(pen, net(kind), default_font())
    for panel in net(kind).panels:
        (text,) = (s for s in pen.strokes if isinstance(s, TextStroke) and s.run.text == panel.name)
        quarter = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[panel.turn]
        assert text.at[:2] == pytest.approx(quarter)
        start = text.at.transformPoint((0, 0))
        end = text.at.transformPoint((text.run.width, 0))
        rect = panel.rect
        for x, y in (start, end):
            assert rect.x < x < rect.x + rect.width
            assert rect.y < y < rect.y + rect.height


@pytest.mark.parametrize("stock", [A4, LETTER], ids=["A4", "Letter"])
@pytest.mark.parametrize("kind", FLAT)
def test_a_trial_page_is_true_to_size(kind: str, stock: Stock) -> None:
    if stock is LETTER and kind.startswith("keep-case"):
        with pytest.raises(RefusedError):  # 273 mm are more than is reached of 279.4 mm
            trial_page(net(kind), stock)
        return
    with pdfplumber.open(BytesIO(trial_page(net(kind), stock))) as document:
        (page,) = document.pages
        size = page.width * MM_PER_POINT, page.height * MM_PER_POINT
        assert size == pytest.approx((stock.width, stock.height), abs=0.01)
        outlines = [o for o in (*page.rects, *page.curves) if o["stroke"]]
        wide = max(o["x1"] for o in outlines) - min(o["x0"] for o in outlines)
        high = max(o["bottom"] for o in outlines) - min(o["top"] for o in outlines)
        found = sorted(side * MM_PER_POINT for side in (wide, high))
        assert found == pytest.approx(sorted(net(kind).size), abs=0.05)


def test_a_trial_page_carries_bars_to_check_the_scale_by() -> None:
    with pdfplumber.open(BytesIO(trial_page(net("snap-shell"), A4))) as document:
        page = document.pages[0]
        lengths = [
            max(line["width"], line["height"]) * MM_PER_POINT
            for line in page.lines
            if min(line["width"], line["height"]) == 0
        ]
        assert sum(1 for mm in lengths if mm == pytest.approx(100, abs=0.05)) >= 2
        assert page.extract_text().count("100 mm") >= 1


def test_a_net_larger_than_the_stock_prints_is_refused() -> None:
    huge = flatten(draft(CaseShape.STRIP, "Pole", {"height": 400, "width": 20}), 0.25)
    with pytest.raises(RefusedError, match="does not fit A4 card"):
        trial_page(huge, A4)


def test_a_drawing_can_be_moved_like_any_other() -> None:
    from engine.press import moved

    straight, shifted = Recorder(), Recorder()
    draw_net(straight, net("edge-label"), default_font())
    draw_net(moved(shifted, Transform(1, 0, 0, 1, 5, 7)), net("edge-label"), default_font())
    ticks = [[s for s in pen.strokes if isinstance(s, TickStroke)] for pen in (straight, shifted)]
    for one, other in zip(*ticks, strict=True):
        assert (one.x1 + 5, one.y1 + 7) == pytest.approx((other.x1, other.y1))


def test_kinds_of_a_collection_are_drawn_alike() -> None:
    mine = draft(CaseShape.SLEEVE, "Mine", {"height": 72, "width": 64, "right": 10, "top": 10})
    across, up = READERS[".svg"](net_file(flatten(mine, 0.25), ".svg")).sizes()
    assert across == pytest.approx((63.375, 9.375), abs=0.05)
    assert up == pytest.approx((71.375, 9.375), abs=0.05)
    assert "mine" not in load_kinds()
