"""Opening pictures safely: whatever comes in, an upright sRGB picture or one sentence comes out.

Headers are judged before anything is decoded, so a file that claims a billion pixels costs
nothing. Decoders of damaged files raise anything at all; here it becomes a PictureError.
"""

from __future__ import annotations

import warnings
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from engine.artwork import documents, drawings, normalising
from engine.model.errors import PictureError
from engine.model.picturekinds import KINDS_IN_WORDS, MOST_PIXELS, PICTURE_KINDS

if TYPE_CHECKING:
    from PIL import Image

MAX_BYTES = 500_000_000
"""A file larger than this is not even looked at."""

MOST_SLENDER = 50
"""How many times as long as wide a picture may be. The most slender panel, the edge of a thin case,
is 33 to 1; of a line of pixels drawing would make a panel full of nothing, at any price."""

MOST_SCANS = 200
"""Of a JPEG: programs write some ten, a small copy of itself included (common practice, no
published source); each costs as long as decoding the picture once."""

START_OF_SCAN = b"\xff\xda"
"""ITU-T T.81, table B.1; what is coded never holds these bytes (B.1.1.5)."""

_ANEW = "Open it and save it anew"

_DECODED = {kind.pillow: kind for kind in PICTURE_KINDS if kind.pillow}
"""What Pillow opens, by its own name; JPEG brings MPO with it, the cameras' several in one."""


Enough = int | Callable[[tuple[int, int]], int]


class OpenedPicture(NamedTuple):
    """A picture as the rest of the program wants it, and what opening it had to say."""

    image: Image.Image
    """Mode RGB, upright, sRGB, without alpha."""
    notes: tuple[str, ...]
    size: tuple[int, int]
    """Width and height in pixels in the file, the right way up; the image may be smaller."""
    clear: bool = False
    """Whether the matte shows through it anywhere; a drawing always counts as one that lets it."""


def open_picture(path: Path, *, matte: str = "#ffffff", source: str = "") -> Image.Image:
    """Return the picture in ``path`` as mode RGB, upright, in sRGB.

    Transparent parts are laid on ``matte``; of an animation or a file of several pages it is
    the first. ``source`` is the name used in messages; empty is the file's own.
    Raises PictureError for anything that is no whole picture of a bearable size.
    """
    return open_wholly(path, matte=matte, source=source).image


def open_wholly(
    path: Path, *, matte: str = "#ffffff", source: str = "", enough: Enough = 0
) -> OpenedPicture:
    """Return what ``open_picture`` does, with its notes and its size in the file.

    ``enough`` is how many pixels on the longer side will do, or a function of the picture's size
    that says it: a larger JPEG is decoded, and read to its end, at a half, a quarter or an eighth
    of its size, but no smaller than that. 0 is for all.
    """
    name = source or path.name
    _refuse_unreadable(path, name)
    _hush()
    image = _header(path, name)
    if image is not None:
        return _decode(image, matte, name, enough)
    opened = _drawn(path, matte, name)
    _refuse_slender(opened.size, name)
    return opened


def _drawn(path: Path, matte: str, name: str) -> OpenedPicture:
    if documents.is_document(path):
        image, notes = documents.draw_first_page(path, matte, name)
        return OpenedPicture(image, notes, image.size)
    if drawings.is_drawing(path):
        image, notes = drawings.draw_svg(path, matte, name)
        return OpenedPicture(image, notes, image.size, clear=True)
    what = "is no picture that can be opened"
    raise PictureError(name, what, f"Save it as {KINDS_IN_WORDS}")


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


def _hush() -> None:
    """Keep Pillow's own remarks off the screen: what counts of them is said in our words.

    For good, not for a while: Python's filters are the whole process's, and to put them back
    would take a lock around all decoding.
    """
    warnings.filterwarnings("ignore", module=r"PIL\.")


def _header(path: Path, name: str) -> Image.Image | None:
    """Return the picture undecoded, its size judged; None where Pillow does not know it."""
    from PIL import Image, UnidentifiedImageError

    try:
        image = Image.open(path, formats=tuple(_DECODED))
    except UnidentifiedImageError:
        return None
    except Exception as fault:
        raise _refusal(name, fault) from fault
    limit = _most_pixels(image)
    width, height = image.size
    if width * height > limit:
        image.close()
        raise _too_large(name, limit, f"{width} × {height} pixels are")
    try:
        _refuse_slender(image.size, name)
        _refuse_scans(image, path, name)
    except PictureError:
        image.close()
        raise
    return image


def _refuse_scans(image: Image.Image, path: Path, name: str) -> None:
    """Refuse a JPEG that goes over its picture again and again, each time for little."""
    if image.info.get("progressive") and path.read_bytes().count(START_OF_SCAN) > MOST_SCANS:
        raise PictureError(name, "goes over its picture more often than any camera does", _ANEW)


def _refuse_slender(size: tuple[int, int], name: str) -> None:
    if max(size) > MOST_SLENDER * min(size):
        what = f"{size[0]} × {size[1]} pixels are too slender for any panel"
        raise PictureError(name, what, "Choose another picture")


def _decode(image: Image.Image, matte: str, name: str, enough: Enough) -> OpenedPicture:
    try:
        with image:
            size = image.size[::-1] if normalising.lies_on_its_side(image) else image.size
            notes = normalising.frame_notes(image)
            _draft(image, enough if isinstance(enough, int) else enough(size))
            image.load()
            upright, remarks, clear = normalising.normalise(image, matte)
            return OpenedPicture(upright, notes + remarks, size, clear)
    except Exception as fault:
        raise _refusal(name, fault) from fault


def _refusal(name: str, fault: Exception) -> PictureError:
    """Return what to say of a file whose decoder raised ``fault``; damaged ones raise anything."""
    from PIL import Image

    if isinstance(fault, Image.DecompressionBombError):
        return _too_large(name, MOST_PIXELS)
    if isinstance(fault, MemoryError):
        return PictureError(name, "needs more memory than there is", "Make it smaller")
    said = str(fault).lower()
    what = "is damaged and cannot be decoded"
    if isinstance(fault, EOFError) or any(word in said for word in ("truncated", "unexpected end")):
        what = "ends too early: part of the picture is missing"
    return PictureError(name, what, "Copy it again from where it came")


def _too_large(name: str, limit: int, what: str = "the picture is") -> PictureError:
    most = f"{limit / 1e6:.0f} million pixels are the most"
    return PictureError(name, f"{what} too large to open safely", f"Save it smaller: {most}")


def _most_pixels(image: Image.Image) -> int:
    if image.info.get("progressive"):
        return MOST_PIXELS
    return _DECODED["JPEG" if image.format == "MPO" else str(image.format)].most_pixels


def _draft(image: Image.Image, enough: int) -> None:
    """Let a JPEG decode itself at a part of its size where all of it is not needed, or too much."""
    if image.format not in {"JPEG", "MPO"}:
        return
    width, height = image.size
    longer = max(width, height)
    least = longer // 2 if width * height > MOST_PIXELS else longer
    least = min(least, enough or longer)
    if least < longer:
        image.draft(None, (max(1, width * least // longer), max(1, height * least // longer)))
