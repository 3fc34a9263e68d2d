"""Real photographs and textures to test with: those that ship inside scikit-image's wheel."""

from __future__ import annotations

from functools import cache

import numpy as np
import skimage.data
from PIL import Image

COLOUR = ("astronaut", "coffee", "chelsea", "rocket", "hubble_deep_field", "immunohistochemistry")
GREY = ("camera", "brick", "grass", "gravel", "moon", "coins", "clock", "cell")
PAPER = ("page", "text", "horse", "logo")
ALL = COLOUR + GREY + PAPER


@cache
def photo(name: str, side: int = 400) -> Image.Image:
    """Return the sample ``name`` as RGB on white, its longer side at most ``side`` pixels."""
    pixels = getattr(skimage.data, name)()
    if pixels.dtype == bool:
        pixels = pixels.astype(np.uint8) * 255
    image = Image.fromarray(pixels)
    if image.mode == "RGBA":
        image = Image.alpha_composite(Image.new("RGBA", image.size, "white"), image)
    image = image.convert("RGB")
    image.thumbnail((side, side))
    return image


def levels(image: Image.Image) -> np.ndarray:
    """Return ``image`` as an array of signed numbers, so that differences do not wrap."""
    return np.asarray(image.convert("RGB"), dtype=np.int16)


def mean_difference(a: Image.Image, b: Image.Image) -> float:
    """Return the mean difference of two pictures of one size, in levels of 0 to 255."""
    assert a.size == b.size
    return float(np.abs(levels(a) - levels(b)).mean())
