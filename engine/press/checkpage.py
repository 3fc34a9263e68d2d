"""The check page: what tells how a printer puts a page on one stock.

Bars and diagonals to measure, rulers that begin at the edges of the paper, patches, small type,
and a sample of scores and crop ticks. Where a small paper lacks room, samples are left out, the
lines that are measured never.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from math import sqrt

from fontTools.misc.transform import Transform

from engine.lettering import default_font, shape
from engine.model import FontRef, Forme, Rect, Size, Stock
from engine.model.calibration import Calibration
from engine.model.units import millimetres
from engine.press.captions import INK, Caption, draw_captions, first_that_fits
from engine.press.checklines import OF_BACK, SAID, CheckLines, check_lines
from engine.press.correcting import printer_page
from engine.press.pens.base import Pen, Ring, box, moved, turned
from engine.press.pens.pdf import PdfDocument
from engine.press.ticks import (
    Score,
    Waste,
    crop_ticks,
    draw_score_ticks,
    draw_ticks,
    score_ticks,
)

_HEAD, _SIZE, _SMALL = 9.0, 6.5, 5.0
"""Type sizes in points."""
_LEADING = 1.35
_MID, _LONG, _END = 1.2, 2.0, 3.0
"""Strokes across a bar at each ten, each fifty and at its ends, in mm."""
_STUB = 12.0
"""Of a diagonal, at each of its ends, in mm."""
_RULER = 20
"""Length of a ruler at an edge, in mm; shorter where a bar runs."""
_SCALE = 8
"""Reach of the scale on the back, in mm each way."""
_BESIDE = 13.0
"""From the bars to the samples, in mm."""
_GAP = 3.0
_PATCHES = (6.5, 14.0)
"""Least and greatest height of a row of patches with what stands beneath it, in mm."""
_GREYS = {
    f"{100 - 10 * step:g}": "#" + 3 * f"{round(25.5 * step):02x}" for step in (*range(10), 9.5)
}
_COLOURS = {
    "C": "#00ffff",
    "M": "#ff00ff",
    "Y": "#ffff00",
    "R": "#ff0000",
    "G": "#00ff00",
    "B": "#0000ff",
    "C 50": "#7fffff",
    "M 50": "#ff7fff",
    "Y 50": "#ffff7f",
    "C 10": "#e5ffff",
    "M 10": "#ffe5ff",
}
"""Greys and colours by what stands beneath them, in percent: the primaries of print and of light
as full as the printer has them, then less."""
_POINTS = tuple(range(3, 13))
_GROUNDS = (None, "#1d4e89", "#9b2335")
"""What type stands on: paper, in black; two dark colours, in white."""
_TIDE = "Tide and Lantern"
_WORDS = (f"{_TIDE} 0123456789", f"{_TIDE} 012", _TIDE, "Tide 01", "Ti")


def check_page(
    forme: Forme,
    printer: str = "",
    calibration: Calibration | None = None,
    *,
    duplex: bool = False,
) -> bytes:
    """Return the PDF of the check page for a forme's stock, with a back if ``duplex``.

    With a ``calibration`` it comes corrected, to see whether all is true now; without one it is
    to be measured. Raises InputError for paper that is too small.
    """
    lines, font = check_lines(forme), default_font()
    stock = forme.stock
    size = Size(stock.width, stock.height)
    document = PdfDocument(f"Check page: {stock.name}")
    pen = printer_page(document, size, calibration)
    _draw_lines(pen, lines, font)
    _draw_rulers(pen, stock, lines, font)
    below = lines.corner[1] + _BESIDE
    if duplex:
        _draw_cross(pen, lines.cross)
        below = lines.cross[1] + _SCALE + _GAP
    _draw_samples(pen, forme, lines, below, _head(stock, printer, calibration), font, duplex=duplex)
    if duplex:
        back = printer_page(document, size, calibration, back=True)
        _draw_back(back, stock, lines, font)
    return document.finish()


def _head(stock: Stock, printer: str, calibration: Calibration | None) -> tuple[str, ...]:
    named = f"{printer}, {stock.name}" if printer else stock.name
    if calibration is None:
        return named, "As it comes: print at 100 %, measure, and type what you find."
    return named, "Corrected: every length is to be as it says. Type nothing of this page."


# --- what is measured -------------------------------------------------------------------


def _draw_lines(pen: Pen, lines: CheckLines, font: FontRef) -> None:
    x, y = lines.corner
    _draw_bar(moved(pen, turned(0, x, y)), lines.across, font)
    _draw_bar(pen, lines.up, font, upright=lines.corner)
    points = lines.points
    for start, end in (("A", "D"), ("D", "A"), ("E", "F"), ("F", "E")):
        (x1, y1), (x2, y2) = points[start], points[end]
        part = _STUB / (lines.square * sqrt(2))
        pen.tick(x1, y1, x1 + part * (x2 - x1), y1 + part * (y2 - y1))
    cross_x, cross_y = points["D"]
    pen.tick(cross_x - 3, cross_y, cross_x + 3, cross_y)
    pen.tick(cross_x, cross_y - 3, cross_x, cross_y + 3)
    for letter, (dx, dy) in {
        "A": (4.4, 1.8), "B": (-2.2, 3.6), "C": (3.6, -2.2), "D": (1.2, 1.2),
        "E": (3.6, 1.0), "F": (1.0, 3.6),
    }.items():  # fmt: skip
        px, py = points[letter]
        draw_captions(pen, [Caption(shape(letter, font, _HEAD), px + dx, py + dy)])


def _draw_bar(
    pen: Pen, length: float, font: FontRef, upright: tuple[float, float] | None = None
) -> None:
    """Draw a bar to the right of the origin, or upwards from a point: strokes inside."""

    def tick(x1: float, y1: float, x2: float, y2: float) -> None:
        if upright is None:
            pen.tick(x1, y1, x2, y2)
        else:
            left, below = upright
            pen.tick(left + y1, below + x1, left + y2, below + x2)

    tick(0, 0, length, 0)
    for at in (*range(0, int(length), 10), int(length)):
        tick(at, 0, at, _END if at in {0, int(length)} else _MID if at % 50 else _LONG)
        if at == 0 or at % 50 or length - at < 10:
            continue
        run = shape(f"{at}", font, _SMALL)
        if upright is None:
            draw_captions(pen, [Caption(run, at - run.width / 2, _LONG + 0.4)])
        else:
            left, below = upright
            draw_captions(pen, [Caption(run, left + _LONG + 0.4, below + at - 0.6)])


def _draw_rulers(pen: Pen, stock: Stock, lines: CheckLines, font: FontRef) -> None:
    """Draw a ruler from the middle of each edge inwards: its first stroke seen is the margin."""
    width, height, (x, y) = stock.width, stock.height, lines.corner
    middle, half = width * 0.5, height * 0.47
    for at, reach in (
        (turned(0, 0, half), x - 1),
        (turned(90, middle, 0), y - 1),
        (turned(180, width, half), min(_RULER, width - x - lines.across - 1)),
        (turned(270, middle, height), min(_RULER, height - y - lines.up - 1)),
    ):
        ruler = moved(pen, at)
        for mm in range(int(reach) + 1):
            long = 2.5 if mm % 5 == 0 else 1.5
            ruler.tick(mm, -long, mm, long)
            if mm and mm % 5 == 0:
                run = shape(f"{mm}", font, _SMALL)
                ruler.text(run, Transform(1, 0, 0, 1, mm - run.width / 2, 2.8), INK)


def _draw_cross(pen: Pen, at: tuple[float, float]) -> None:
    x, y = at
    pen.tick(x - _SCALE, y, x + _SCALE, y)
    pen.tick(x, y - _SCALE, x, y + _SCALE)


def _draw_back(pen: Pen, stock: Stock, lines: CheckLines, font: FontRef) -> None:
    """Draw the scale on which the front's cross is read, in halves of a millimetre."""
    x, y = stock.width - lines.cross[0], lines.cross[1]
    for half in range(-2 * _SCALE, 2 * _SCALE + 1):
        long = 1.0 if half % 2 == 0 else 0.5
        pen.tick(x + half / 2, y - long, x + half / 2, y + long)
        pen.tick(x - long, y + half / 2, x + long, y + half / 2)
        if half and half % 10 == 0:
            run = shape(f"{half // 2:+d}", font, _SMALL)
            draw_captions(pen, [Caption(run, x + half / 2 - run.width / 2, y + 1.4)])
            draw_captions(pen, [Caption(run, x + 1.4, y + half / 2 - 0.6)])
    _draw_cross(pen, (x, y))
    left = lines.corner[0]
    texts = (
        "Back. Hold the sheet against the light, this side towards you: where",
        "on this scale does the front's cross show? Right and up are positive.",
    )
    size = _fitting(texts, stock.width - 2 * left, font)
    step = millimetres(size) * _LEADING
    runs = [shape(text, font, size) for text in texts]
    draw_captions(
        pen, [Caption(run, left, y + _SCALE + 8 - step * n) for n, run in enumerate(runs)]
    )


