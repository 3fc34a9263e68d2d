"""The back of a sheet: the dielines and scores of the front, mirrored so that they lie on them.

What folds towards the printed side is pressed on the back, and without it there is nothing to lay
the rule on there. A fold shows as it is seen from this side: a mountain of the front is a valley.
"""

from __future__ import annotations

from collections.abc import Sequence

from fontTools.misc.transform import Transform

from engine.lettering import shape
from engine.model import FontRef, Sheet, Size, Stock
from engine.model.sheet import Reverse
from engine.model.units import millimetres
from engine.press.captions import INK, Caption, draw_captions, first_that_fits
from engine.press.correcting import printer_page
from engine.press.pens.base import Pen, moved, turned
from engine.press.pens.pdf import PdfDocument
from engine.press.placed import PlacedInsert
from engine.press.registration import kept

_SIZE, _NUMBER = 5.0, 14.0
"""Type sizes in points."""
_INSET = 0.5
"""In mm, as the marks of the front keep it."""


_SIGNS = (
    "Dashes: score on the front, folds towards you.  Dash and two dots: score here, folds away.  "
    "Lines: cut."
)


def tumbles(stock: Stock, reverse: Reverse) -> bool:
    """Return whether the head of the back lies at the foot of the front: tumble duplex."""
    return (reverse == "short") is stock.is_upright


def turned_over(stock: Stock, reverse: Reverse) -> Transform:
    """Return where a point of the front lies on the back, as the back is read."""
    if tumbles(stock, reverse):
        return Transform(1, 0, 0, -1, 0, stock.height)
    return Transform(-1, 0, 0, 1, stock.width, 0)


def draw_reverse(
    document: PdfDocument, sheet: Sheet, inserts: Sequence[PlacedInsert], font: FontRef
) -> None:
    """Add the back of a sheet to a file, the ``inserts`` numbered as on the front."""
    stock = sheet.forme.stock
    if sheet.reverse != "none":
        document.turn_over(sheet.reverse)
    size, tumble = Size(stock.width, stock.height), tumbles(stock, sheet.reverse)
    label = f"Sheet {sheet.number}, back"
    pen = printer_page(document, size, sheet.calibration, back=True, tumble=tumble, label=label)
    over = turned_over(stock, sheet.reverse)
    behind = moved(pen, over)
    for number, one in enumerate(inserts, 1):
        behind.cut(one.dieline())
        for score in one.scores():
            behind.score(*score.start, *score.end, -score.angle)
        _draw_number(pen, over, sheet, number, font)
    _draw_words(pen, over, sheet, font)


def _draw_number(pen: Pen, over: Transform, sheet: Sheet, number: int, font: FontRef) -> None:
    """Set the number of an insert in its middle."""
    place = sheet.placements[number - 1]
    x, y = over.transformPoint((place.x + place.width / 2, place.y + place.height / 2))
    high = min(_NUMBER, min(place.width, place.height) / millimetres(2.0))
    run = shape(f"{number}", font, high)
    draw_captions(pen, [Caption(run, x - run.width / 2, y - millimetres(high) * 0.35)])


def _draw_words(pen: Pen, over: Transform, sheet: Sheet, font: FontRef) -> None:
    """Say which back it is and what its lines are, over a strip of the front."""
    area, corner = sheet.forme.printable, max(_INSET, kept(sheet))
    high, level = _SIZE / 2, bool(sheet.forme.foot)
    near = (area.x + corner, area.y) if level else (area.x, area.y + corner)
    far = (area.x + area.width - corner, area.y + high)
    if not level:
        far = (area.x + high, area.y + area.height - corner)
    (x1, y1), (x2, y2) = map(over.transformPoint, (near, far))
    name = f"Sheet {sheet.number}, back, turned over the {sheet.reverse} edge."
    texts = (
        f"{name}  {_SIGNS}",
        f"{name}  Dashes: score on the front. Dash and two dots: score here.",
        name,
        f"Sheet {sheet.number}, back",
    )
    run = first_that_fits(texts, font, _SIZE, max(abs(x2 - x1), abs(y2 - y1)))
    if run is not None and level:
        pen.text(run, turned(0, min(x1, x2), min(y1, y2) + _INSET), INK)
    elif run is not None:
        pen.text(run, turned(90, max(x1, x2) - _INSET, min(y1, y2)), INK)
