"""Pages of PDFs as pixels, drawn by a worker process.

The pages are our own, but the pictures on them may be a stranger's, byte for byte (``passing``): a
page is drawn within the same limits as whatever else comes from outside.
"""

from __future__ import annotations

import os
from functools import cache
from math import ceil, sqrt
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from engine.model.errors import CollectionError
from engine.model.picturekinds import MOST_PIXELS
from engine.model.units import POINTS_PER_INCH
from engine.workers import Job, Pool, Reason
from engine.workers.limits import PAGES

if TYPE_CHECKING:
    from PIL import Image


class Pixels(NamedTuple):
    """A page as it comes from the worker."""

    width: int
    height: int
    data: bytes
    """Red, green and blue, row by row."""


def page_pixels(pdf: bytes | Path, page: int = 0, ppi: float = 150.0) -> Image.Image:
    """Return a page of a PDF, counted from 0, as an RGB picture at ``ppi`` pixels to the inch.

    Raises CollectionError for a file that is gone or is no PDF, and for a page that cannot be
    drawn within the limits.
    """
    from PIL import Image

    if isinstance(pdf, Path):
        name, where = str(pdf), os.fsencode(pdf.absolute())
        drawn = _drawing().ask(name, b"", where, page, ppi)
    else:
        drawn = _drawing().ask("the page", pdf, b"", page, ppi)
    return Image.frombytes("RGB", (drawn.width, drawn.height), drawn.data)


@cache
def _drawing() -> Pool[Pixels, CollectionError]:
    return Pool(Job(f"{__name__}:draw", Pixels, PAGES, CollectionError, _refusal), most=1)


def _refusal(name: str, reason: Reason) -> CollectionError:
    return CollectionError(name, f"cannot be shown: {reason}", _OTHER_ART)


_OTHER_ART = "Choose other art for what is on it"


def draw(data: bytes, path: bytes, page: int, ppi: float) -> Pixels:
    """Do what ``page_pixels`` does, of ``data``, or of the file at ``path``. For workers."""
    import pypdfium2

    try:
        with pypdfium2.PdfDocument(Path(os.fsdecode(path)) if path else data) as document:
            leaf = document[page]
            _refuse_large(leaf.get_size(), ppi)
            bitmap = leaf.render(scale=ppi / POINTS_PER_INCH, rev_byteorder=True)
            picture = bitmap.to_pil().convert("RGB")
    except (OSError, IndexError, pypdfium2.PdfiumError) as error:
        what = "this page cannot be shown"
        raise CollectionError("", what, "Press the sheet again") from error
    return Pixels(picture.width, picture.height, picture.tobytes())


def _refuse_large(size: tuple[float, float], ppi: float) -> None:
    inches = size[0] * size[1] / POINTS_PER_INCH**2
    if ceil(inches * ppi**2) > MOST_PIXELS:
        what = f"at {ppi:g} pixels to the inch it is too large to be drawn safely"
        raise CollectionError("", what, f"Ask for {int(sqrt(MOST_PIXELS / inches))} at most")
