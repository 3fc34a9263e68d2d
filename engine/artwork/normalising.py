"""From what a decoder gives to an upright 8-bit sRGB picture without alpha.

The order matters: depth first (profiles work on 8 bits here), then colour by the profile that
belongs to the file's own mode, then alpha onto the matte, and turning last.
"""

from __future__ import annotations

from io import BytesIO
from math import isfinite
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from PIL import Image

SIDEWAYS = (5, 6, 7, 8)
"""The values of EXIF's Orientation (CIPA DC-008, tag 0x0112) that swap width and height."""

ORIENTATION = 0x0112


def frame_notes(image: Image.Image) -> tuple[str, ...]:
    """Return what to say about a file that holds more than the one picture that is taken."""
    if image.format not in {"TIFF", "GIF", "WEBP", "PNG", "AVIF"}:
        return ()
    count = getattr(image, "n_frames", 1)
    if count < 2:
        return ()
    return (f"first of {count} {'pages' if image.format == 'TIFF' else 'frames'}",)


def lies_on_its_side(image: Image.Image) -> bool:
    """Return whether the file's EXIF data ask for a quarter turn."""
    return _orientation(image) in SIDEWAYS


def _orientation(image: Image.Image) -> int:
    try:
        return int(image.getexif().get(ORIENTATION, 1))
    except Exception:  # noqa: BLE001 - damaged EXIF data raise anything; the picture is still good
        return 1


class Normal(NamedTuple):
    """A picture as it is wanted, and what it took to make it so."""

    image: Image.Image
    remarks: tuple[str, ...]
    """For the person."""
    clear: bool
    """Whether the matte shows through it anywhere."""


def normalise(image: Image.Image, matte: str) -> Normal:
    """Return a decoded ``image`` as upright sRGB on ``matte``."""
    orientation = _orientation(image)
    profile = image.info.get("icc_profile")
    eight = _bearable(_eight_bit(image))
    colours, alpha = _part_alpha(eight)
    colours, remarks = _to_srgb(colours, profile)
    clear = alpha is not None and alpha.getextrema() != (255, 255)
    if alpha is not None:
        colours = _lay_on(colours, alpha, matte)
    return Normal(_turned(colours, orientation), remarks, clear)


def _eight_bit(image: Image.Image) -> Image.Image:
    """Return ``image`` with 8 bits a channel: Pillow would clip deep greys to white."""
    from PIL import ImageChops

    if image.mode.startswith("I;16"):
        return _scaled(image, 65535.0)
    if image.mode in {"I", "F"}:
        _low, high = image.getextrema()
        return _scaled(image, _full_scale(image.mode, float(high)))  # type: ignore[arg-type]
    if image.mode == "CMYK" and image.format == "JPEG" and "adobe" not in image.info:
        # Pillow takes every CMYK JPEG to be inverted, which only Adobe's are.
        return ImageChops.invert(image)
    return image


BAND = 256
"""Rows scaled at a time, so that a deep picture never stands in memory as floats."""


def _full_scale(mode: str, brightest: float) -> float:
    """Return what counts as white where the file does not say: the next usual full scale."""
    usual = (1.0, 255.0, 65535.0) if mode == "F" else (65535.0,)
    if not isfinite(brightest):  # a hole in the picture, or a light beyond all measure
        return usual[0]
    return next((white for white in usual if brightest <= white), brightest)


def _scaled(image: Image.Image, white: float) -> Image.Image:
    import numpy as np
    from PIL import Image

    width, height = image.size
    eight = Image.new("L", image.size)
    for top in range(0, height, BAND):
        box = (0, top, width, min(top + BAND, height))
        band = np.asarray(image.crop(box), dtype=np.float64)
        band = np.nan_to_num(band, nan=0.0, posinf=white, neginf=0.0)
        levels = np.clip(band * (255.0 / white) + 0.5, 0.0, 255.0).astype(np.uint8)
        eight.paste(Image.fromarray(levels), box)
    eight.info = dict(image.info)
    return eight


