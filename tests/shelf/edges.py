"""Edges measured on a picture of the shelf: where each was found, and how large."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from engine.model import Size
from engine.shelf.laying import Laid, Spot

_BESIDE = 6.0
"""How far beside its spot an edge is looked for, in mm: a tone between two others lies farther."""


class Measured(NamedTuple):
    spot: Spot
    size: Size
    left: int
    """In pixels, as ``top`` is."""
    top: int


def measured(
    pixels: NDArray[np.uint8], laid: Laid, colours: Mapping[str, str], per_mm: float
) -> Iterator[Measured]:
    """Yield each edge as it is found by its own colour around the middle of its spot."""
    for spot in laid.spots:
        if not spot.item.game:
            continue
        colour = [int(colours[spot.item.game][n : n + 2], 16) for n in (1, 3, 5)]
        x, y, width, height = spot.rect
        row = round((laid.size.height - y - height / 2) * per_mm)
        column = round((x + width / 2) * per_mm)
        across = _found(pixels[row], colour, column, (width / 2 + _BESIDE) * per_mm)
        up = _found(pixels[:, column], colour, row, (height / 2 + _BESIDE) * per_mm)
        size = Size(*((found[-1] - found[0] + 1) / per_mm for found in (across, up)))
        yield Measured(spot, size, int(across[0]), int(up[0]))


def _found(
    line: NDArray[np.uint8], colour: list[int], middle: int, reach: float
) -> NDArray[np.intp]:
    """Return the pixels of a line, so far around its middle, that have a colour, or nearly."""
    start = max(0, round(middle - reach))
    near = line[start : round(middle + reach)].astype(int)
    return start + np.flatnonzero((abs(near - colour) <= 2).all(axis=1))
