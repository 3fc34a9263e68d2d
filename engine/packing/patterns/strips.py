"""Layouts as a person makes them: alike rectangles side by side in strips, the strips stacked.

Not all that a field can hold lies in strips; what does is found at once, in many ways, so that
the tidiest can be chosen.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice, permutations, product
from typing import NamedTuple

from engine.packing.patterns.tidiness import Spots
from engine.packing.rectangles import Counts, Field, Footprint, Spot

_POSES = 32
"""Ways to turn the footprints that are tried; all of them for up to five that may turn."""
_FEW = 3
"""Footprints whose orders are all tried."""


class _Pose(NamedTuple):
    """A footprint as it is to lie."""

    size: int
    width: int
    height: int


_Poses = tuple[_Pose, ...]


def strips(field: Field, sizes: Sequence[Footprint], counts: Counts) -> Iterator[Spots]:
    """Yield layouts of ``counts`` in strips across the field, then in strips along it.

    Each begins at the lower left corner and can be cut edge to edge.
    """
    for upright in (True, False):
        flat = field if upright else Field(field.height, field.width)
        ways = [
            [
                pose if upright else _Pose(index, pose.height, pose.width)
                for pose in (_Pose(index, *way) for way in size.ways)
                if pose.width <= field.width and pose.height <= field.height
            ]
            for index, size in enumerate(sizes)
            if counts[index]
        ]
        for order in dict.fromkeys(
            order for poses in islice(product(*ways), _POSES) for order in _orders(poses, counts)
        ):
            others = tuple(pose for some in ways for pose in some if pose not in order)
            spots = _stacked(flat, order, others, counts)
            if spots is not None:
                yield tuple(spots if upright else (spot.flipped for spot in spots))


def _orders(poses: _Poses, counts: Counts) -> Iterator[_Poses]:
    """Yield orders in which to begin strips: all of a few, else by height, width or area."""
    if len(poses) <= _FEW:
        yield from permutations(poses)
        return
    yield tuple(sorted(poses, key=lambda pose: -pose.height))
    yield tuple(sorted(poses, key=lambda pose: -pose.width))
    yield tuple(sorted(poses, key=lambda pose: -pose.width * pose.height))
    yield tuple(sorted(poses, key=lambda pose: -pose.width * pose.height * counts[pose.size]))


def _stacked(field: Field, order: _Poses, others: _Poses, counts: Counts) -> list[Spot] | None:
    """Return strips of ``order``, one above the other, None if they do not hold everything.

    What room is left in a strip is filled up, with ``others`` too.
    """
    left = list(counts)
    spots: list[Spot] = []
    y = 0
    for first in order:
        while left[first.size]:
            if y + first.height > field.height:
                return None
            spots += _strip(field.width, y, (first, *order, *others), left)
            y += first.height
    return spots


def _strip(width: int, y: int, poses: _Poses, left: list[int]) -> Iterator[Spot]:
    """Yield one strip as high as the first of ``poses``, and take what it holds off ``left``."""
    x = 0
    for pose in poses:
        high = poses[0].height // pose.height
        while high and left[pose.size] and x + pose.width <= width:
            here = min(high, left[pose.size])
            left[pose.size] -= here
            for n in range(here):
                yield Spot(pose.size, x, y + n * pose.height, pose.width, pose.height)
            x += pose.width
