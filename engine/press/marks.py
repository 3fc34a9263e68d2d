"""What a sheet carries beside its inserts: check bars, its number, names, numbers.

All of it lies in the strips that the forme keeps free along the foot and the left side,
inside what the printer reaches; numbers beside inserts only where the sheet is waste anyway.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from fontTools.misc.transform import Transform

from engine.lettering import shape
from engine.model import FontRef, Forme, Rect, Sheet, Size
from engine.model.units import millimetres
from engine.press.captions import Caption, draw_captions, first_that_fits, in_columns
from engine.press.labels import Labels
from engine.press.pens.base import Pen, Rings, box, moved, turned
from engine.press.registration import kept
from engine.press.ticks import LONGEST, Tick

BAR = 100.0
"""Length in mm of a check bar; where there is no room, the most tens that fit."""
_MID, _END = 1.2, 2.0
"""Length in mm of the strokes across a bar: at each ten, and at its ends."""
_INSET = 0.5
"""How far things keep from the edge of what the printer reaches, in mm."""
_BAR_ROOM = 2.7
"""Breadth in mm of the room for a check bar."""
_TICK_ROOM = 1.0
"""What crop ticks may take of the foot strip, in mm."""
_SIZE = 5.0
"""Type size in points."""
_NUMBER_SIZE = 7.0
"""Type size in points of the sheet's number."""


class Numbered(NamedTuple):
    """An insert on the sheet, as far as its number is concerned."""

    number: int
    finished: Rect
    bleed: Rings


def tick_area(forme: Forme) -> Rect:
    """Return where crop ticks may lie: what the printer reaches, less bars and lettering."""
    area = forme.printable
    left = min(forme.side, _INSET + _BAR_ROOM)
    if forme.names == "side":
        left = max(left, forme.side - _TICK_ROOM)
    below = max(0.0, forme.foot - _TICK_ROOM)
    return Rect(area.x + left, area.y + below, area.width - left, area.height - below)


def draw_bars(pen: Pen, forme: Forme, font: FontRef, corner: float = 0.0) -> None:
    """Draw the level and the upright check bar, both from the lower left of their strips.

    A bar is as long as from the middle of its first end stroke to the middle of its last. They
    keep off the corners by ``corner`` mm, where registration marks stand.
    """
    area = forme.printable
    start = Transform(1, 0, 0, 1, area.x + max(_INSET, corner), area.y + _INSET)
    _draw_bar(moved(pen, start), _level_bar(forme, corner), font)
    foot = area.y + forme.foot
    upright = turned(90, area.x + _INSET + _END, foot)
    room = area.height - forme.foot - max(_INSET, corner)
    _draw_bar(moved(pen, upright), _bar_length(room), font)


def draw_foot(pen: Pen, sheet: Sheet, names: Sequence[str], font: FontRef) -> int:
    """Set the sheet's number and the inserts' names in the foot; return how many names show.

    ``names`` are in the order of the placements and are numbered from 1, as they are settled.
    """
    forme, corner = sheet.forme, max(_INSET, kept(sheet))
    area = forme.printable
    base = area.y + _INSET
    number = shape(f"Sheet {sheet.number}", font, _NUMBER_SIZE)
    lines = [Caption(number, area.x + area.width - corner - number.width, base)]
    after_bar = area.x + corner + _level_bar(forme, kept(sheet)) + _WORDS
    advice = first_that_fits(_advice(sheet), font, _SIZE, lines[0].x - 3 - after_bar)
    if advice is not None:
        lines.append(Caption(advice, after_bar, base))
    draw_captions(pen, lines)
    labels = [f"{place} {name}" for place, name in enumerate(names, start=1)]
    room, at = _names_room(sheet)
    captions = in_columns(labels, Rect(0, 0, *room), font)
    draw_captions(moved(pen, at), captions.lines)
    return captions.shown


