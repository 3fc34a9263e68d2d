"""Edges drawn by the program's own PDF pen, one to a page, and read by pypdfium2 and pypdf."""

import re
from collections.abc import Iterator, Sequence
from functools import cache
from io import BytesIO

import numpy as np
import pypdf
import pypdfium2
from fontTools.misc.transform import Transform

from engine.lettering import PlacedRun
from engine.model import Rect, Size
from engine.press.pens.pdf import PdfDocument

_AROUND = 2.0
PPI = 254
"""Ten pixels to the millimetre."""


class ProofPages:
    """Edges of one size, each on a page of its own with some room around it."""

    def __init__(self, edge: Size, settings: Sequence[tuple[PlacedRun, ...]]) -> None:
        self.edge = edge
        document = PdfDocument("proof")
        for lines in settings:
            pen = document.page(Size(edge.width + 2 * _AROUND, edge.height + 2 * _AROUND))
            for line in lines:
                at = Transform().translate(_AROUND, _AROUND).transform(line.at)
                pen.text(line.run, at, "#000000")
        data = document.finish()
        self._pages = pypdfium2.PdfDocument(data)
        self._parsed = pypdf.PdfReader(BytesIO(data)).pages
        self.ink = cache(self._ink)

    def _ink(self, index: int) -> np.ndarray:
        """Return the pixels of a page from its top row down, True where there is ink."""
        picture = self._pages[index].render(scale=PPI / 72, grayscale=True).to_numpy()
        return picture.reshape(picture.shape[:2]) < 128

    def reach(self, index: int) -> Rect | None:
        """Return where the ink of an edge lies in its own frame, in mm, if there is any."""
        ink = self.ink(index)
        rows, columns = np.flatnonzero(ink.any(axis=1)), np.flatnonzero(ink.any(axis=0))
        if not rows.size:
            return None
        height, width = self.edge.height + 2 * _AROUND, self.edge.width + 2 * _AROUND
        high, wide = height / ink.shape[0], width / ink.shape[1]  # mm to the pixel, about 0.1
        top, bottom = height - rows[0] * high, height - (rows[-1] + 1) * high
        left, right = columns[0] * wide, (columns[-1] + 1) * wide
        return Rect(left - _AROUND, bottom - _AROUND, right - left, top - bottom)

    def row(self, index: int, y: float) -> int:
        """Return the row of pixels at a height on the edge, in mm."""
        height = self.edge.height + 2 * _AROUND
        return round((height - _AROUND - y) / height * self.ink(index).shape[0])

    def stated(self, index: int) -> str:
        """Return the text that a page states for its glyphs, in the order it is set.

        By ISO 32000-1: what ActualText says (14.9.4), elsewhere what the font's ToUnicode
        says of each code (9.10.3).
        """
        return "".join(_stated(self._parsed[index]))

    def text(self, index: int) -> str:
        """Return the text of a page as a reader extracts it, lines parted by newlines."""
        found = self._pages[index].get_textpage().get_text_range()
        # A hyphen at the end of a line it takes for a word divided there.
        return "\n".join(line.strip() for line in found.replace("\ufffe", "-\n").splitlines())


def _stated(page: pypdf.PageObject) -> Iterator[str]:
    fonts = page["/Resources"]["/Font"]
    meaning: dict[int, str] = {}
    replaced = False
    for operands, operator in page.get_contents().operations:
        if operator == b"Tf":
            meaning = _meanings(fonts[operands[0]]["/ToUnicode"].get_data().decode("ascii"))
        elif operator == b"BDC":
            replaced = True
            yield str(operands[1]["/ActualText"])
        elif operator == b"EMC":
            replaced = False
        elif operator == b"TJ" and not replaced:
            codes = b"".join(part.original_bytes for part in operands[0] if hasattr(part, "encode"))
            yield from (
                meaning[high * 256 + low] for high, low in zip(codes[::2], codes[1::2], strict=True)
            )


@cache
def _meanings(cmap: str) -> dict[int, str]:
    pairs = re.findall(r"^<([0-9A-F]{4})> <([0-9A-F]*)>$", cmap, re.MULTILINE)
    return {int(code, 16): bytes.fromhex(text).decode("utf-16-be") for code, text in pairs}
