"""What a sheet carries beside its inserts: check bars, its number, names, numbers.

All of it lies in the strips that the forme keeps free along the foot and the left side, or in one
of them, inside what the printer reaches; numbers beside inserts only where the sheet is waste
anyway.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from operator import itemgetter
from typing import NamedTuple

from fontTools.misc.transform import Transform

from engine.lettering import shape
from engine.model import FontRef, Forme, Rect, Sheet
from engine.model.units import millimetres
from engine.press.captions import (
    LEADING,
    Caption,
    abridged,
    draw_captions,
    first_that_fits,
    in_columns,
)
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
_SAME = 1e-6
_ALIGNED = 2.0
"""Ticks that begin so near in mm are measured as one row: askew by that is far below 0.1 mm."""
_SEEN = 1.0
"""A tick of this length in mm is seen at once (by eye, no published source)."""
_FURTHER_IN = 10.0
"""How much further in mm ticks may stand than the outermost to be measured instead."""


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


class Strip(NamedTuple):
    """A strip that is kept free, and how things lie in it, read along it, in mm."""

    at: Transform
    """What takes its lower left to the page."""
    length: float
    """Of what stands in it."""
    bar: float
    """How high in it the line of its check bar lies."""
    names: float
    """How high in it the room for names begins."""
    room: float
    """How high that room is."""


def strips(forme: Forme, corner: float = 0.0) -> tuple[Strip | None, Strip | None]:
    """Return the strip along the foot and the one up the left side; None for one not kept free.

    They keep off the corners by ``corner`` mm, where registration marks stand.
    """
    area, inset = forme.printable, max(_INSET, corner)
    foot = side = None
    if forme.foot:
        at = turned(0, area.x + inset, area.y)
        room = max(0.0, forme.foot - _TICK_ROOM - _BAR_ROOM)
        foot = Strip(at, area.width - inset - corner, _INSET, _BAR_ROOM, room)
    if forme.side:
        start = forme.foot or _INSET
        at = turned(90, area.x + forme.side, area.y + start)
        bar = forme.side - _INSET - _END
        room = max(0.0, forme.side - _TICK_ROOM - _INSET - _BAR_ROOM)
        side = Strip(at, area.height - start - inset, bar, _TICK_ROOM, room)
    return foot, side


def draw_bars(pen: Pen, forme: Forme, font: FontRef, corner: float = 0.0) -> None:
    """Draw a check bar in each strip, from its lower left. See ``strips``.

    A bar is as long as from the middle of its first end stroke to the middle of its last.
    """
    for strip in filter(None, strips(forme, corner)):
        start = strip.at.translate(0, strip.bar)
        _draw_bar(moved(pen, start), _bar_length(strip.length), font)


def draw_foot(
    pen: Pen, sheet: Sheet, names: Sequence[str], font: FontRef, ticks: Iterable[Tick] = ()
) -> int:
    """Set the sheet's number and the inserts' names in the strips; return how many names show.

    ``names`` are in the order of the placements and are numbered from 1, as they are settled.
    Where a sheet has one bar only, its crop ``ticks`` are measured the other way.
    """
    corner = kept(sheet)
    foot, side = strips(sheet.forme, corner)
    strip, beside = foot or side, side if sheet.forme.names == "side" else foot
    if strip is None or beside is None:
        return 0
    apart = "" if foot and side else _apart(ticks, upright=side is None)
    number, inset = shape(f"Sheet {sheet.number}", font, _NUMBER_SIZE), max(0.0, _INSET - corner)
    lines = [Caption(number, strip.length - inset - number.width, strip.bar)]
    after = _bar_length(strip.length) + _WORDS
    advice = first_that_fits(_advice(sheet, apart), font, _SIZE, lines[0].x - 3 - after)
    room = beside.room
    if advice is not None:
        lines.append(Caption(advice, after, strip.bar))
    elif apart:
        row = millimetres(_SIZE * LEADING)
        room -= row
        own = abridged(apart, font, _SIZE, strip.length)
        lines.append(Caption(own, 0.0, strip.names + room + 0.2 * row))
    draw_captions(moved(pen, strip.at), lines)
    labels = [f"{place} {name}" for place, name in enumerate(names, start=1)]
    captions = in_columns(labels, Rect(0, beside.names, beside.length, room), font)
    draw_captions(moved(pen, beside.at), captions.lines)
    return captions.shown


class _Row(NamedTuple):
    """Crop ticks in a row that point out of inserts to one side: the first, the last."""

    begins: float
    """Where they leave the inserts, in mm from that edge of the paper."""
    length: float
    """Of the shorter of both."""
    span: float
    """From the one to the other."""


def _apart(ticks: Iterable[Tick], *, upright: bool) -> str:
    """Return what to measure in place of an upright bar, or of a level one.

    That is from the first to the last of the crop ticks that point out of the outermost inserts at
    the left, or at their foot; '' where none has room. Where these are too short to be seen at
    once, it is between longer ones that stand a little further in, if there are any.
    """
    rows = list(_rows(ticks, 1 if upright else 0))
    if not rows:
        return ""
    outermost = rows[0]
    seen = (
        row
        for row in rows
        if row.begins - outermost.begins <= _FURTHER_IN
        and row.length >= _SEEN
        and row.span >= min(BAR, outermost.span)
    )
    row = next(seen, outermost)
    far, off = f"{row.span:.1f} mm", f"{row.begins - row.length / 2:.0f} mm"
    if upright:
        return f"Up the sheet: {far} from the lowest to the highest tick {off} from the left edge."
    return f"Across the sheet: {far} from the first to the last tick {off} from the lower edge."


def _rows(ticks: Iterable[Tick], axis: int) -> Iterator[_Row]:
    """Yield the rows of ticks that point left (``axis`` 1) or down (0), the outermost first."""
    out = (
        (tick[1 - axis], tick[axis], tick[1 - axis] - tick[3 - axis])
        for tick in ticks
        if abs(tick[axis] - tick[axis + 2]) < _SAME and tick[3 - axis] < tick[1 - axis]
    )
    rows: list[list[tuple[float, float, float]]] = []
    for one in sorted(out):
        if not rows or one[0] - rows[-1][0][0] > _ALIGNED:
            rows.append([])
        rows[-1].append(one)
    for row in rows:
        first, last = min(row, key=itemgetter(1, 0)), max(row, key=itemgetter(1, 2))
        yield _Row(row[0][0], min(first[2], last[2]), last[1] - first[1])


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


def _advice(sheet: Sheet, apart: str) -> tuple[str, ...]:
    """Return what stands beside the bar, the longest wording first.

    ``apart`` is what is measured in place of the other bar.
    """
    stock, printer = sheet.forme.stock.name, sheet.calibration
    undone = [f"The printer is allowed for: {printer.words}."] if printer else []
    undone += [f"The printer is allowed for: {printer.scales}."] if printer else []
    if apart:
        again = "If this or the bar measures otherwise, print again at 100 %, not fitted."
        return (*(f"{apart}  {more}" for more in (*undone, again, "Print at 100 %.")), apart)
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
