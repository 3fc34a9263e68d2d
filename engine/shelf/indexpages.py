"""The index as pages of a PDF, in columns, to be printed and kept beside the shelf."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import floor
from typing import NamedTuple

from fontTools.misc.transform import Transform

from engine.lettering import PlacedRun, TypeStyle, default_font, lay
from engine.model import FontRef, Rect, Size, Stock
from engine.model.units import millimetres
from engine.press import PdfDocument, Pen
from engine.shelf.index import Entry, Letter, Pages, Row, letters, paged, pages_by_letter

MARGIN, GAP = 14.0, 8.0
"""In mm: more than printers leave white, and between two columns."""
HEAD, TYPE = 14.0, 8.0
"""Type sizes in points."""
STEP = 4.0
"""From line to line, in mm."""
LEAST = 70.0
"""A column is no narrower, in mm: a title and its place go on a line."""
_INK, _PALE = "#000000", "#595959"


class Sheetful(NamedTuple):
    """How a page of the index is divided, in mm."""

    size: Size
    columns: int
    lines: int

    @classmethod
    def of(cls, stock: Stock) -> Sheetful:
        """Divide a page of the stock's size, or of A5 (ISO 216:2007) where that is larger."""
        size = Size(max(stock.width, 148.0), max(stock.height, 210.0))
        width = size.width - 2 * MARGIN
        room = size.height - 2 * MARGIN - 4 * STEP
        return cls(size, max(1, floor((width + GAP) / (LEAST + GAP))), floor(room / STEP))

    @property
    def column(self) -> float:
        """The width of a column."""
        return (self.size.width - 2 * MARGIN - GAP * (self.columns - 1)) / self.columns


def pages_of(entries: Sequence[Entry], stock: Stock) -> Pages:
    """Return what stands on each page."""
    page = Sheetful.of(stock)
    return paged(letters(entries), page.lines, page.columns)


def draw_index(
    title: str, entries: Sequence[Entry], stock: Stock, fallbacks: tuple[FontRef, ...] = ()
) -> bytes:
    """Return the index as a PDF; ``fallbacks`` are fonts for what the one that ships lacks."""
    document, page, pages = PdfDocument(title), Sheetful.of(stock), pages_of(entries, stock)
    begins = pages_by_letter(pages)
    for number, columns in enumerate(pages, start=1):
        pen = document.page(page.size, label=f"{number}")
        write = _Writer(pen, fallbacks)
        top = page.size.height - MARGIN - millimetres(HEAD)
        whole = page.size.width - 2 * MARGIN
        write.line(title, Rect(MARGIN, top, whole * 0.7, 0), HEAD)
        write.line(f"{number} of {len(pages)}", Rect(MARGIN, top, whole, 0), TYPE, at_end=True)
        if number == 1 and len(pages) > 1:
            write.line(_contents(begins), Rect(MARGIN, top - STEP * 1.5, whole, 0), TYPE)
        for place, column in enumerate(columns):
            x = MARGIN + place * (page.column + GAP)
            for line, row in enumerate(column, start=1):
                _draw_row(write, row, Rect(x, top - STEP * (line + 2), page.column, 0))
    return document.finish()


def _contents(begins: Mapping[str, int]) -> str:
    """Return 'Page 1: # to K    2: L to W' for the page on which each letter begins."""
    pages: dict[int, list[str]] = {}
    for letter, page in begins.items():
        pages.setdefault(page, []).append(letter)
    said = [
        f"{page}: {several[0]}" + (f" to {several[-1]}" if len(several) > 1 else "")
        for page, several in pages.items()
    ]
    return f"Page {'    '.join(said)}"


def _draw_row(write: _Writer, row: Row, room: Rect) -> None:
    if isinstance(row, Letter):
        write.line(row.name, room, TYPE * 1.15)
        write.pen.fill([_rule(room)], _PALE)
        return
    taken = write.line(row.place, room, TYPE, at_end=True, colour=_PALE, most=0.5)
    write.line(row.title, Rect(room.x, room.y, room.width - taken - 2.0, 0), TYPE)


def _rule(room: Rect) -> list[tuple[float, float]]:
    """Return a hairline beneath a heading."""
    low, high, right = room.y - 0.8, room.y - 0.7, room.x + room.width
    return [(room.x, low), (right, low), (right, high), (room.x, high)]


class _Writer:
    """Sets lines of type on a page, in scripts that the fonts at hand have."""

    def __init__(self, pen: Pen, fallbacks: tuple[FontRef, ...]) -> None:
        self.pen = pen
        self._style = TypeStyle(fallbacks=fallbacks)

    def line(
        self,
        words: str,
        room: Rect,
        size: float,
        *,
        at_end: bool = False,
        colour: str = _INK,
        most: float = 1.0,
    ) -> float:
        """Set words on a baseline, cut short where they have to be; return their width in mm."""
        placed, left, width = self._laid(words, size)
        kept = len(words)
        while width > room.width * most and kept > 1:
            kept = max(1, min(kept - 1, floor(kept * room.width * most / width)))
            placed, left, width = self._laid(f"{words[:kept].rstrip()}…", size)
        low = min((one.y for one in placed), default=0.0)
        x = room.x + (room.width - width if at_end else 0.0)
        at = Transform().translate(x - left, room.y - low)
        for one in placed:
            self.pen.text(one.run, at.transform(one.at), colour)
        return width

    def _laid(self, words: str, size: float) -> tuple[tuple[PlacedRun, ...], float, float]:
        """Return the runs of a line, where they begin, and how wide they are in mm."""
        placed = lay((words,), size, Size(1e4, 100.0), default_font(), self._style)
        left = min((one.x for one in placed), default=0.0)
        return placed, left, max((one.x + one.run.width for one in placed), default=left) - left
