"""Which of several layouts of the same pattern is the tidiest: the one place that decides it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from engine.packing.rectangles import Field, Spot

Spots = tuple[Spot, ...]
KEPT = 919, 1300
"""The smallest block worth keeping, in tenths of a millimetre: the smallest photo paper that home
printers usually feed, 3.5 by 5 inches, and 3 mm for a bleed (common practice, no published
source)."""


class Untidiness(NamedTuple):
    """How untidy a layout is; the least is the best."""

    block: int
    """Less the area of the largest block that stays blank at the far corner; 0 if it is too
    small to be kept."""
    poses: int
    """Distinct sides across and along: the fewer, the more lie alike and the fewer settings
    does it take to cut them."""
    extent: int
    """The area of the rectangle around everything."""


def untidiness(field: Field, spots: Sequence[Spot]) -> Untidiness:
    """Return how untidy a layout is that begins at the lower left corner of ``field``."""
    right = max((spot.x + spot.width for spot in spots), default=0)
    top = max((spot.y + spot.height for spot in spots), default=0)
    poses = {(spot.width, spot.height) for spot in spots}
    return Untidiness(-_block(field, spots), len(poses), right * top)


def tidiest(field: Field, layouts: Iterable[Spots]) -> Spots | None:
    """Return the tidiest of ``layouts``, None if there are none."""
    return min(layouts, key=lambda spots: (untidiness(field, spots), spots), default=None)


def _block(field: Field, spots: Sequence[Spot]) -> int:
    """Return the area of the largest block at the far corner that two cuts take off, or 0."""
    largest = 0
    for x in {0} | {spot.x + spot.width for spot in spots}:
        y = max((spot.y + spot.height for spot in spots if spot.x + spot.width > x), default=0)
        width, height = field.width - x, field.height - y
        short, long = sorted((width, height))
        if width * height > largest and short >= KEPT[0] and long >= KEPT[1]:
            beside = all(spot.x >= x or spot.x + spot.width <= x for spot in spots)
            above = all(spot.y >= y or spot.y + spot.height <= y for spot in spots)
            if beside or above:
                largest = width * height
    return largest
