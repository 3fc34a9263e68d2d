"""What draws the eye in a picture: where a crop should not go.

What is unlike the picture's own rim: grounds and skies run out of a picture, what it is about
seldom does (the boundary prior of Wei and others 2012, 'Geodesic saliency using background
priors', ECCV). It is weighed by how near the middle it lies, where people put what they picture.
Lettering is painted over first: it is kept whole for its own sake, and would outshine the rest.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor
from typing import TYPE_CHECKING, Any

from engine.model.reading import BINS

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from PIL import Image

    Field = NDArray[np.float64]
    """A number for each pixel, rows of columns."""

SIDE = 64
"""Pixels on the longer side of what is looked at."""

RIM = 0.06
"""How deep the rim is, as part of the shorter side."""

COLOURS = 6
"""Colours that the rim is taken to be made of."""

SHARPLY = 2.0
"""The power to which a colour's distance from the rim's counts. This, RIM and COLOURS are those
with which windows on drawn covers hold most subjects (``tests.bench.blind``)."""

MIDDLE = 0.35
"""Standard deviation of the weight about the middle, as part of the side (common practice, no
published source: people put what they picture near the middle, seldom in it)."""

AROUND = 0.7
"""Pixels around lettering that are painted over with it."""

Box = tuple[float, float, float, float]
"""Left, top, right and bottom, in fractions of the picture."""


def find_interest(image: Image.Image, lettering: Sequence[Box] = ()) -> Field:
    """Return how much each part of ``image`` draws the eye, BINS by BINS, all of it 1."""
    import cv2
    import numpy as np

    small = _without(lettering, _small(image))
    height, width = small.shape[:2]
    lab = cv2.cvtColor(small.astype(np.float32) / 255.0, cv2.COLOR_RGB2LAB)
    calm = cv2.GaussianBlur(lab, (0, 0), 1.0)
    apart = np.min([np.linalg.norm(calm - each, axis=2) for each in _rim(lab)], axis=0)
    y, x = np.mgrid[0:height, 0:width]
    off = ((x + 0.5) / width - 0.5) ** 2 + ((y + 0.5) / height - 0.5) ** 2
    field = _shares(apart**SHARPLY * np.exp(-off / (2 * MIDDLE**2)))
    binned = cv2.resize(field, (BINS, BINS), interpolation=cv2.INTER_AREA)
    return _shares(np.asarray(binned, dtype=np.float64))


def _without(lettering: Sequence[Box], small: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Return a picture with its lettering painted over from what lies around it."""
    import cv2
    import numpy as np

    height, width = small.shape[:2]
    mask = np.zeros((height, width), dtype=np.uint8)
    for left, top, right, bottom in lettering:
        rows = slice(max(0, floor(top * height - AROUND)), ceil(bottom * height + AROUND))
        columns = slice(max(0, floor(left * width - AROUND)), ceil(right * width + AROUND))
        mask[rows, columns] = 255
    return np.asarray(cv2.inpaint(small, mask, 3, cv2.INPAINT_TELEA), dtype=np.uint8)


def _rim(lab: Any) -> Any:
    """Return the colours of the picture's rim, the same ones each time."""
    import cv2
    import numpy as np

    deep = max(2, int(RIM * min(lab.shape[:2])))
    strips = (lab[:deep], lab[-deep:], lab[:, :deep], lab[:, -deep:])
    rim = np.concatenate([strip.reshape(-1, 3) for strip in strips]).astype(np.float32)
    cv2.setRNGSeed(1)
    stop = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_MAX_ITER, 20, 0.5)
    return cv2.kmeans(rim, COLOURS, None, stop, 2, cv2.KMEANS_PP_CENTERS)[2]  # type: ignore[call-overload]


def profiles(field: Field) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Return how much draws the eye by columns and by rows, each in thousandths of all."""
    return _thousandths(field.sum(axis=0)), _thousandths(field.sum(axis=1))


def _thousandths(parts: Field) -> tuple[int, ...]:
    return tuple(round(1000.0 * float(part)) for part in parts)


def _small(image: Image.Image) -> NDArray[np.uint8]:
    import numpy as np
    from PIL.Image import Resampling

    scale = SIDE / max(image.size)
    size = max(8, round(image.width * scale)), max(8, round(image.height * scale))
    return np.ascontiguousarray(image.convert("RGB").resize(size, Resampling.BOX))


def _shares(field: Field) -> Field:
    import numpy as np

    whole = float(field.sum())
    return field / whole if whole > 0 else np.full_like(field, 1.0 / field.size)
