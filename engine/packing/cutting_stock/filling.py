"""Sheets filled with one rectangle after the other, each cut edge to edge: best fit.

Each goes into the free rectangle that it suits best, and what remains of that is cut in two
(Jylänki, A thousand ways to pack the bin, 2010, has the rules for both, from older sources).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import product

from engine.packing.rectangles import Counts, Field, Footprint

FitRule = tuple[int, int]
"""How a free rectangle is chosen (0 the shortest leftover side, 1 the least leftover area, 2 the
shortest longer side), and how what remains of it is cut (0 to 5: along what was laid by its width
or its height, by one of three comparisons)."""
RULES: tuple[FitRule, ...] = tuple(product(range(3), range(6)))

_Free = tuple[int, int, int]
"""A free rectangle: its sheet, width and height."""
_Place = tuple[int, int, int]
"""A free rectangle by its place in the list, and the sides of what lies in it."""


def fill(
    field: Field, sizes: Sequence[Footprint], order: Iterable[int], rule: FitRule
) -> tuple[Counts, ...]:
    """Return the patterns of the sheets that ``sizes`` fill, placed in the ``order`` given.

    Raises ValueError for one that does not fit.
    """
    choice, cut = rule
    sheets: list[list[int]] = []
    free: list[_Free] = []
    for index in order:
        place = _best(free, sizes[index], choice)
        if place is None:
            free.append((len(sheets), *field))
            sheets.append([0] * len(sizes))
            place = _best(free, sizes[index], choice)
        if place is None:
            raise ValueError(f"{sizes[index]} does not fit {field}")
        at, w, h = place
        sheet, width, height = free[at]
        free[at] = free[-1]
        free.pop()
        sheets[sheet][index] += 1
        free += [(sheet, *part) for part in _remains(width, height, w, h, cut)]
    return tuple(map(tuple, sheets))


def _best(free: Sequence[_Free], size: Footprint, choice: int) -> _Place | None:
    """Return which free rectangle to take, and which way ``size`` lies there."""
    least: int | None = None
    best: _Place | None = None
    for at, (_, width, height) in enumerate(free):
        for w, h in size.ways:
            if w <= width and h <= height:
                if choice == 1:
                    rest = width * height - w * h
                else:
                    rest = (max if choice else min)(width - w, height - h)
                if least is None or rest < least:
                    least, best = rest, (at, w, h)
    return best


def _remains(width: int, height: int, w: int, h: int, cut: int) -> Iterator[tuple[int, int]]:
    """Yield what remains of a free rectangle beside and above what lies in it."""
    beside, above = width - w, height - h
    level = (beside < above, width < height, w * above > h * beside)[cut // 2]
    high = level == bool(cut % 2)
    if beside:
        yield beside, height if high else h
    if above:
        yield w if high else width, above
