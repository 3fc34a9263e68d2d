"""Screenshots: pixel art, often enlarged by a whole factor before anyone saved it."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL import Image

MAX_DOT = 8
"""The largest enlargement looked for, in pixels to a side of one dot."""

MAX_COLOURS = 64
"""The most colours of a screen that is called pixel art; handhelds of the cartridge years show 4
to 56 at a time (memory, no published source)."""

MAX_SIDE = 320
"""Dots on the longer side of a screen that is called pixel art."""


def dot_size(image: Image.Image) -> int:
    """Return pixels to a side of one dot of a screenshot; 0 where ``image`` is no pixel art.

    Pixel art has few colours in all and squares of one colour only; a photograph fails the first,
    a drawing with smooth edges too, and a large flat graphic has too many dots.
    """
    if max(image.size) > MAX_SIDE * MAX_DOT or image.getcolors(MAX_COLOURS) is None:
        return 0
    dot = _enlargement(image)
    return dot if max(image.size) <= MAX_SIDE * dot else 0


def one_pixel_a_dot(image: Image.Image) -> Image.Image:
    """Return a screenshot at its own size, one pixel for each of its dots."""
    from PIL.Image import Resampling

    dot = max(1, dot_size(image))
    size = (max(1, image.width // dot), max(1, image.height // dot))
    return image.resize(size, Resampling.NEAREST) if dot > 1 else image


def _enlargement(image: Image.Image) -> int:
    """Return the largest factor by which every square of ``image`` is a single colour."""
    import numpy as np

    pixels = np.asarray(image.convert("RGB"))
    for dot in range(MAX_DOT, 1, -1):
        height, width = (side - side % dot for side in pixels.shape[:2])
        if (height, width) != pixels.shape[:2]:
            continue
        squares = pixels.reshape(height // dot, dot, width // dot, dot, 3)
        if (squares == squares[:, :1, :, :1]).all():
            return dot
    return 1
