"""The art of one panel: a picture, where it lies on the panel, and the colour around it.

One geometry for every fit: a window on the picture, which reaches beyond it where there is a
matte, grown by the bleed. What the window finds outside the picture is laid there first, at the
picture's own scale; then all of it is scaled down in one go, so edges fall where they were said
to, between pixels too.
"""

from __future__ import annotations

from functools import partial
from io import BytesIO
from math import ceil
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from engine.artwork.ink import art_in, base_in
from engine.artwork.opening import open_wholly
from engine.artwork.passing import passed_through
from engine.artwork.screenshots import one_pixel_a_dot
from engine.artwork.straightening import straightened
from engine.artwork.windows import DOTS_PPI, Bleed, PixelRect, bled, part_of, window
from engine.colours.colour import matte_colour
from engine.model import Art, Fit, InkMode, Matte, Rect, Size
from engine.model.picturekinds import MOST_PIXELS
from engine.model.units import MM_PER_INCH

if TYPE_CHECKING:
    from PIL import Image

MAX_PPI = 300.0
"""What art is printed at, at most (the habit of the trade, no published source)."""

QUALITY = 92


class ArtRequest(NamedTuple):
    """Art that is to be drawn: everything that tells one drawing from another."""

    path: str
    """The picture's file."""
    art: Art
    panel: Size
    """In its reading frame."""
    bleed: Bleed
    base: str
    """The base colour of the insert, ``#rrggbb``."""
    part: str = ""
    """The part of a flat cover scan that the panel takes."""
    mode: InkMode = InkMode.FULL
    """How much ink it may take."""


class Laid(NamedTuple):
    """Art as it lies on a panel, in the panel's reading frame."""

    data: bytes
    """A JPEG or PNG, RGB or grey, to be taken as sRGB."""
    place: Rect
    """Where it lies, in mm from the panel's lower left; it may reach beyond panel and bleed."""
    ground: str = ""
    """The colour that covers panel and bleed beneath it; empty where it covers them itself.

    It is no part of the picture, so that matte and spine are one kind of object: a printer that
    treats pictures and plain colour differently would print two tones.
    """


def lay(wanted: ArtRequest) -> Laid:
    """Return the art as it lies on its panel and bleed.

    A picture is never drawn with more pixels than it has there, but for the dots of a screenshot,
    nor with more than MAX_PPI. The same request gives the same bytes. Raises PictureError.
    """
    passed = passed_through(wanted)
    if passed is not None:
        return passed
    _, art, panel, bleed, base, _, mode = wanted
    image, clear = _opened(wanted)
    place = _place_within_matte(image.size, art, panel)
    if place is None:
        whole = Rect(
            -bleed.left,
            -bleed.bottom,
            panel.width + bleed.left + bleed.right,
            panel.height + bleed.bottom + bleed.top,
        )
        drawn = art_in(_drawn(image, art, panel, bleed, base), mode)
        return Laid(_encoded(drawn, clear=clear), whole)
    inner = _bleed_of(place, panel, bleed)
    # It covers its place by both scales, whatever stretch they hold.
    covering = art if art.fit is Fit.PIXELS else msgspec.structs.replace(art, fit=Fit.STRETCH)
    drawn = _drawn(image, covering, Size(place.width, place.height), inner, base)
    grown = Rect(
        place.x - inner.left,
        place.y - inner.bottom,
        place.width + inner.left + inner.right,
        place.height + inner.bottom + inner.top,
    )
    ground = base_in(matte_colour(base, art.matte), mode)
    return Laid(_encoded(art_in(drawn, mode), clear=clear), grown, ground)


_PLAIN = {Matte.BASE, Matte.COMPLEMENT, Matte.ANALOGOUS}
"""Mattes that are one colour."""
_HAIR = 0.01
"""In mm or pixels: less than anybody sees."""


def _place_within_matte(size: tuple[int, int], art: Art, panel: Size) -> Rect | None:
    """Return where the whole picture lies on a plain matte; None where it lies otherwise."""
    if art.fit not in {Fit.MATTE, Fit.PIXELS} or art.matte not in _PLAIN:
        return None
    shown = window(size, panel, art)
    width, height = size
    around = (shown.left, shown.top, width - shown.right, height - shown.bottom)
    if max(around) > _HAIR or min(around) > -_HAIR:
        return None
    across, down = shown.width / panel.width, shown.height / panel.height
    return Rect(-shown.left / across, (shown.bottom - height) / down, width / across, height / down)


def _bleed_of(place: Rect, panel: Size, bleed: Bleed) -> Bleed:
    """Return the bleed of a picture that lies at ``place``: on the sides where it meets a cut."""
    gaps = Bleed(
        place.x,
        place.y,
        panel.width - place.x - place.width,
        panel.height - place.y - place.height,
    )
    return Bleed(*(side if gap < _HAIR else 0.0 for gap, side in zip(gaps, bleed, strict=True)))


