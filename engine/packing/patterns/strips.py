"""Layouts as a person makes them: alike rectangles side by side in strips, the strips stacked.

Not all that a field can hold lies in strips; what does is found at once, in many ways, so that
the tidiest can be chosen.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice, product

from engine.packing.patterns.tidiness import Spots
from engine.packing.rectangles import Counts, Field, Footprint, Spot, flipped

_TURNED = 32
"""Ways to turn the footprints that are tried; all of them for up to five that may turn."""

_Pose = tuple[int, int, int]
"""A footprint, and its sides as it is to lie."""


def strips(field: Field, sizes: Sequence[Footprint], counts: Counts) -> Iterator[Spots]:
    """Yield layouts of ``counts`` in strips across the field, then in strips along it.

    Each begins at the lower left corner and can be cut edge to edge. Strips begin with the
    highest, the widest, the largest, or what takes most room together.
    """
    for upright in (True, False):
        (width, height), turned = (field, sizes) if upright else flipped(field, sizes)
        ways = [[(n, *way) for way in size.ways] for n, size in enumerate(turned) if counts[n]]
        every = [pose for some in ways for pose in some if pose[1] <= width and pose[2] <= height]
        orders: dict[tuple[_Pose, ...], None] = {}
        for poses in islice(product(*([p for p in some if p in every] for some in ways)), _TURNED):
            orders[tuple(sorted(poses, key=lambda p: -p[2]))] = None
            orders[tuple(sorted(poses, key=lambda p: -p[1]))] = None
            orders[tuple(sorted(poses, key=lambda p: -p[1] * p[2]))] = None
            orders[tuple(sorted(poses, key=lambda p: -p[1] * p[2] * counts[p[0]]))] = None
        for order in orders:
            others = [pose for pose in every if pose not in order]
            spots = _stacked(width, height, order, others, counts)
            if spots is not None:
                yield tuple(spots if upright else (spot.flipped for spot in spots))


def _stacked(
    width: int, height: int, order: Sequence[_Pose], others: Sequence[_Pose], counts: Counts
) -> list[Spot] | None:
    """Return strips of ``order``, one above the other, None if they do not hold everything.

    What room is left in a strip is filled up, with ``others`` too.
    """
    left = list(counts)
    spots: list[Spot] = []
    y = 0
    for first in order:
        while left[first[0]]:
            if y + first[2] > height:
                return None
            x = 0
            for size, w, h in (first, *order, *others):
                while first[2] >= h and left[size] and x + w <= width:
                    here = min(first[2] // h, left[size])
                    left[size] -= here
                    spots += [Spot(size, x, y + n * h, w, h) for n in range(here)]
                    x += w
            y += first[2]
    return spots
