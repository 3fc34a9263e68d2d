"""A bound on the sheets that holds however the rectangles lie: dual feasible functions.

A function of a length is dual feasible when lengths that fit together into a whole never come to
more than the whole has. Widths by one and heights by another then make areas that fit one field
for every pattern, so that all that is wanted needs at least its area divided by that (Fekete and
Schepers, Mathematical Programming 91(1), 2001; Carlier, Clautiaux and Moukrim, Computers &
Operations Research 34(8), 2007). Plain area is one of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import TYPE_CHECKING, Any

from engine.packing.patterns.raster import sums
from engine.packing.rectangles import Counts, Field, Footprint

if TYPE_CHECKING:
    from numpy.typing import NDArray

_PARTS = range(1, 7)


def least_sheets(field: Field, sizes: Sequence[Footprint], wanted: Counts) -> int:
    """Return a number of sheets that no placement of ``wanted`` can do with fewer than.

    Each that is wanted must fit the field.
    """
    import numpy as np

    some = [(*size, n) for size, n in zip(sizes, wanted, strict=True) if n]
    if not some:
        return 0
    width, height, turns, counts = np.array(some).T
    upright = (width <= field.width) & (height <= field.height)
    lying = (turns > 0) & (height <= field.width) & (width <= field.height)
    # Nothing reaches further than the longest sum of sides.
    across = sums([*width[upright].tolist(), *height[lying].tolist()], field.width)[-1]
    along = sums([*height[upright].tolist(), *width[lying].tolist()], field.height)[-1]
    most = 0
    by_width = list(_functions(across, np.stack([width, height])))
    by_height = list(_functions(along, np.stack([height, width])))
    for (xs, x_whole), (ys, y_whole) in product(by_width, by_height):
        both = np.where([upright, lying], xs * ys, x_whole * y_whole)
        area = int((counts * both.min(axis=0)).sum())
        most = max(most, -(-area // (x_whole * y_whole)))
    return most


def _functions(whole: int, lengths: NDArray[Any]) -> Iterator[tuple[NDArray[Any], int]]:
    """Yield each function of ``lengths``, as whole numbers, and of ``whole``."""
    import numpy as np

    for parts in _PARTS:
        scaled = (parts + 1) * lengths
        yield np.where(scaled % whole, scaled // whole * whole, lengths * parts), whole * parts
    yield lengths, whole
    every = {int(x) for x in lengths.flat if x <= whole}
    for least in sorted({x for x in every if 2 * x <= whole} | {whole - x for x in every} - {0}):
        if 2 * least <= whole:
            small = lengths < least
            yield np.where(lengths > whole - least, whole, np.where(small, 0, lengths)), whole
            many = whole // least
            large = many - (whole - lengths) // least
            yield np.where(2 * lengths > whole, large, np.where(small, 0, 1)), many
