"""The ink that an insert takes, read off its page."""

from __future__ import annotations

from engine.artwork import Coverage, coverage, page_pixels
from engine.model import Rect, Size
from engine.press.compose import Insert
from engine.press.pens.base import moved, turned
from engine.press.pens.pdf import PdfDocument

PPI = 60.0
"""Fine enough: coverage is a mean over some hundred thousand pixels."""


def ink_of(insert: Insert, bleed: float) -> Coverage:
    """Return the ink of ``insert`` in percent of its footprint with its bleed, ticks left out.

    Raises what drawing the insert raises.
    """
    size = bled(insert.net.size, bleed)
    document = PdfDocument(insert.net.kind)
    trim = Rect(bleed, bleed, *insert.net.size)
    pen = document.page(size, trim=trim, bleed=Rect(0, 0, size.width, size.height))
    insert.draw(moved(pen, turned(0, bleed, bleed)), bleed)
    return coverage(page_pixels(document.finish(), ppi=PPI))


def bled(size: Size, bleed: float) -> Size:
    """Return a footprint with its bleed on every side."""
    return Size(size.width + 2 * bleed, size.height + 2 * bleed)
