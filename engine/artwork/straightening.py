"""Skewed scans: turning a picture back by the angle that was found for it."""

from __future__ import annotations

from math import ceil, radians, sin
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL import Image


def straightened(image: Image.Image, turn: float) -> Image.Image:
    """Return ``image`` turned by ``turn`` degrees counter-clockwise about its centre.

    Its frame stays as it is; what comes in at the corners is its outermost pixels drawn out, which
    around a scan is more of the scanner's background.
    """
    import numpy as np
    from PIL import Image as Pillow

    if not turn:
        return image
    room = ceil(max(image.size) * sin(radians(min(abs(turn), 90.0))) / 2) + 2
    wide = np.pad(np.asarray(image), ((room, room), (room, room), (0, 0)), mode="edge")
    turned = Pillow.fromarray(wide).rotate(turn, Pillow.Resampling.BICUBIC)
    return turned.crop((room, room, room + image.width, room + image.height))
