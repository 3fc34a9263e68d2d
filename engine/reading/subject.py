"""What draws the eye in a picture: where a crop should not go.

The spectral residual of Hou and Zhang (2007, 'Saliency detection: a spectral residual approach',
CVPR): what stands out of the amplitude spectrum that pictures have in common. It finds edges and
small things; how far a colour lies from the mean of all (Achanta and others 2009, 'Frequency-tuned
salient region detection', CVPR) finds the bodies of things, and both are weighed by how near the
middle they lie, where people put what they picture.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.model.reading import BINS

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from PIL import Image

    Field = NDArray[np.float64]
    """A number for each pixel, rows of columns."""

SIDE = 64
"""Pixels on the longer side of what is looked at: the scale that Hou and Zhang chose."""

BLUR = 2.5
"""How far the residual is smoothed, in pixels of that picture (theirs)."""

MIDDLE = 0.35
"""Standard deviation of the weight about the middle, as part of the side (common practice, no
published source: people put what they picture near the middle, seldom in it)."""


def find_interest(image: Image.Image) -> Field:
    """Return how much each part of ``image`` draws the eye, BINS by BINS, all of it 1."""
    import cv2
    import numpy as np

    small = _small(image)
    height, width = small.shape[:2]
    lab = cv2.cvtColor(small.astype(np.float32) / 255.0, cv2.COLOR_RGB2LAB).astype(np.float64)
    residual = np.sum([_residual(lab[:, :, band]) for band in range(3)], axis=0)
    apart = np.linalg.norm(cv2.GaussianBlur(lab, (0, 0), 1.0) - lab.mean(axis=(0, 1)), axis=2)
    field = _shares(residual) + _shares(apart)
    y, x = np.mgrid[0:height, 0:width]
    off = ((x + 0.5) / width - 0.5) ** 2 + ((y + 0.5) / height - 0.5) ** 2
    field = _shares(field * np.exp(-off / (2 * MIDDLE**2)))
    binned = cv2.resize(field, (BINS, BINS), interpolation=cv2.INTER_AREA)
    return _shares(np.asarray(binned, dtype=np.float64))


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
    return np.asarray(image.convert("RGB").resize(size, Resampling.BOX))


def _residual(band: Field) -> Field:
    """Return what of a band stands out of its spectrum; nothing where the band is flat."""
    import cv2
    import numpy as np

    if float(np.ptp(band)) < 1.0:
        return np.zeros_like(band)
    spectrum = np.fft.fft2(band)
    amplitude = np.log(np.abs(spectrum) + 1e-6)
    unusual = amplitude - cv2.blur(amplitude, (3, 3))
    back = np.fft.ifft2(np.exp(unusual + 1j * np.angle(spectrum)))
    return _shares(np.asarray(cv2.GaussianBlur(np.abs(back) ** 2, (0, 0), BLUR), np.float64))


def _shares(field: Field) -> Field:
    import numpy as np

    whole = float(field.sum())
    return field / whole if whole > 0 else np.full_like(field, 1.0 / field.size)
