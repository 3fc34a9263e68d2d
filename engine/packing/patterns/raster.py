"""Where cuts are worth trying: the few positions that decide what fits beside what.

Two lengths of paper are alike when the same inserts fit along them, so only sums of insert
sides matter (Herz, IBM Journal of Research and Development 16(5), 1972), and of those only
the ones that answer to another such sum at the far end of the sheet: the raster points of
Scheithauer and Terno, European Journal of Operational Research 88(1), 1996.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence


def sums(lengths: Iterable[int], limit: int) -> tuple[int, ...]:
    """Return every sum of any number of ``lengths`` up to ``limit``, from 0, in order."""
    reached = 1
    window = (1 << (limit + 1)) - 1
    for length in sorted(set(lengths)):
        for _ in range(limit // length):
            reached |= (reached << length) & window
    return tuple(at for at in range(limit + 1) if reached >> at & 1)


def raster(lengths: Iterable[int], limit: int) -> tuple[int, ...]:
    """Return the raster points of a side ``limit`` long, from 0, in order.

    Every arrangement along the side can be cut at these positions only, and every piece of
    it shortened to one of them, without losing an insert: if some inserts need the length a
    and the rest b, both can be given the longest sum that leaves the other its own. That holds
    for parts of parts too because any two sums add up to another, so the number of inserts
    that are there must not limit the sums.
    """
    normal = sums(lengths, limit)
    return tuple(sorted({normal[bisect_right(normal, limit - at) - 1] for at in normal}))


def joints(points: Sequence[int]) -> tuple[tuple[tuple[int, int], ...], ...]:
    """Return for each of ``points`` the pairs of points (by index) that first fit into it.

    A pair p <= q stands at the lowest point that is at least as long as both together.
    """
    found: list[list[tuple[int, int]]] = [[] for _ in points]
    for p in range(1, len(points)):
        for q in range(p, len(points)):
            both = points[p] + points[q]
            if both > points[-1]:
                break
            found[bisect_left(points, both)].append((p, q))
    return tuple(map(tuple, found))
