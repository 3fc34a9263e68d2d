"""The art of one panel as a JPEG that covers the panel and its bleed.

One geometry for every fit: a window on the picture, which reaches beyond it where there is a
matte, grown by the bleed. What the window finds outside the picture is laid there first, at the
picture's own scale; then all of it is scaled down in one go, so edges fall where they were said
to, between pixels too.
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from engine.artwork.ink import art_in
from engine.artwork.opening import open_picture
from engine.artwork.screenshots import one_pixel_a_dot
from engine.artwork.straightening import straightened
from engine.artwork.windows import DOTS_PPI, PixelRect, part_of, window
from engine.colours.colour import matte_colour
from engine.model import Art, Fit, InkMode, Matte, Size
from engine.model.units import MM_PER_INCH

if TYPE_CHECKING:
    from PIL import Image

MAX_PPI = 300.0
"""What art is printed at, at most (the habit of the trade, no published source)."""

QUALITY = 92


class Bleed(NamedTuple):
    """How far the bleed runs past each side of a panel in its reading frame, in mm."""

    left: float = 0.0
    bottom: float = 0.0
    right: float = 0.0
    top: float = 0.0


def render(
    path: Path,
    art: Art,
    panel: Size,
    bleed: Bleed,
    base: str,
    part: str = "",
    *,
    mode: InkMode = InkMode.FULL,
) -> bytes:
    """Return a JPEG (RGB, sRGB) of ``art`` that covers ``panel`` and its ``bleed`` exactly.

    ``panel`` is in its reading frame, ``base`` the insert's base colour, ``part`` the part of a
    flat cover scan the panel takes, ``mode`` how much ink it may take. The picture is never drawn
    with more pixels than it has there, but for the dots of a screenshot. The same arguments give
    the same bytes. Raises PictureError.
    """
    return encode(art_in(draw(path, art, panel, bleed, base, part), mode))


def encode(image: Image.Image) -> bytes:
    """Return ``image`` as JPEG without a date or any other word of where it came from."""
    file = BytesIO()
    image.save(file, "JPEG", quality=QUALITY, subsampling=0, optimize=True)
    return file.getvalue()


def draw(path: Path, art: Art, panel: Size, bleed: Bleed, base: str, part: str = "") -> Image.Image:
    """Return what ``render`` encodes, undamaged by compression."""
    image = straightened(open_picture(path, matte=base), art.turn)
    left, top, right, bottom = (round(edge) for edge in part_of(image.size, art, part))
    image = image.crop((left, top, max(right, left + 1), max(bottom, top + 1)))
    if art.fit is Fit.PIXELS:
        image = one_pixel_a_dot(image)
        scaled = _enlarged(image, art, panel, bleed, base)
        if scaled is not None:
            return scaled
    return _scaled(image, art, panel, bleed, base)


def _scaled(image: Image.Image, art: Art, panel: Size, bleed: Bleed, base: str) -> Image.Image:
    """Return ``image`` in the window of ``art``, with what is laid around it, at its final size."""
    from PIL.Image import Resampling

    shown = window(image.size, panel, art)
    across, down = shown.width / panel.width, shown.height / panel.height
    grown = PixelRect(
        shown.left - bleed.left * across,
        shown.top - bleed.top * down,
        shown.right + bleed.right * across,
        shown.bottom + bleed.bottom * down,
    )
    size = (
        _dots(panel.width + bleed.left + bleed.right, across),
        _dots(panel.height + bleed.bottom + bleed.top, down),
    )
    padded, moved = _padded(image, art, shown, grown)
    scaled = padded.resize(size, Resampling.LANCZOS, box=moved, reducing_gap=3.0)
    if scaled.mode == "RGB":
        if art.matte is Matte.MIRROR:
            return _softened_around(scaled, image, grown, min(across, down))
        return scaled
    ground = _ground(image, art, panel, bleed, base, size)
    ground.paste(scaled, mask=scaled.getchannel("A"))
    return ground


def _dots(mm: float, per_mm: float) -> int:
    return max(1, round(mm * min(per_mm, MAX_PPI / MM_PER_INCH)))


def _padded(
    image: Image.Image, art: Art, shown: PixelRect, grown: PixelRect
) -> tuple[Image.Image, PixelRect]:
    """Return ``image`` with room around it for all of ``grown``, and where that now lies.

    Along a side that the panel's edge cuts, the picture is mirrored; where a matte shows it stays
    clear, unless the matte is the picture's own ground.
    """
    import numpy as np
    from PIL import Image as Pillow

    width, height = image.size
    margins = (
        (_room(-grown.top), _room(grown.bottom - height)),
        (_room(-grown.left), _room(grown.right - width)),
    )
    (above, below), (before, after) = margins
    moved = PixelRect(
        max(0.0, grown.left + before),
        max(0.0, grown.top + above),
        min(before + width + after, grown.right + before),
        min(above + height + below, grown.bottom + above),
    )
    if not any(room for pair in margins for room in pair):
        return image, moved
    clear = _clear_sides(art, shown, (width, height))
    pixels = np.asarray(image.convert("RGBA") if any(map(any, clear)) else image)
    for axis in (0, 1):
        for end in (0, 1):
            pads = [(0, 0)] * 3
            pads[axis] = (margins[axis][0], 0) if end == 0 else (0, margins[axis][1])
            pixels = np.pad(pixels, pads, mode=_beyond(art, clear=clear[axis][end]))  # type: ignore[call-overload]
    return Pillow.fromarray(pixels), moved


def _clear_sides(
    art: Art, shown: PixelRect, size: tuple[int, int]
) -> tuple[tuple[bool, bool], tuple[bool, bool]]:
    """Return whether a matte that is not the picture's own shows above, below, left and right."""
    if art.matte in {Matte.EXTEND, Matte.MIRROR}:
        return (False, False), (False, False)
    (width, height), hair = size, 0.01
    return (
        (shown.top < -hair, shown.bottom > height + hair),
        (shown.left < -hair, shown.right > width + hair),
    )


