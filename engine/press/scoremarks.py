"""The letters of the lines to score, beside their diamonds in the margin of a sheet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from engine.lettering import shape
from engine.model import FontRef, Rect, Sheet
from engine.model.units import millimetres
from engine.press.captions import Caption, draw_captions
from engine.press.labels import Labels
from engine.press.marks import Numbered, tick_area
from engine.press.pens.base import Pen, box
from engine.press.placed import Marked
from engine.press.registration import without_rooms
from engine.press.scoring import ScoreLine
from engine.press.ticks import SIGN, ScoreTick

SIZE = 5.0
"""Type size in points: below it nothing is readable in print (common practice, no published
source)."""
_OFF = SIGN[1] + 0.3
"""Between the line and its letter, in mm."""
_SAME = 0.05


def draw_letters(
    pen: Pen,
    sheet: Sheet,
    lines: Iterable[ScoreLine],
    ticks: Marked,
    inserts: Sequence[Numbered],
    marked: Iterable[Rect],
    font: FontRef,
) -> list[Rect]:
    """Set the letter of each line where there is room beside one of its ticks; return where.

    ``marked`` is where other marks stand.
    """
    taken = [*(insert.bleed for insert in inserts), *([box(mark)] for mark in marked)]
    labels = Labels(without_rooms(tick_area(sheet.forme), sheet), taken, ticks.lines, 0.2)
    found: list[Rect] = []
    for line in lines:
        run = shape(line.letter, font, SIZE)
        breadth, height = run.width + 0.3, millimetres(SIZE) * 0.75
        spot = labels.place(_beside(line, ticks.scores, breadth, height))
        if spot is not None:
            draw_captions(pen, [Caption(run, spot.x + 0.15, spot.y + height * 0.2)])
            found.append(spot)
    return found


def _beside(
    line: ScoreLine, ticks: Sequence[ScoreTick], breadth: float, height: float
) -> Iterator[Rect]:
    """Give places for a letter beside the ticks on a line, the outermost first."""
    axis = 0 if line.upright else 1
    on = sorted(
        (tick for tick in ticks if _lies_on(tick, line)), key=lambda tick: tick.line[3 - axis]
    )
    ends = [one for pair in zip(on, reversed(on), strict=True) for one in pair]
    for tick in ends:
        low, high = sorted((tick.line[1 - axis], tick.line[3 - axis]))
        long = height if line.upright else breadth
        wide = breadth if line.upright else height
        for along in (high - long, low):
            for across in (line.at + _OFF, line.at - _OFF - wide):
                x, y = (across, along) if line.upright else (along, across)
                yield Rect(x, y, breadth, height)


def _lies_on(tick: ScoreTick, line: ScoreLine) -> bool:
    axis = 0 if line.upright else 1
    ends = tick.line[axis], tick.line[axis + 2]
    return tick.valley is line.back and all(abs(end - line.at) <= _SAME for end in ends)
