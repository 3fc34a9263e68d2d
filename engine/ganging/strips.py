"""Layouts as a person makes them: alike inserts side by side in strips, the strips stacked.

Not all that a sheet can hold lies in strips; what does is found at once, in many ways, so that
the tidiest can be chosen.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice, permutations, product
from typing import NamedTuple

from engine.ganging.footprints import Field, Footprint, Spot
from engine.ganging.vectors import Counts

_POSES = 32
"""Ways to turn the footprints that are tried; all of them for up to five that may turn."""
_FEW = 3
"""Footprints whose orders are all tried."""


class _Pose(NamedTuple):
    """A footprint as it is to lie."""

    size: int
    width: int
    height: int


def strips(field: Field, sizes: Sequence[Footprint], counts: Counts) -> Iterator[tuple[Spot, ...]]:
    """Yield layouts of ``counts`` in strips across the field, then in strips along it.

    Each begins at the lower left corner and can be cut edge to edge.
    """
    sideways = Field(field.height, field.width)
    turned = [Footprint(size.height, size.width, size.turns) for size in sizes]
    across = _strips(field, sizes, counts)
    along = _strips(sideways, turned, counts)
    yield from across
    for spots in along:
        yield tuple(Spot(s.size, s.y, s.x, s.height, s.width) for s in spots)


def _strips(field: Field, sizes: Sequence[Footprint], counts: Counts) -> Iterator[tuple[Spot, ...]]:
    present = [index for index, count in enumerate(counts) if count]
    ways = [
        [_Pose(i, w, h) for w, h in sizes[i].ways if w <= field.width and h <= field.height]
        for i in present
    ]
    every = [pose for some in ways for pose in some]
    seen: set[tuple[_Pose, ...]] = set()
    for poses in islice(product(*ways), _POSES):
        for order in _orders(poses, counts):
            if order not in seen:
                seen.add(order)
                others = tuple(pose for pose in every if pose not in order)
                spots = _stacked(field, order, others, counts)
                if spots is not None:
                    yield spots


def _orders(poses: tuple[_Pose, ...], counts: Counts) -> Iterator[tuple[_Pose, ...]]:
    """Yield orders in which to begin strips: all of a few, else by height, width or area."""
    if len(poses) <= _FEW:
        yield from permutations(poses)
        return
    for key in (
        lambda pose: -pose.height,
        lambda pose: -pose.width,
        lambda pose: -pose.width * pose.height,
        lambda pose: -pose.width * pose.height * counts[pose.size],
    ):
        yield tuple(sorted(poses, key=key))


def _stacked(
    field: Field, order: tuple[_Pose, ...], others: tuple[_Pose, ...], counts: Counts
) -> tuple[Spot, ...] | None:
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
    return tuple(spots)


def _strip(width: int, y: int, poses: tuple[_Pose, ...], left: list[int]) -> Iterator[Spot]:
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
