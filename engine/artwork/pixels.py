"""Pictures as arrays of OKLab, a perceptual space, and the colours that dominate them.

OKLab: Björn Ottosson, 'A perceptual color space for image processing', 2020; the two matrices
are his, for linear sRGB. L runs from 0 to 1; a and b to about 0.3 either way.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.colours.arrays import encoded, linear
from engine.colours.colour import hex_colour

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from PIL import Image

    Pixels = NDArray[np.floating[Any]]
    """Any shape whose last axis is L, a, b; single precision where there are many."""

TO_CONES = (
    (0.4122214708, 0.5363325363, 0.0514459929),
    (0.2119034982, 0.6806995451, 0.1073969566),
    (0.0883024619, 0.2817188376, 0.6299787005),
)

TO_LAB = (
    (0.2104542553, 0.7936177850, -0.0040720468),
    (1.9779984951, -2.4285922050, 0.4505937099),
    (0.0259040371, 0.7827717662, -0.8086757660),
)

SPREAD = 0.06
"""Two colours nearer than this in OKLab belong to one flat area: about three just noticeable
differences, the noise of a scan or of JPEG."""


def oklab(image: Image.Image) -> Pixels:
    """Return an RGB ``image`` as an array of height × width × 3."""
    import numpy as np

    return from_levels(np.asarray(image.convert("RGB"), dtype=np.uint8))


def from_levels(levels: NDArray[np.uint8]) -> Pixels:
    """Return sRGB ``levels`` of 0 to 255, in any shape whose last axis is R, G, B, as OKLab."""
    import numpy as np

    light = np.take(linear(np.arange(256)).astype(np.float32), levels)
    cones = np.cbrt(light @ np.array(TO_CONES, dtype=np.float32).T)
    return np.asarray(cones @ np.array(TO_LAB, dtype=np.float32).T)


def distance(one: Pixels, other: Pixels) -> Pixels:
    """Return how far colours lie apart in OKLab, over the last axis."""
    import numpy as np

    squares = np.square(one - other)
    return np.asarray(np.sqrt(squares[..., 0] + squares[..., 1] + squares[..., 2]))


def to_hex(lab: Pixels) -> str:
    """Return one OKLab colour as ``#rrggbb``, held within sRGB."""
    import numpy as np

    cones = np.linalg.solve(np.array(TO_LAB), np.asarray(lab, dtype=np.float64)) ** 3
    red, green, blue = encoded(np.linalg.solve(np.array(TO_CONES), cones))
    return hex_colour(red, green, blue)


def dominant(pixels: Pixels) -> tuple[Pixels, float]:
    """Return the colour most of ``pixels`` are near to, and the share that is: 0 to 1.

    The fullest cell of a coarse grid, cells counted with their neighbours, then the mean of what
    lies within SPREAD of it, moved until it rests: a mode, so that a strip of two colours gives
    the larger one and never a mud between them.
    """
    import numpy as np

    flat = pixels.reshape(-1, 3)
    centre = _fullest_cell(flat)
    near = np.ones(len(flat), dtype=bool)
    for _ in range(8):
        near = distance(flat, centre) < SPREAD
        if not near.any():
            break
        moved = flat[near].mean(axis=0)
        if np.allclose(moved, centre, atol=1e-4):
            break
        centre = moved
    return centre, float(near.mean())


MOST_COLOURS = 5
LEAST_SHARE = 0.03
"""Part of a picture that a main colour covers at least."""


def main_colours(pixels: Pixels) -> list[Pixels]:
    """Return up to MOST_COLOURS colours that ``pixels`` are made of, the most striking first.

    Each is the dominant colour of what the ones before it leave. Striking is what covers much and
    has much chroma: a person names a cover by its red, not by its larger grey.
    """
    import numpy as np

    flat = pixels[::3, ::3].reshape(-1, 3)
    rest = flat
    found: list[tuple[float, Pixels]] = []
    while len(found) < MOST_COLOURS and len(rest) > LEAST_SHARE * len(flat):
        centre, _ = dominant(rest)
        near = distance(rest, centre) < 2 * SPREAD
        if near.sum() < LEAST_SHARE * len(flat):
            break
        striking = near.sum() / len(flat) * (0.05 + np.hypot(*centre[1:]))
        found.append((float(striking), centre))
        rest = rest[~near]
    return [centre for _, centre in sorted(found, key=lambda each: -each[0])]


def _fullest_cell(flat: Pixels) -> Pixels:
    import numpy as np

    cells = np.floor((flat - (0.0, -0.5, -0.5)) / SPREAD).astype(np.int64) + 1
    side = int(np.ceil(1.0 / SPREAD)) + 3
    grid = np.zeros((side, side, side))
    np.add.at(grid, tuple(np.clip(cells, 1, side - 2).T), 1.0)
    for axis in range(3):
        grid = grid + 0.5 * (np.roll(grid, 1, axis) + np.roll(grid, -1, axis))
    best = np.array(np.unravel_index(int(grid.argmax()), grid.shape))
    return np.asarray((best - 0.5) * SPREAD + (0.0, -0.5, -0.5), dtype=np.float64)