# --- what is looked at ------------------------------------------------------------------


def _draw_samples(
    pen: Pen,
    forme: Forme,
    lines: CheckLines,
    below: float,
    head: Sequence[str],
    font: FontRef,
    *,
    duplex: bool,
) -> None:
    """Draw the head and the samples from the top down, as far as there is room."""
    left = lines.corner[0] + _BESIDE
    right = lines.corner[0] + lines.across - _STUB
    top = lines.corner[1] + lines.up - 6
    wide = right - left

    def told(pen: Pen, room: Rect) -> None:
        _set_lines(pen, [*head, "", *_told(lines, duplex=duplex)], room, font)

    count = len(head) + 1 + len(_told(lines, duplex=duplex))
    high = max(_PATCHES[0], min(_PATCHES[1], (top - below) / 16))
    blocks: list[tuple[float, Callable[[Pen, Rect], None]]] = [
        (count * _line_height([*head, *_told(lines, duplex=duplex)], wide, font), told),
        (high, lambda pen, room: _draw_patches(pen, room, _GREYS, font)),
        (high, lambda pen, room: _draw_patches(pen, room, _COLOURS, font)),
        (_type_height(), lambda pen, room: _draw_type(pen, room, font)),
        (26.0, lambda pen, room: _draw_cut_sample(pen, room, forme.gutter, font)),
    ]
    gap = _GAP if top - below > 120 else _GAP / 2
    for height, draw in blocks:
        if top - height < below:
            continue
        draw(pen, Rect(left, top - height, wide, height))
        top -= height + gap


