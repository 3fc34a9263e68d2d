"""Sixty different pictures cut from the photographs that ship inside scikit-image's wheel."""

from __future__ import annotations

from functools import cache

import skimage.data
from PIL import Image, ImageOps

SOURCES = (
    "astronaut",
    "coffee",
    "chelsea",
    "rocket",
    "retina",
    "stereo_motorcycle",
    "camera",
    "hubble_deep_field",
    "immunohistochemistry",
    "coins",
)
"""Samples that need no download, none of them like its own mirror image."""

WINDOWS = (
    (0.0, 0.0, 1.0, 1.0),
    (0.1, 0.0, 0.9, 0.75),
    (0.0, 0.2, 0.8, 1.0),
    (0.25, 0.1, 1.0, 0.9),
    (0.1, 0.25, 0.85, 1.0),
    (0.0, 0.0, 0.7, 0.85),
)
"""Parts of a photograph, as fractions from the top left."""

SIZES = (
    (640, 880),
    (900, 640),
    (700, 700),
    (420, 600),
    (1000, 1300),
    (560, 780),
    (800, 600),
    (500, 700),
    (1400, 960),
    (620, 860),
    (720, 960),
)
"""In pixels: their number has no factor in common with the rest, so all combine."""


def photograph(number: int) -> Image.Image:
    """Return the picture of a number from 0, RGB: a part of a photograph, some mirrored."""
    window = number // len(SOURCES) % len(WINDOWS)
    whole = _sample(SOURCES[number % len(SOURCES)])
    left, top, right, bottom = WINDOWS[window]
    part = whole.crop(
        (
            round(left * whole.width),
            round(top * whole.height),
            round(right * whole.width),
            round(bottom * whole.height),
        )
    )
    if window % 2:
        part = ImageOps.mirror(part)
    return ImageOps.fit(part, SIZES[number % len(SIZES)], Image.Resampling.BICUBIC)


@cache
def _sample(name: str) -> Image.Image:
    found = getattr(skimage.data, name)()
    return Image.fromarray(found[0] if isinstance(found, tuple) else found).convert("RGB")
