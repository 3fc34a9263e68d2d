from __future__ import annotations

from datetime import UTC, datetime

import msgspec
import pytest

from engine.lettering import default_font
from engine.model import Forme, Margins, Rect, Sheet, Stock
from engine.press import Recorder, box
from engine.press.marks import Numbered, draw_bars, draw_foot, draw_numbers, tick_area
from engine.press.pens.recorder import TextStroke, TickStroke
from engine.press.ticks import Tick
from tests.press.making import A4, LETTER, sheet
from tests.press.reach import reach

FONT = default_font()
FORME = Forme(A4)
PHOTO = Stock("photo", "Photo paper", 101.6, 152.4, margins=Margins(4, 4, 4, 8))


def words(pen: Recorder) -> list[str]:
    return [stroke.run.text for stroke in pen.strokes if isinstance(stroke, TextStroke)]


def inside(inner: Rect, outer: Rect) -> bool:
    return (
        inner.x >= outer.x - 1e-6
        and inner.y >= outer.y - 1e-6
        and inner.x + inner.width <= outer.x + outer.width + 1e-6
        and inner.y + inner.height <= outer.y + outer.height + 1e-6
    )


@pytest.mark.parametrize("stock", [A4, LETTER])
def test_both_bars_are_100_mm_with_a_stroke_at_each_ten(stock: Stock) -> None:
    pen = Recorder()
    draw_bars(pen, Forme(stock), FONT)
    ticks = [stroke for stroke in pen.strokes if isinstance(stroke, TickStroke)]
    level = next(t for t in ticks if t.x2 - t.x1 == pytest.approx(100))
    upright = next(t for t in ticks if t.y2 - t.y1 == pytest.approx(100))
    across_level = {round(t.x1 - level.x1, 6) for t in ticks if t.x1 == t.x2 and t.y1 == level.y1}
    across_upright = {
        round(t.y1 - upright.y1, 6)
        for t in ticks
        if t.y1 == pytest.approx(t.y2) and t.x1 == upright.x1
    }
    assert across_level >= set(range(0, 101, 10))
    assert across_upright >= set(range(0, 101, 10))
    assert words(pen) == ["100 mm", "100 mm"]


@pytest.mark.parametrize("stock", [A4, LETTER, PHOTO])
def test_bars_and_lettering_keep_to_their_strips(stock: Stock) -> None:
    forme = Forme(stock)
    foot, bars = Recorder(), Recorder()
    draw_foot(foot, sheet(stock, []), ["A title of some length"] * 12, FONT)
    draw_bars(bars, forme, FONT)
    area = forme.printable
    strip = reach(foot)
    assert strip is not None
    assert inside(strip, Rect(area.x, area.y, area.width, forme.foot - 1.0))
    both = reach(bars)
    assert both is not None
    assert inside(both, area)
    assert both.y + both.height > area.y + forme.foot
    ticks = [stroke for stroke in bars.strokes if isinstance(stroke, TickStroke)]
    assert all(
        max(tick.x1, tick.x2) <= area.x + forme.side or max(tick.y1, tick.y2) <= area.y + forme.foot
        for tick in ticks
    )


def test_a_bar_is_shorter_where_the_paper_is_and_says_so() -> None:
    pen = Recorder()
    draw_bars(pen, Forme(PHOTO), FONT)
    assert words(pen) == ["80 mm", "100 mm"]
    tiny = Recorder()
    draw_bars(tiny, Forme(Stock("card", "Card", 60, 90)), FONT)
    assert words(tiny) == ["30 mm", "50 mm"]


def test_the_foot_names_the_sheet_and_numbers_the_inserts_from_one() -> None:
    pen = Recorder()
    shown = draw_foot(pen, sheet(A4, [], number=31), ["Tovarby", "Ninth Tide"], FONT)
    said = words(pen)
    assert shown == 2
    assert "Sheet 31" in said
    assert said[-2:] == ["1 Tovarby", "2 Ninth Tide"]
    assert any("100 %" in line for line in said), "how to print it true to size"


