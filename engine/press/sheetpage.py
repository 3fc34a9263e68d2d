"""A whole sheet as one page of a PDF, and its back as another."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from engine.ganging.cutorder import order_of
from engine.lettering import check, default_font
from engine.model import Forme, Rect, Sheet, Size
from engine.press.compose import Insert
from engine.press.correcting import printer_page
from engine.press.cutmarks import draw_cut_numbers
from engine.press.marks import Numbered, draw_bars, draw_foot, draw_numbers, tick_area
from engine.press.pens.pdf import PdfDocument
from engine.press.placed import PlacedInsert, draw_inserts, placed_on
from engine.press.registration import draw_registration, kept, rooms, without_rooms
from engine.press.reverse import draw_reverse
from engine.press.scoremarks import draw_letters
from engine.press.scoring import score_lines
from engine.press.strip import draw_strip


def sheet_page(sheet: Sheet, inserts: Mapping[str, Insert], names: Mapping[str, str]) -> bytes:
    """Return the PDF of ``sheet``: a page of the stock's very size, the same bytes each time.

    Its back is a second page, where it has one.

    ``names`` are by game, and so are ``inserts``; one that is not its game's usual insert is
    by its design's fingerprint. Raises RefusedError where an insert is no longer the one that
    was laid out, and what drawing an insert raises.
    """
    document = PdfDocument(f"Sheet {sheet.number}")
    draw_sheet(document, sheet, inserts, names)
    return document.finish()


def draw_sheet(
    document: PdfDocument, sheet: Sheet, inserts: Mapping[str, Insert], names: Mapping[str, str]
) -> bool:
    """Add the page of ``sheet`` to a file, labelled with its number. See ``sheet_page``.

    Return whether each cut's number found room on it.
    """
    forme = sheet.forme
    size = Size(forme.stock.width, forme.stock.height)
    pen = printer_page(document, size, sheet.calibration, label=f"Sheet {sheet.number}")
    placed = placed_on(sheet, inserts)
    area = without_rooms(tick_area(forme), sheet)
    ticks = draw_inserts(pen, placed, bleed_on(forme), area, forme.gutter)
    font = default_font()
    draw_registration(pen, sheet)
    draw_bars(pen, forme, font, kept(sheet))
    shown = [_short(one.game, names) for one in sheet.placements]
    draw_foot(pen, sheet, shown, font, ticks.crops)
    if sheet.strip is not None:
        draw_strip(pen, sheet.strip, sheet.number, font)
    numbered = _numbered(sheet, placed)
    order = order_of(forme, sheet.placements, sheet.strip)
    cuts, lines = order.cuts if order else (), ticks.lines
    marked = draw_cut_numbers(pen, sheet, cuts, numbered, lines, font)
    scored = score_lines([one.scores() for one in placed])
    letters = draw_letters(pen, sheet, scored, ticks, numbered, marked.values(), font)
    taken = (*marked.values(), *letters, *rooms(sheet))
    draw_numbers(pen, forme, numbered, lines, font, taken)
    if sheet.reverse != "none":
        draw_reverse(document, sheet, placed, font)
    return len(marked) == len(cuts)


def bleed_on(forme: Forme) -> float:
    """Return the bleed that is drawn: never so much that it reaches a neighbour."""
    return min(forme.bleed, forme.gutter / 2)


def _numbered(sheet: Sheet, placed: Sequence[PlacedInsert]) -> list[Numbered]:
    return [
        Numbered(
            number,
            Rect(placement.x, placement.y, placement.width, placement.height),
            one.bled(bleed_on(sheet.forme)),
        )
        for number, (placement, one) in enumerate(zip(sheet.placements, placed, strict=True), 1)
    ]


def _short(game: str, names: Mapping[str, str]) -> str:
    """Return what a game is called in the foot: its id where the font lacks its title's letters."""
    name = names.get(game, game)
    return game if check(name, default_font(), ()) else name
