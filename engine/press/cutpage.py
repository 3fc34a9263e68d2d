"""Scores and cuts on a page of their own: the sheet in small, each in words, the cautions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import chain, product
from types import MappingProxyType

from fontTools.misc.transform import Transform

from engine.ganging import Cut, CutOrder
from engine.ganging.cutorder import beyond as beyond_trimmer
from engine.ganging.cutorder import in_words
from engine.ganging.results import BY_HAND, SCORE_FIRST, THEN_CUT
from engine.lettering import default_font, shape
from engine.model import FontRef, Rect, Sheet, Size
from engine.model.cautions import TRIMMING
from engine.model.counting import count
from engine.model.units import millimetres
from engine.press import scoring
from engine.press.captions import INK, LEADING, Caption, draw_captions
from engine.press.compose import Insert
from engine.press.correcting import printer_page
from engine.press.pens.base import Pen, box, moved
from engine.press.pens.pdf import PdfDocument
from engine.press.placed import placed_on
from engine.press.ticks import Score

_MARGIN = 12.0
"""In mm; more than printers leave white."""
_LEAST = Size(148.0, 210.0)
"""A page is no smaller than A5 (ISO 216:2007): the words would not go on it."""
_HEAD, _SIZE, _SMALL = 14.0, 8.0, 5.5
"""Type sizes in points."""
_DIGIT = 0.72
"""Height of a digit of the font, in its size."""
_GAP = 6.0
_KEPT = "#dddddd"
_BY_TICKS = "Cut from tick to tick."
NONE: Mapping[str, Insert] = MappingProxyType({})


def cut_page(
    sheet: Sheet,
    order: CutOrder | None,
    inserts: Mapping[str, Insert] = NONE,
    by_hand: Sequence[str] = (),
) -> bytes:
    """Return a PDF that tells how to score and cut ``sheet``; on more pages where one is too short.

    ``inserts`` are as for its page: what is scored on them comes first. ``by_hand`` says what is
    cut then that no trimmer can, a sentence each. Without an ``order`` it is cut along its ticks.
    Raises RefusedError where an insert is no longer the one that was laid out.
    """
    scored = [one.scores() for one in placed_on(sheet, inserts)] if inserts else []
    scores = scoring.score_lines(scored)
    stock = sheet.forme.stock
    size = Size(max(stock.width, _LEAST.width), max(stock.height, _LEAST.height))
    document, font = PdfDocument(f"Sheet {sheet.number}, cut order"), default_font()
    column = (size.width - 2 * _MARGIN - _GAP) / 2
    pen = printer_page(document, size, sheet.calibration)
    top = size.height - _MARGIN - millimetres(_HEAD)
    called = "scores and cut order" if scores else "cut order"
    title = shape(f"Sheet {sheet.number}: {called}", font, _HEAD)
    draw_captions(pen, [Caption(title, _MARGIN, top)])
    top -= 2 * millimetres(_HEAD * LEADING)
    right = _MARGIN + column + _GAP
    scale = min(column / stock.width, (size.height / 2) / stock.height)
    below = top - stock.height * scale
    cuts = order.cuts if order else ()
    _draw_map(pen, sheet, cuts, (right, below, scale), font)
    _draw_scores(pen, scored, scores, Transform(scale, 0, 0, scale, right, below), font)
    after = [BY_HAND, *by_hand] if by_hand else []
    how = [_summary(order), beyond_trimmer(order, sheet.forme)] if order else [_BY_TICKS]
    notes = wrapped([*filter(None, how), *after, *TRIMMING], column, font)
    set_lines(pen, notes, Rect(right, _MARGIN, column, below - _MARGIN - _GAP), font)
    lettered = zip(scores, scoring.in_words(scores), strict=True)
    told = [f"{line.letter}  {words}" for line, words in lettered]
    first = [SCORE_FIRST, *told, "", THEN_CUT] if told else []
    numbered = zip(cuts, in_words(order) if order else (), strict=True)
    lines = wrapped([*first, *(f"{cut.number}  {words}" for cut, words in numbered)], column, font)
    room = Rect(_MARGIN, _MARGIN, column, top - _MARGIN)
    while left := set_lines(pen, lines, room, font):
        pen, lines = printer_page(document, size, sheet.calibration), left
        room = Rect(_MARGIN, _MARGIN, column, size.height - 2 * _MARGIN)
    return document.finish()


def _draw_scores(
    pen: Pen,
    inserts: Sequence[Sequence[Score]],
    lines: Iterable[scoring.ScoreLine],
    small: Transform,
    font: FontRef,
) -> None:
    """Draw the scores of a sheet in small, by the signs of folding, with their letters."""
    for score in chain.from_iterable(inserts):
        moved(pen, small).score(*score.start, *score.end, score.angle)
    for line in lines:
        run = shape(line.letter, font, _SMALL)
        for number in line.inserts:
            x, y = small.transformPoint(line.start(inserts[number - 1]))
            spot = (x + 0.3, y + 1.2) if line.upright else (x + 1.2, y + 0.3)
            draw_captions(pen, [Caption(run, *spot)])


def wrapped(texts: Sequence[str], width: float, font: FontRef) -> list[str]:
    """Return ``texts`` in lines no wider than ``width`` mm, a word at least on each."""
    lines: list[str] = []
    for text in texts:
        line = ""
        for word in text.split(" "):
            longer = f"{line} {word}" if line else word
            if line and shape(longer, font, _SIZE).width > width:
                lines.append(line)
                longer = f"     {word}"
            line = longer
        lines.append(line)
    return lines


def _summary(order: CutOrder) -> str:
    fewest = " No order of this layout has fewer of both together." if order.fewest else ""
    return (
        f"{count(len(order.cuts), 'cut')}, {count(order.settings, 'setting')} of the trimmer, "
        f"{count(order.turns, 'turn')} of the paper.{fewest}"
    )


def set_lines(pen: Pen, lines: Sequence[str], room: Rect, font: FontRef) -> list[str]:
    """Set ``lines`` from the top of ``room``; return those that it has no room for."""
    step = millimetres(_SIZE * LEADING) * 1.1
    fitting = max(1, int(room.height / step))
    draw_captions(
        pen,
        [
            Caption(shape(line, font, _SIZE), room.x, room.y + room.height - step * place)
            for place, line in enumerate(lines[:fitting], start=1)
        ],
    )
    return list(lines[fitting:])


def _draw_map(
    pen: Pen, sheet: Sheet, cuts: Sequence[Cut], at: tuple[float, float, float], font: FontRef
) -> None:
    """Draw the sheet in small, ``at`` its lower left corner and scale."""
    x, y, scale = at

    def small(rect: Rect) -> Rect:
        return Rect(x + rect.x * scale, y + rect.y * scale, rect.width * scale, rect.height * scale)

    stock = sheet.forme.stock
    pen.cut([box(small(Rect(0, 0, stock.width, stock.height)))])
    for number, one in enumerate(sheet.placements, start=1):
        spot = small(Rect(one.x, one.y, one.width, one.height))
        pen.fill([box(spot)], _KEPT)
        widest = shape(f"{len(sheet.placements)}", font, _HEAD).width
        within = min(1.0, 0.8 * spot.width / widest, 0.8 * spot.height / millimetres(_HEAD))
        size = max(_HEAD * within, _SMALL)
        run = shape(f"{number}", font, size)
        high = _DIGIT * millimetres(size)
        middle = spot.x + (spot.width - run.width) / 2, spot.y + (spot.height - high) / 2
        draw_captions(pen, [Caption(run, *middle)])
    lines = [(cut, small(cut.line(piece))) for cut in cuts for piece in cut.pieces]
    for cut, line in lines:
        _draw_line(pen, cut, line)
    labels: list[Rect] = []
    for cut, line in lines:
        _draw_number(pen, cut, line, labels, font)


def _draw_line(pen: Pen, cut: Cut, line: Rect) -> None:
    """Draw one cut across its piece, broken where it is a knife's."""
    x, y, width, height = line
    if not cut.by_hand:
        pen.tick(x, y, x + width, y + height)
        return
    dashes = max(1, int(max(width, height) / 2))
    for n in range(dashes):
        a, b = n / dashes, (n + 0.5) / dashes
        pen.tick(x + a * width, y + a * height, x + b * width, y + b * height)


def _draw_number(pen: Pen, cut: Cut, line: Rect, labels: list[Rect], font: FontRef) -> None:
    """Set a cut's number on its line where no other stands, or else beside it."""
    run = shape(f"{cut.number}", font, _SMALL)
    breadth, height = run.width + 0.6, millimetres(_SMALL)
    for aside, part in product((0, 1, -1, 2, -2), _parts()):
        x = line.x - breadth / 2 + aside * breadth
        y = line.y + part * (line.height - height)
        if not cut.fence.upright:
            x = line.x + part * (line.width - breadth)
            y = line.y - height / 2 + aside * height
        spot = Rect(x, y, breadth, height)
        if not any(map(spot.overlaps, labels)):
            labels.append(spot)
            pen.fill([box(spot)], INK)
            pen.text(run, Transform(1, 0, 0, 1, spot.x + 0.3, spot.y + 0.4), "#ffffff")
            return


def _parts() -> tuple[float, ...]:
    """Return places along a line, as parts of it: near its ends first."""
    return tuple(end for step in range(10) for end in (0.02 + 0.05 * step, 0.98 - 0.05 * step))
