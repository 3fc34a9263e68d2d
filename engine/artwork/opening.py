"""Opening pictures safely: whatever comes in, an upright sRGB picture or one sentence comes out.

Headers are judged before anything is decoded, so a file that claims a billion pixels costs
nothing. Decoders of damaged files raise anything at all; here it becomes a PictureError.
"""

from __future__ import annotations

import threading
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from engine.artwork import documents, drawings, normalising
from engine.model.errors import PictureError

if TYPE_CHECKING:
    from PIL import Image

MAX_PIXELS = 40_000_000
"""The most that is decoded: an A4 page at 600 ppi has 35 million. Four bytes each, twice over
while it is converted, is what a small computer can spare."""

MAX_JPEG_PIXELS = 89_000_000
"""A baseline JPEG decodes at half its size for the asking, so more may come in; above this Pillow
itself calls a picture a bomb."""

MAX_WEBP_PIXELS = 25_000_000
"""Its decoder holds a picture three times over."""

MAX_BYTES = 500_000_000

FORMATS = ("PNG", "JPEG", "GIF", "WEBP", "AVIF", "TIFF", "BMP")
"""Pillow's names; JPEG brings MPO with it, the cameras' several pictures in one. Formats outside
this list are not tried: some start other programs."""

SUFFIXES = frozenset(
    {".png", ".jpg", ".jpeg", ".jpe", ".jfif", ".gif", ".webp", ".avif", ".tif", ".tiff", ".bmp"}
) | frozenset(documents.SUFFIXES + drawings.SUFFIXES)
"""File name endings, in lower case, of what can be opened."""


class Opened(NamedTuple):
    """A picture as the rest of the program wants it, and what opening it had to say."""

    image: Image.Image
    """Mode RGB, upright, sRGB, without alpha."""
    notes: tuple[str, ...]
    size: tuple[int, int]
    """Width and height in pixels in the file, the right way up; the image may be smaller."""


def open_picture(path: Path, *, matte: str = "#ffffff", source: str = "") -> Image.Image:
    """Return the picture in ``path`` as mode RGB, upright, in sRGB.

    Transparent parts are laid on ``matte``; of an animation or a file of several pages it is
    the first. ``source`` is the name used in messages; empty is the file's own.
    Raises PictureError for anything that is no whole picture of a bearable size.
    """
    return open_wholly(path, matte=matte, source=source).image


def open_wholly(path: Path, *, matte: str = "#ffffff", source: str = "") -> Opened:
    """Return what ``open_picture`` does, with its notes and its size in the file."""
    name = source or path.name
    _refuse_unreadable(path, name)
    with _quiet():
        if documents.is_document(path):
            image, notes = documents.draw_first_page(path, matte, name)
            return Opened(image, notes, image.size)
        if drawings.is_drawing(path):
            image = drawings.draw_svg(path, matte, name)
            return Opened(image, (), image.size)
        return _decode(path, matte, name)


def _refuse_unreadable(path: Path, name: str) -> None:
    try:
        if path.is_dir():
            raise PictureError(name, "is a folder", "Name a picture")
        size = path.stat().st_size
        with path.open("rb"):
            pass
    except FileNotFoundError as fault:
        raise PictureError(name, "is not there", "Put it back or choose another") from fault
    except OSError as fault:
        why = (fault.strerror or "unknown cause").lower()
        raise PictureError(name, f"cannot be read: {why}", "Check the file") from fault
    if size == 0:
        raise PictureError(name, "is empty", "Copy it again from where it came")
    if size > MAX_BYTES:
        raise PictureError(
            name, f"has {size / 1e6:.0f} MB", f"{MAX_BYTES / 1e6:.0f} MB is the most"
        )


_lock = threading.RLock()


@contextmanager
def _quiet() -> Iterator[None]:
    """Keep Pillow's remarks off the screen, but turn its bomb warning into an error.

    Python keeps warning filters for the whole process, hence the lock.
    """
    from PIL import Image

    with _lock, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        yield


def _decode(path: Path, matte: str, name: str) -> Opened:
    from PIL import Image, UnidentifiedImageError

    try:
        with _header(path, name) as image:
            size = image.size
            notes = normalising.frame_notes(image)
            _draft(image)
            image.load()
            upright, remarks = normalising.normalise(image, matte)
            if normalising.lies_on_its_side(image):
                size = size[::-1]
            return Opened(upright, notes + remarks, size)
    except PictureError:
        raise
    except UnidentifiedImageError as fault:
        raise PictureError(name, "is no picture that can be opened", _SAVE_AS) from fault
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as fault:
        raise _too_large(name, MAX_PIXELS) from fault
    except MemoryError as fault:
        raise PictureError(name, "needs more memory than there is", "Make it smaller") from fault
    except Exception as fault:
        raise PictureError(name, _blame(fault), "Copy it again from where it came") from fault


_SAVE_AS = "Save it as PNG or JPEG"


def _blame(fault: Exception) -> str:
    said = str(fault).lower()
    if isinstance(fault, EOFError) or any(word in said for word in ("truncated", "unexpected end")):
        return "ends too early: part of the picture is missing"
    return "is damaged and cannot be decoded"


def _header(path: Path, name: str) -> Image.Image:
    """Return the picture undecoded, having read no more than its header."""
    from PIL import Image

    image = Image.open(path, formats=FORMATS)
    limit = MAX_WEBP_PIXELS if image.format == "WEBP" else MAX_PIXELS
    limit = MAX_JPEG_PIXELS if _draftable(image) else limit
    width, height = image.size
    if width * height > limit:
        image.close()
        raise _too_large(name, limit, f"{width} × {height} pixels are")
    return image


def _too_large(name: str, limit: int, what: str = "the picture is") -> PictureError:
    most = f"{limit / 1e6:.0f} million pixels are the most"
    return PictureError(name, f"{what} too large to open safely", f"Save it smaller: {most}")


def _draftable(image: Image.Image) -> bool:
    """Whether decoding at a smaller size saves memory: not so for progressive JPEG."""
    return image.format in {"JPEG", "MPO"} and not image.info.get("progressive")


def _draft(image: Image.Image) -> None:
    """Ask a large JPEG to decode itself at half size, which no printed insert can tell."""
    width, height = image.size
    if _draftable(image) and width * height > MAX_PIXELS:
        image.draft(None, (width // 2, height // 2))