MOST_LOSSLESS = 2_000_000
"""Bytes up to which a picture with clear parts is kept without loss."""


def _encoded(image: Image.Image, *, clear: bool) -> bytes:
    """Return drawn art: a PNG where ``clear`` parts show the matte, and a JPEG else.

    A JPEG would leave a tint of the picture on the matte around it. Too large a file is a JPEG
    all the same.
    """
    if clear:
        file = BytesIO()
        image.save(file, "PNG")
        if file.tell() <= MOST_LOSSLESS:
            return file.getvalue()
    return encode(image)


def encode(image: Image.Image) -> bytes:
    """Return ``image`` as JPEG without a date or any other word of where it came from."""
    file = BytesIO()
    image.save(file, "JPEG", quality=QUALITY, subsampling=0, optimize=True)
    return file.getvalue()


def draw(path: Path, art: Art, panel: Size, bleed: Bleed, base: str, part: str = "") -> Image.Image:
    """Return ``art`` over all of its panel and bleed, ground and all, undamaged by compression."""
    image, _ = _opened(ArtRequest(str(path), art, panel, bleed, base, part))
    return _drawn(image, art, panel, bleed, base)


def _opened(wanted: ArtRequest) -> tuple[Image.Image, bool]:
    """Return the part of the picture that is laid, straightened, in no more pixels than needed.

    And whether the base colour shows through the picture anywhere.
    """
    path, art, _, _, base, part, _ = wanted
    enough = partial(_enough, wanted)
    opened = open_wholly(Path(path), matte=base, enough=enough)
    image = straightened(opened.image, art.turn)
    left, top, right, bottom = (round(edge) for edge in part_of(image.size, art, part))
    image = image.crop((left, top, max(right, left + 1), max(bottom, top + 1)))
    return (one_pixel_a_dot(image) if art.fit is Fit.PIXELS else image), opened.clear


def _enough(wanted: ArtRequest, size: tuple[int, int]) -> int:
    """Return how many pixels on the longer side of a picture print as well as all of its ``size``.

    0 is for all of them.
    """
    art, panel = wanted.art, wanted.panel
    if art.fit is Fit.PIXELS:
        return 0
    left, top, right, bottom = part_of(size, art, wanted.part)
    shown = window((right - left, bottom - top), panel, art)
    per_mm = min(shown.width / panel.width, shown.height / panel.height)
    return ceil(max(size) * min(1.0, MAX_PPI / MM_PER_INCH / per_mm))


def _drawn(image: Image.Image, art: Art, panel: Size, bleed: Bleed, base: str) -> Image.Image:
    """Return an opened picture over all of ``panel`` and ``bleed``."""
    if art.fit is Fit.PIXELS:
        scaled = _enlarged(image, art, panel, bleed, base)
        if scaled is not None:
            return scaled
    return _scaled(image, art, panel, bleed, base)


def _scaled(image: Image.Image, art: Art, panel: Size, bleed: Bleed, base: str) -> Image.Image:
    """Return ``image`` in the window of ``art``, with what is laid around it, at its final size."""
    from PIL.Image import Resampling

    shown = window(image.size, panel, art)
    across, down = shown.width / panel.width, shown.height / panel.height
    grown = bled(shown, panel, bleed)
    size = (
        _dots(panel.width + bleed.left + bleed.right, across),
        _dots(panel.height + bleed.bottom + bleed.top, down),
    )
    small = _bearable(image, grown, size)
    if small is not image:
        return _scaled(small, art, panel, bleed, base)
    padded, moved = _padded(image, art, shown, grown)
    scaled = padded.resize(size, Resampling.LANCZOS, box=moved, reducing_gap=3.0)
    if scaled.mode == "RGB":
        if art.matte is Matte.MIRROR:
            return _softened_around(scaled, image, grown, min(across, down))
        return scaled
    ground = _ground(image, art, panel, bleed, base, size)
    ground.paste(scaled, mask=scaled.getchannel("A"))
    return ground


def _bearable(image: Image.Image, grown: PixelRect, size: tuple[int, int]) -> Image.Image:
    """Return ``image``, reduced where what is laid around it would take too much memory.

    It keeps twice the pixels of its final ``size`` at least: a slender picture that is laid on a
    broad panel brings many more pixels of matte than of its own.
    """
    across, down = max(grown.width, image.width), max(grown.height, image.height)
    if across * down <= MOST_PIXELS:
        return image
    factor = int(min(across / size[0], down / size[1]) / 2)
    return image.reduce(factor) if factor > 1 else image


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
