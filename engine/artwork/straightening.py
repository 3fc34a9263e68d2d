"""Skewed scans: how far the picture is turned, and turning it back."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL import Image


def straightened(image: Image.Image, turn: float, ground: str) -> Image.Image:
    """Return ``image`` turned by ``turn`` degrees counter-clockwise about its centre.

    Its frame stays as it is; the corners that open are ``ground``.
    """
    from PIL.Image import Resampling

    if not turn:
        return image
    return image.rotate(turn, Resampling.BICUBIC, fillcolor=ground)
