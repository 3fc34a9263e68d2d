"""Art that is a page rather than a picture: the first page of a PDF, drawn at print resolution."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from engine.model.errors import PictureError
from engine.model.units import POINTS_PER_INCH

if TYPE_CHECKING:
    from PIL import Image

PPI = 300.0
"""What the page is drawn at; the press prints art at no more."""

MAX_SIDE = 4500
"""Pixels: a larger page is drawn at fewer pixels to the inch."""

UNDER = 1.0 - 1e-6
"""Keeps a page of whole pixels from being rounded up by one, for lack of a millionth."""

PDF_MAGIC = b"%PDF-"
"""ISO 32000-1, 7.5.2: the header line. Readers look for it in the first 1024 bytes."""


def is_document(path: Path) -> bool:
    """Return whether ``path`` holds a page description, by its content rather than its name."""
    with path.open("rb") as file:
        return PDF_MAGIC in file.read(1024)


def draw_first_page(path: Path, matte: str, name: str) -> tuple[Image.Image, tuple[str, ...]]:
    """Return the first page of the PDF in ``path`` on ``matte`` as RGB, and remarks.

    For workers: PDFium bears one thread, and ends the process where it lacks memory. Raises
    PictureError for a PDF that is damaged, locked or has no page.
    """
    import pypdfium2 as pdfium

    try:
        document = pdfium.PdfDocument(path)
    except pdfium.PdfiumError as fault:
        what = "is a PDF that is damaged or needs a password"
        raise PictureError(name, what, "Save the page as PNG") from fault
    try:
        count = len(document)
        if count == 0:
            raise PictureError(name, "is a PDF without a page", "Choose another picture")
        page = document[0]
        longest = max(page.get_size())
        scale = min(PPI / POINTS_PER_INCH, MAX_SIDE / longest) * UNDER
        bitmap = page.render(scale=scale, fill_color=_rgba(matte), rev_byteorder=True)
        image = bitmap.to_pil().convert("RGB")
    except (pdfium.PdfiumError, ValueError, ZeroDivisionError) as fault:
        raise PictureError(name, "has a first page that cannot be drawn", _AS_PNG) from fault
    finally:
        document.close()
    return image, (f"first of {count} pages",) if count > 1 else ()


_AS_PNG = "Save the page as PNG"


def _rgba(colour: str) -> tuple[int, int, int, int]:
    red, green, blue = bytes.fromhex(colour.removeprefix("#"))
    return red, green, blue, 255