def _names_room(sheet: Sheet) -> tuple[Size, Transform]:
    """Return the room for names between a check bar and the ticks, and what takes it there."""
    forme, corner = sheet.forme, kept(sheet)
    area = forme.printable
    if forme.names == "foot":
        height = max(0.0, forme.foot - _TICK_ROOM - _BAR_ROOM)
        start, width = max(_INSET, corner), area.width - max(_INSET, corner) - corner
        return Size(width, height), turned(0, area.x + start, area.y + _BAR_ROOM)
    beside = _INSET + _BAR_ROOM
    right, foot = forme.side - _TICK_ROOM, forme.foot
    return (
        Size(area.height - foot - max(_INSET, corner), max(0.0, right - beside)),
        turned(90, area.x + right, area.y + foot),
    )


def draw_numbers(
    pen: Pen,
    forme: Forme,
    inserts: Sequence[Numbered],
    ticks: Sequence[Tick],
    font: FontRef,
    marked: Sequence[Rect] = (),
) -> int:
    """Set each insert's number beside it where nothing else lies; return how many were set.

    ``marked`` is where other marks stand.

    Inserts that stand as close as the gutter allows have no such place: between them lies
    nothing but bleed, and a number there could stay on the trimmed insert.
    """
    taken = [*(insert.bleed for insert in inserts), *([box(mark)] for mark in marked)]
    labels = Labels(box(tick_area(forme)), taken, ticks, 0.3)
    captions: list[Caption] = []
    for insert in inserts:
        run = shape(str(insert.number), font, _SIZE)
        breadth, height = run.width + 0.6, millimetres(_SIZE) * 0.72 + 0.6
        spot = labels.place(_beside(insert.finished, forme.bleed, breadth, height))
        if spot is not None:
            captions.append(Caption(run, spot.x + 0.3, spot.y + 0.3))
    draw_captions(pen, captions)
    return len(captions)


_WORDS = 11.0
"""Room in mm for a bar's length in words."""


def _level_bar(forme: Forme, corner: float) -> float:
    """Return the length of the level bar between what stands in the corners of the foot."""
    return _bar_length(forme.printable.width - max(_INSET, corner) - corner)


def _bar_length(room: float) -> float:
    """Return the length of a bar with its words in ``room`` mm."""
    return min(BAR, (room - _WORDS) // 10 * 10)


def _draw_bar(pen: Pen, length: float, font: FontRef) -> None:
    """Draw a bar from the origin to the right, its words after it."""
    if length <= 0:
        return
    pen.tick(0, 0, length, 0)
    for tens in range(int(length) // 10 + 1):
        at = tens * 10.0
        pen.tick(at, 0, at, _END if at in {0.0, length} else _MID)
    words = shape(f"{length:g} mm", font, _SIZE)
    draw_captions(pen, [Caption(words, length + 1.0, 0.0)])


def _advice(sheet: Sheet) -> tuple[str, ...]:
    """Return what the foot says beside the bar, the longest wording first."""
    stock, printer = sheet.forme.stock.name, sheet.calibration
    undone = [f"The printer is allowed for: {printer.words}."] if printer else []
    undone += [f"The printer is allowed for: {printer.scales}."] if printer else []
    return (
        *undone,
        f"If a bar measures otherwise, print again at 100 %, not fitted to the page.   {stock}",
        "If a bar measures otherwise, print again at 100 %, not fitted to the page.",
        "Print at 100 %, not fitted to the page.",
        "Print at 100 %.",
    )


def _beside(finished: Rect, bleed: float, breadth: float, height: float) -> Iterator[Rect]:
    """Give places for a label at an insert: in the corners of its own rectangle, then around it.

    Around it they keep off the corners, where the ticks are.
    """
    x, y, width, tall = finished
    off, aside = bleed + 0.1, min(LONGEST + 1, width / 3, tall / 3)
    lefts, bottoms = (x, x + width - breadth), (y + tall - height, y)
    for bottom in bottoms:
        for left in lefts:
            yield Rect(left, bottom, breadth, height)
    for bottom in (bottoms[0] - aside, bottoms[1] + aside):
        yield Rect(x + width + off, bottom, breadth, height)
        yield Rect(x - off - breadth, bottom, breadth, height)
    for left in (lefts[0] + aside, lefts[1] - aside):
        yield Rect(left, y + tall + off, breadth, height)
        yield Rect(left, y - off - height, breadth, height)
