"""JPEGs that are printed as they came: decoding one and packing it again would only wear it."""

from __future__ import annotations

import struct
from pathlib import Path
from typing import TYPE_CHECKING

from engine.artwork.normalising import ORIENTATION, is_srgb
from engine.artwork.windows import bled, part_of, window
from engine.model import Fit, InkMode, Rect
from engine.model.units import MM_PER_INCH

if TYPE_CHECKING:
    from PIL import Image

    from engine.artwork.rendering import ArtRequest, Laid

MAX_PPI = 400.0
"""At more it is scaled down: a third more than is printed costs less than packing it again."""
MOST_HIDDEN = 0.3
"""The part of a picture that may lie unseen beyond its panel: a file is no larger than it must."""
_SCAN, _END = 0xDA, 0xD9
_KEPT = {0xE0, 0xEE}
"""Of the application segments those that decoders go by: JFIF (ITU-T T.871) and Adobe's, which
tells how the colours are coded. All others are about the picture, not of it."""


def passed_through(wanted: ArtRequest) -> Laid | None:
    """Return the very JPEG that was taken in, where it lies; None where it has to be drawn.

    It goes as it is if it is upright, sRGB, not much finer than it is printed, nowhere turned or
    inked otherwise, and if panel and bleed find all they show within it.
    """
    from PIL import Image

    from engine.artwork.rendering import Laid

    art, path = wanted.art, Path(wanted.path)
    if art.turn or art.fit is Fit.PIXELS or wanted.mode is not InkMode.FULL:
        return None
    try:
        with Image.open(path, formats=("JPEG",)) as image:
            place = _place(image.size, wanted) if _as_printed(image) else None
            if place is None:
                return None
            image.load()  # half a file is a JPEG too
        return Laid(bare(path.read_bytes()), place)
    except Exception:  # noqa: BLE001 - whatever it is, drawing it says it properly
        return None


def _as_printed(image: Image.Image) -> bool:
    profile = image.info.get("icc_profile")
    return (
        image.format == "JPEG"
        and image.mode in {"RGB", "L"}
        and (not profile or is_srgb(profile))
        and image.getexif().get(ORIENTATION, 1) == 1
    )


def _place(size: tuple[int, int], wanted: ArtRequest) -> Rect | None:
    """Return where the whole file lies on the panel, in mm; None where that is no way to print."""
    art, panel, bleed = wanted.art, wanted.panel, wanted.bleed
    part = part_of(size, art, wanted.part)
    shown = window((part.width, part.height), panel, art)
    across, down = shown.width / panel.width, shown.height / panel.height
    needed = bled(shown, panel, bleed)
    hair = 1e-6
    within = (
        needed.left >= -hair
        and needed.top >= -hair
        and needed.right <= part.width + hair
        and needed.bottom <= part.height + hair
    )
    width, height = size
    seen = needed.width * needed.height / (width * height)
    fine = max(across, down) * MM_PER_INCH > MAX_PPI
    if not within or fine or seen < 1 - MOST_HIDDEN:
        return None
    left, bottom = part.left + shown.left, part.top + shown.bottom
    return Rect(-left / across, (bottom - height) / down, width / across, height / down)


def bare(data: bytes) -> bytes:
    """Return a JPEG without what it says about itself: where it was taken, by whom, small copies.

    Its picture is untouched (ITU-T T.81, B.1.1: segments begin with a marker and their length).
    Raises ValueError for what is no such file.
    """
    kept, at = [data[:2]], 2
    while True:
        if at + 4 > len(data) or data[at] != 0xFF:
            raise ValueError("no segment where one is expected")
        marker = data[at + 1]
        if marker in {_SCAN, _END}:
            break
        if marker == 0xFF:  # a fill byte
            at += 1
            continue
        (length,) = struct.unpack(">H", data[at + 2 : at + 4])
        about = (0xE0 <= marker <= 0xEF and marker not in _KEPT) or marker == 0xFE
        if not about:
            kept.append(data[at : at + 2 + length])
        at += 2 + length
    end = data.rfind(bytes((0xFF, _END)))
    return b"".join(kept) + data[at : end + 2 if end > at else len(data)]
