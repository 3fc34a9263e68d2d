"""Proofs: the page that is printed, as a picture. Nothing is drawn a second way."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

from engine.artwork import page_pixels
from engine.model import Rect, Size
from engine.model.maker import MAKER
from engine.press.compose import Insert
from engine.press.pens.base import box, turned
from engine.press.pens.pdf import PdfDocument
from engine.press.placed import PlacedInsert, draw_inserts
from engine.press.ticks import LONGEST

BLEED = 1.0
"""In mm: what a sheet has where nobody set it otherwise."""
_WHITE = 0.5
"""Paper around the ticks of an insert alone, in mm."""
AROUND = BLEED + LONGEST + _WHITE
"""Paper shown around an insert, in mm: its bleed lies within, under the ticks."""


def proof(insert: Insert, ppi: float = 150.0) -> bytes:
    """Return a PNG of the page of ``insert`` alone, at ``ppi`` pixels to the inch.

    Raises what drawing the insert raises.
    """
    return page_picture(insert_page(insert), ppi)


def page_picture(pdf: bytes | Path, ppi: float = 150.0) -> bytes:
    """Return a PNG of the first page of a PDF. Raises what ``page_pixels`` raises."""
    from PIL.PngImagePlugin import PngInfo

    file = BytesIO()
    told = PngInfo()
    told.add_text("Software", MAKER)
    page_pixels(pdf, 0, ppi).save(file, "PNG", dpi=(ppi, ppi), pnginfo=told)
    return file.getvalue()


def insert_page(insert: Insert) -> bytes:
    """Return the PDF of one insert with its ticks, the page a little larger than it."""
    size = insert.net.size
    page = Rect(0, 0, size.width + 2 * AROUND, size.height + 2 * AROUND)
    trim = page.inset(AROUND)
    document = PdfDocument(insert.net.kind)
    pen = document.page(Size(page.width, page.height), trim=trim, bleed=trim.inset(-BLEED))
    placed = PlacedInsert(insert, turned(0, AROUND, AROUND))
    draw_inserts(pen, [placed], BLEED, box(page.inset(_WHITE)), gutter=2 * BLEED)
    return document.finish()