def _told(lines: CheckLines, *, duplex: bool) -> list[str]:
    """Return what is measured, with what it is to be: a line each."""
    wanted = lines.figures
    return [
        f"{check_option(name)}  {said}"
        + ("" if name in OF_BACK else f": {getattr(wanted, name):.1f}")
        for name, said in SAID.items()
        if duplex or name not in OF_BACK
    ]


def check_option(name: str) -> str:
    """Return what a figure is typed after."""
    return "--" + name.replace("_", "-")


def _fitting(texts: Sequence[str], width: float, font: FontRef) -> float:
    """Return the type size at which the widest of some lines is no wider than ``width`` mm."""
    widest = max(shape(text, font, _SIZE).width for text in texts if text)
    return min(_SIZE, _SIZE * width / widest)


def _line_height(texts: Sequence[str], width: float, font: FontRef) -> float:
    return millimetres(_fitting(texts, width, font)) * _LEADING


def _set_lines(pen: Pen, texts: Sequence[str], room: Rect, font: FontRef) -> None:
    """Set lines from the top of a room, smaller where the widest does not fit."""
    size = _fitting(texts, room.width, font)
    top = room.y + room.height - millimetres(size)
    for place, text in enumerate(texts):
        if text:
            at = top - place * millimetres(size) * _LEADING
            draw_captions(pen, [Caption(shape(text, font, size), room.x, at)])


def _draw_patches(pen: Pen, room: Rect, colours: Mapping[str, str], font: FontRef) -> None:
    each, foot = room.width / len(colours), millimetres(_SMALL) + 0.4
    for place, (name, colour) in enumerate(colours.items()):
        x = room.x + place * each
        pen.fill([box(Rect(x, room.y + foot, each - 0.4, room.height - foot))], colour)
        run = shape(name, font, _SMALL)
        draw_captions(pen, [Caption(run, x + (each - 0.4 - run.width) / 2, room.y + 0.3)])


def _type_height() -> float:
    return sum(millimetres(points) * 1.25 for points in _POINTS) + 2.0


def _draw_type(pen: Pen, room: Rect, font: FontRef) -> None:
    """Set type from 3 to 12 points, in black on paper and in white on colour."""
    each = room.width / len(_GROUNDS)
    for place, ground in enumerate(_GROUNDS):
        column = Rect(room.x + place * each, room.y, each - 1.0, room.height)
        if ground is not None:
            pen.fill([box(column)], ground)
        top = column.y + column.height - 0.6
        for size in _POINTS:
            top -= millimetres(size) * 1.25
            texts = [f"{size}  {words}" for words in _WORDS] + [f"{size}"]
            run = first_that_fits(texts, font, size, column.width - 2.0)
            if run is not None:
                at = Transform(1, 0, 0, 1, column.x + 1.0, top + millimetres(size) * 0.3)
                pen.text(run, at, INK if ground is None else "#ffffff")


def _draw_cut_sample(pen: Pen, room: Rect, gutter: float, font: FontRef) -> None:
    """Draw two small inserts to score, cut and fold: in line with the paper, and across it."""
    area = box(room)
    pieces = [Rect(room.x + 5, room.y + 5, 24, 16), Rect(room.x + 35, room.y + 5, 16, 16)]
    scores = [Score((room.x + 13, room.y + 5), (room.x + 13, room.y + 21))]
    scores += [Score((room.x + 35, room.y + 13), (room.x + 51, room.y + 13))]
    rings: list[list[Ring]] = [[box(piece)] for piece in pieces]
    for piece in pieces:
        pen.fill([box(piece.inset(-1.0))], "#dcdcdc")
    waste = Waste(area, rings, gutter)
    ticks = [tick for ring in rings for tick in crop_ticks(ring, waste)]
    draw_ticks(pen, ticks)
    draw_score_ticks(pen, score_ticks(scores, waste))
    texts = ("Score (diamonds), cut and fold these:", "the ticks are on the lines, as on a sheet.")
    x = room.x + 58
    for place, run in enumerate(shape(text, font, _SIZE) for text in texts):
        if x + run.width <= room.x + room.width:
            at = room.y + 14 - place * millimetres(_SIZE) * _LEADING
            draw_captions(pen, [Caption(run, x, at)])
