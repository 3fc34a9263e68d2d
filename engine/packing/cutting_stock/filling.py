"""Sheets filled one rectangle after the other, each cut edge to edge: best fit.

Each goes into the free rectangle that it suits best, and what remains of that is cut in two
(Jylänki, A thousand ways to pack the bin, 2010, has the rules for both, from older sources).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import product
from typing import NamedTuple

from engine.packing.rectangles import Counts, Field, Footprint

Order = list[int]
"""Indices of footprints in the order in which to place them."""


class FitRule(NamedTuple):
    """How a free rectangle is chosen, and how what remains of it is cut."""

    choice: int
    """0 the shortest leftover side, 1 the least leftover area, 2 the shortest longer side."""
    cut: int
    """0 to 5: along what was laid by its width or its height, by one of three comparisons."""


RULES = tuple(FitRule(*rule) for rule in product(range(3), range(6)))


class _Place(NamedTuple):
    """A free rectangle by its place in the list, and the sides of what lies in it."""

    at: int
    width: int
    height: int


class Filler:
    """Fills sheets of one field."""

    def __init__(self, field: Field, sizes: Sequence[Footprint]) -> None:
        """Prepare to place any of ``sizes``, which must fit ``field``."""
        self.field, self.sizes = field, tuple(sizes)
        empty = [(0, *field)]
        self.first = [[_best(empty, size, choice) for size in sizes] for choice in range(3)]
        """By choice and footprint, how it lies on an empty sheet."""

    def fill(self, order: Order, rule: FitRule) -> tuple[Counts, ...]:
        """Return the patterns of the sheets that ``order`` fills."""
        sheets: list[list[int]] = []
        free: list[tuple[int, int, int]] = []
        for index in order:
            place = _best(free, self.sizes[index], rule.choice)
            if place is None:
                place = self.first[rule.choice][index]
                if place is None:
                    raise ValueError(f"{self.sizes[index]} does not fit {self.field}")
                place = place._replace(at=len(free))
                free.append((len(sheets), *self.field))
                sheets.append([0] * len(self.sizes))
            at, w, h = place
            sheet, width, height = free[at]
            free[at] = free[-1]
            free.pop()
            sheets[sheet][index] += 1
            for part in _remains(width, height, w, h, rule.cut):
                if part[0] and part[1]:
                    free.append((sheet, *part))
        return tuple(map(tuple, sheets))


def _best(free: Iterable[tuple[int, int, int]], size: Footprint, choice: int) -> _Place | None:
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
                    least, best = rest, _Place(at, w, h)
    return best


def _remains(
    width: int, height: int, w: int, h: int, cut: int
) -> tuple[tuple[int, int], tuple[int, int]]:
    """Return the two rectangles that remain of a free one beside and above what lies in it."""
    beside, above = width - w, height - h
    level = (beside < above, width < height, w * above > h * beside)[cut // 2]
    if level == bool(cut % 2):
        return (beside, height), (w, above)
    return (beside, h), (width, above)