def test_numbers_stand_beside_inserts_only_where_nothing_is() -> None:
    # Three in a row, the first two as close as the gutter allows; the third by itself.
    finished = [Rect(20, 40, 40, 30), Rect(62, 40, 40, 30), Rect(130, 40, 40, 30)]
    packed = [Rect(20, 8 + 12 + 8, 40, 10), *finished]
    inserts = [
        Numbered(number, rect, [box(rect.inset(-1))])
        for number, rect in enumerate([*finished, *packed[:1]], start=1)
    ]
    pen = Recorder()
    count = draw_numbers(pen, FORME, inserts, [], FONT)
    places = [
        Rect(stroke.at[4], stroke.at[5], stroke.run.width, 1.3)
        for stroke in pen.strokes
        if isinstance(stroke, TextStroke)
    ]
    assert count == len(places) == 4
    for place in places:
        assert inside(place, tick_area(FORME))
        for rect in [*finished, packed[0]]:
            x, y, width, height = rect.inset(-1)
            apart = (
                place.x >= x + width or place.x + place.width <= x
                or place.y >= y + height or place.y + place.height <= y
            )  # fmt: skip
            assert apart


def test_an_insert_shut_in_on_all_sides_has_no_number() -> None:
    grid = [Rect(40 + 42 * i, 40 + 32 * j, 40, 30) for j in range(3) for i in range(3)]
    inserts = [Numbered(n, rect, [box(rect.inset(-1))]) for n, rect in enumerate(grid, start=1)]
    pen = Recorder()
    assert draw_numbers(pen, FORME, inserts, [], FONT) == 8
    assert "5" not in words(pen)


def test_names_stand_up_the_side_where_a_wrap_needs_the_foot() -> None:
    """A keep case wrap is 273 × 184 mm (common practice); A4 less 12 and 18 mm has 198 × 279."""
    foot, beside = Forme(A4), Forme(A4).with_names_beside
    assert not foot.holds(273, 184)
    assert beside.holds(273, 184)
    assert beside.with_names_beside is beside
    pen = Recorder()
    names = ["A title of some length"] * 12
    assert draw_foot(pen, Sheet(7, beside, (), datetime(2026, 3, 1, tzinfo=UTC)), names, FONT) == 12
    draw_bars(pen, beside, FONT)
    area, field = beside.printable, beside.field
    for stroke, clips in zip(pen.strokes, pen.clips, strict=True):
        one = Recorder()
        one.strokes, one.clips = [stroke], [clips]
        drawn = reach(one)
        assert drawn is not None
        assert inside(drawn, area)
        assert drawn.x + drawn.width <= field.x or drawn.y + drawn.height <= field.y


def test_longer_ticks_are_measured_where_the_outermost_are_hardly_seen() -> None:
    """Three turned L, an arm 8.5 mm in: the longer tick above the short one belongs to no other."""
    one_strip = msgspec.structs.replace(sheet(A4, []), forme=FORME.with_one_bar[0])
    short = [Tick(6.5, y, 6.0, y) for y in (15.0, 80.0, 90.0, 160.0, 240.0)]
    long = [Tick(15.0, y, 12.0, y) for y in (82.5, 162.5, 242.5)]
    away = [Tick(180.0, 15.0, 183.0, 15.0), Tick(65.0, 15.0, 62.0, 15.0)]
    for ticks, said in (
        ([*short, *long, *away], "160.0 mm from the lowest to the highest tick 14 mm from"),
        ([*short, *long[:2], *away], "225.0 mm from the lowest to the highest tick 6 mm from"),
        ([*short, *away], "225.0 mm from the lowest to the highest tick 6 mm from"),
    ):
        pen = Recorder()
        draw_foot(pen, one_strip, [], FONT, ticks)
        assert any(f"Up the sheet: {said} the left edge." in text for text in words(pen))