LARGE = 20_000_000
"""Pixels above which a picture is halved before it is converted: A4 at 300 ppi has 9 million."""


def _bearable(image: Image.Image) -> Image.Image:
    width, height = image.size
    plain = image.mode in {"RGB", "RGBA", "RGBX", "CMYK", "L"} and "transparency" not in image.info
    return image.reduce(2) if plain and width * height > LARGE else image


def _part_alpha(image: Image.Image) -> tuple[Image.Image, Image.Image | None]:
    """Return the colours of ``image`` in a mode that a profile can speak of, and its alpha."""
    if image.mode in {"LA", "La", "RGBA", "RGBa"} or image.has_transparency_data:
        grey = image.mode in {"L", "LA", "La", "1"}
        whole = image.convert("RGBA") if image.mode == "La" else image
        whole = whole.convert("LA" if grey else "RGBA")
        return whole.convert("L" if grey else "RGB"), whole.getchannel("A")
    if image.mode in {"1", "L"}:
        return image.convert("L"), None
    if image.mode in {"CMYK", "LAB"}:
        return image, None
    return image.convert("RGB"), None


NO_PROFILE = "its colour profile could not be used; its colours are taken as sRGB"


def _to_srgb(image: Image.Image, profile: bytes | None) -> tuple[Image.Image, tuple[str, ...]]:
    """Return ``image`` in sRGB, by its embedded ICC profile (littleCMS) where it has one.

    CMYK without a profile is read as ideal inks: each takes away its part of one primary.
    """
    from PIL import ImageCms

    remarks: tuple[str, ...] = ()
    srgb = ImageCms.createProfile("sRGB")
    if image.mode == "LAB":
        lab = ImageCms.createProfile("LAB")
        return _converted(image, ImageCms.ImageCmsProfile(lab), srgb), remarks
    if profile and not (image.mode == "RGB" and is_srgb(profile)):
        try:
            return _converted(image, ImageCms.ImageCmsProfile(BytesIO(profile)), srgb), remarks
        except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
            remarks = (NO_PROFILE,)
    return image.convert("RGB"), remarks


def is_srgb(profile: bytes) -> bool:
    """Return whether an ICC profile is sRGB by what it does; what it calls itself proves nothing.

    A cube of colours has to come out as it went in, to a level.
    """
    import numpy as np
    from PIL import Image, ImageCms

    steps = np.linspace(0, 255, 9).astype(np.uint8)
    cube = np.stack(np.meshgrid(steps, steps, steps), axis=-1).reshape(27, 27, 3)
    try:
        source = ImageCms.ImageCmsProfile(BytesIO(profile))
        out = _converted(Image.fromarray(cube), source, ImageCms.createProfile("sRGB"))
    except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
        return False
    return int(np.abs(np.asarray(out).astype(int) - cube).max()) <= 1


def _converted(image: Image.Image, source: object, srgb: object) -> Image.Image:
    from PIL import ImageCms

    converted = ImageCms.profileToProfile(image, source, srgb, outputMode="RGB")  # type: ignore[arg-type]
    if converted is None:
        raise ValueError("no picture came back")
    return converted


def _lay_on(colours: Image.Image, alpha: Image.Image, matte: str) -> Image.Image:
    from PIL import Image

    ground = Image.new("RGB", colours.size, matte)
    ground.paste(colours, mask=alpha)
    return ground


def _turned(image: Image.Image, orientation: int) -> Image.Image:
    """Return ``image`` turned and mirrored as EXIF's Orientation value asks (CIPA DC-008)."""
    from PIL.Image import Transpose

    way = {
        2: Transpose.FLIP_LEFT_RIGHT,
        3: Transpose.ROTATE_180,
        4: Transpose.FLIP_TOP_BOTTOM,
        5: Transpose.TRANSPOSE,
        6: Transpose.ROTATE_270,
        7: Transpose.TRANSVERSE,
        8: Transpose.ROTATE_90,
    }.get(orientation)
    return image if way is None else image.transpose(way)