def _beyond(art: Art, *, clear: bool) -> str:
    """Return numpy's name for what lies beyond a side: nothing, the last pixels, or a mirror.

    Past a cut it is a mirror: drawn out, the last row of pixels shows as stripes where a trimmer
    errs.
    """
    if clear:
        return "constant"
    return (
        "edge" if art.matte is Matte.EXTEND and art.fit in {Fit.MATTE, Fit.PIXELS} else "symmetric"
    )


def _room(beyond: float) -> int:
    """Return whole pixels of room for what reaches ``beyond`` a side, and one for the filter."""
    return int(beyond) + 2 if beyond > 1e-6 else 0


BLUR_MM = 3.0
"""How far out of focus a picture is that serves as its own matte."""


def _ground(
    image: Image.Image, art: Art, panel: Size, bleed: Bleed, base: str, size: tuple[int, int]
) -> Image.Image:
    from PIL import Image as Pillow
    from PIL import ImageFilter

    if art.matte is not Matte.BLUR:
        return Pillow.new("RGB", size, matte_colour(base, art.matte))
    filling = Art(picture=art.picture, fit=Fit.FILL, focus=art.focus)
    behind = _scaled(image, filling, panel, bleed, base).resize(size)
    per_mm = size[0] / (panel.width + bleed.left + bleed.right)
    return behind.filter(ImageFilter.GaussianBlur(BLUR_MM * per_mm))


def _softened_around(
    scaled: Image.Image, image: Image.Image, grown: PixelRect, per_mm: float
) -> Image.Image:
    """Return a mirrored picture with what lies beyond the picture itself out of focus.

    ``per_mm`` is in its own pixels. A mirrored word must not read, nor a face look back.
    """
    from PIL import ImageFilter

    fx, fy = scaled.width / grown.width, scaled.height / grown.height
    box = (
        max(0, round(-grown.left * fx)),
        max(0, round(-grown.top * fy)),
        min(scaled.width, round((image.width - grown.left) * fx)),
        min(scaled.height, round((image.height - grown.top) * fy)),
    )
    if box == (0, 0, *scaled.size):
        return scaled
    soft = scaled.filter(ImageFilter.GaussianBlur(BLUR_MM * per_mm * min(fx, fy)))
    soft.paste(scaled.crop(box), box[:2])
    return soft


def _enlarged(
    image: Image.Image, art: Art, panel: Size, bleed: Bleed, base: str
) -> Image.Image | None:
    """Return ``image`` with each pixel a square of whole dots; None where it has too many."""
    from PIL.Image import Resampling

    shown = window(image.size, panel, art)
    per_mm = DOTS_PPI / MM_PER_INCH
    factor = round(per_mm * panel.width / shown.width)
    if shown.width < image.width or factor < 1:
        return None
    size = (
        _dots(panel.width + bleed.left + bleed.right, per_mm),
        _dots(panel.height + bleed.bottom + bleed.top, per_mm),
    )
    large = image.resize((image.width * factor, image.height * factor), Resampling.NEAREST)
    ground = _ground(image, art, panel, bleed, base, size)
    left = (bleed.left - shown.left * panel.width / shown.width) * per_mm
    top = (bleed.top - shown.top * panel.height / shown.height) * per_mm
    ground.paste(large, (round(left), round(top)))
    return ground
