"""The kinds of picture files there are: one list of what is taken in, and of what opens it.

A file's name only says whether it is worth a look; what it is shows its content.
"""

from __future__ import annotations

from enum import StrEnum
from pathlib import PurePath
from typing import NamedTuple


class Opener(StrEnum):
    """What makes pixels of a file."""

    PILLOW = "decoded by Pillow"
    PDFIUM = "first page, drawn by PDFium at 300 pixels to the inch"
    RESVG = "drawn by resvg, 2400 pixels on the longer side"


class PictureKind(NamedTuple):
    """One kind of picture file."""

    name: str
    """What people call it."""
    suffixes: tuple[str, ...]
    """How its files' names end, in lower case."""
    opener: Opener = Opener.PILLOW
    pillow: str = ""
    """What Pillow calls it."""
    most_pixels: int = 0
    """The most that is let in, told by the header before anything is decoded."""


MOST_PIXELS = 40_000_000
"""An A4 page at 600 pixels to the inch has 35 million. Four bytes each, twice over while it is
converted, is what a small computer can spare."""

MOST_JPEG_PIXELS = 89_000_000
"""A baseline JPEG decodes at half its size for the asking; above this Pillow itself calls a picture
a bomb. A progressive one is held whole while it is decoded, so it has no more than others."""

MOST_WEBP_PIXELS = 25_000_000
"""Its decoder holds a picture three times over."""

PICTURE_KINDS = (
    PictureKind("PNG", (".png",), pillow="PNG", most_pixels=MOST_PIXELS),
    PictureKind(
        "JPEG", (".jpg", ".jpeg", ".jpe", ".jfif"), pillow="JPEG", most_pixels=MOST_JPEG_PIXELS
    ),
    PictureKind("GIF", (".gif",), pillow="GIF", most_pixels=MOST_PIXELS),
    PictureKind("WebP", (".webp",), pillow="WEBP", most_pixels=MOST_WEBP_PIXELS),
    PictureKind("AVIF", (".avif",), pillow="AVIF", most_pixels=MOST_PIXELS),
    PictureKind("TIFF", (".tif", ".tiff"), pillow="TIFF", most_pixels=MOST_PIXELS),
    PictureKind("BMP", (".bmp",), pillow="BMP", most_pixels=MOST_PIXELS),
    PictureKind("PCX", (".pcx",), pillow="PCX", most_pixels=MOST_PIXELS),
    PictureKind("PDF", (".pdf",), Opener.PDFIUM),
    PictureKind("SVG", (".svg",), Opener.RESVG),
)
"""Of all that Pillow opens only what people have pictures in: some of its decoders start other
programs, and each that is left out is one less for a hostile file to try."""

_SUFFIXES = frozenset(suffix for kind in PICTURE_KINDS for suffix in kind.suffixes)

KINDS_IN_WORDS = f"{', '.join(k.name for k in PICTURE_KINDS[:-1])} or {PICTURE_KINDS[-1].name}"


def promises_picture(path: PurePath) -> bool:
    """Return whether a file's name ends as a picture's that can be opened."""
    return path.suffix.lower() in _SUFFIXES
