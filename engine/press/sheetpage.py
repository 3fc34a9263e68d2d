"""A whole sheet as one page of a PDF."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from engine.ganging.cutorder import order_of
from engine.lettering import check, default_font
from engine.model import Forme, Placement, Rect, Sheet, Size
from engine.model.errors import RefusedError
from engine.press.compose import Insert
from engine.press.correcting import printer_page
from engine.press.cutmarks import draw_cut_numbers
from engine.press.marks import Numbered, draw_bars, draw_foot, draw_numbers, tick_area
from engine.press.pens.base import box, turned
from engine.press.pens.pdf import PdfDocument
from engine.press.placed import PlacedInsert, draw_inserts
from engine.press.strip import draw_strip

_SAME = 0.05
"""How far, in mm, an insert may differ from the room that was laid out for it."""


def sheet_page(sheet: Sheet, inserts: Mapping[str, Insert], names: Mapping[str, str]) -> bytes:
    """Return the PDF of ``sheet``: one page of the stock's very size, the same bytes each time.

    ``names`` are by game, and so are ``inserts``; one that is not its game's usual insert is
    by its design's fingerprint. Raises RefusedError where an insert is no longer the one that
    was laid out, and what drawing an insert raises.
    """
    document = PdfDocument(f"Sheet {sheet.number}")
    draw_sheet(document, sheet, inserts, names)
    return document.finish()


def draw_sheet(
    document: PdfDocument, sheet: Sheet, inserts: Mapping[str, Insert], names: Mapping[str, str]
) -> None:
    """Add the page of ``sheet`` to a file, labelled with its number. See ``sheet_page``."""
    forme = sheet.forme
    size = Size(forme.stock.width, forme.stock.height)
    pen = printer_page(document, size, sheet.calibration, label=f"Sheet {sheet.number}")
    placed = [
        _place(sheet, number, placement, _of(placement, inserts))
        for number, placement in enumerate(sheet.placements, start=1)
    ]
    ticks = draw_inserts(pen, placed, bleed_on(forme), box(tick_area(forme)), forme.gutter)
    font = default_font()
    draw_bars(pen, forme, font)
    draw_foot(pen, sheet, [_short(one.game, names) for one in sheet.placements], font)
    if sheet.strip is not None:
        draw_strip(pen, sheet.strip, sheet.number, font)
    numbered = _numbered(sheet, placed)
    order = order_of(forme, sheet.placements, sheet.strip)
    lines = ticks.lines
    marked = draw_cut_numbers(pen, sheet, order.cuts if order else (), numbered, lines, font)
    draw_numbers(pen, forme, numbered, lines, font, tuple(marked.values()))


def _of(placement: Placement, inserts: Mapping[str, Insert]) -> Insert:
    own = inserts.get(placement.design)
    return inserts[placement.game] if own is None else own


def _place(sheet: Sheet, number: int, placement: Placement, insert: Insert) -> PlacedInsert:
    """Return where an insert lies; RefusedError where it is not the one that was laid out."""
    where = f"sheet {sheet.number}, insert {number}"
    mend = "Withdraw the sheet and press again"
    if insert.design.fingerprint != placement.design:
        raise RefusedError(where, "its design was changed after it was laid out", mend)
    width, height = insert.net.size
    across, up = (height, width) if placement.rotated else (width, height)
    if max(abs(across - placement.width), abs(up - placement.height)) > _SAME:
        what = (
            f"it is {across:.1f} × {up:.1f} mm now, but was laid out as "
            f"{placement.width:.1f} × {placement.height:.1f} mm"
        )
        raise RefusedError(where, what, mend)
    if placement.rotated:
        return PlacedInsert(insert, turned(90, placement.x + height, placement.y))
    return PlacedInsert(insert, turned(0, placement.x, placement.y))


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
