"""Whether rectangles keep apart and can be cut out, from their coordinates alone."""

from collections.abc import Sequence
from itertools import pairwise

from engine.ganging import Laid
from engine.packing.rectangles import Spot

NEAR = 1e-6
Lying = Laid | Spot


def apart(one: Lying, other: Lying) -> float:
    """The wider of the gaps between two, across and along."""
    across = max(other.x - one.x - one.width, one.x - other.x - other.width)
    along = max(other.y - one.y - one.height, one.y - other.y - other.height)
    return max(across, along)


def separable(laid: Sequence[Lying]) -> bool:
    """Whether edge-to-edge cuts can free each."""
    if len(laid) < 2:
        return True
    for start, size in (("x", "width"), ("y", "height")):
        spans = sorted(
            (getattr(o, start), getattr(o, start) + getattr(o, size), n) for n, o in enumerate(laid)
        )
        reach = spans[0][1]
        for before, after in pairwise(spans):
            reach = max(reach, before[1])
            if after[0] >= reach - NEAR:
                first = [one for one in laid if getattr(one, start) < after[0] - NEAR]
                rest = [one for one in laid if getattr(one, start) >= after[0] - NEAR]
                return separable(first) and separable(rest)
    return False
