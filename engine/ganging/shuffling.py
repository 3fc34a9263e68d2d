"""Sheets filled one insert after the other: quick, and good where hardly two are alike.

Each insert goes into the free rectangle that it suits best, the largest first, and what remains
of that rectangle is cut in two. Many orders are tried, and the best of them are shuffled a
little again and again for as long as that takes nothing away. All cuts run from edge to edge.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import product
from random import Random
from typing import NamedTuple

from engine.ganging.footprints import Field, Footprint
from engine.ganging.vectors import Counts, total
from engine.ganging.waiting import Cancel, go_on

_STARTS = 8
"""Orders that are shuffled further."""

_Order = list[int]
"""Indices of footprints in the order in which to place them."""

_ORDERS: tuple[Callable[[Footprint], int], ...] = (
    lambda size: -size.area,
    lambda size: -max(size.width, size.height),
    lambda size: -size.width - size.height,
    lambda size: -size.height,
    lambda size: -size.width,
)


class _Habit(NamedTuple):
    """How a free rectangle is chosen, and how what remains of it is cut."""

    choice: int
    """0 the shortest leftover side, 1 the least leftover area, 2 the shortest longer side."""
    cut: int
    """0 to 5: along the insert's width or its height, by one of three comparisons."""


_HABITS = tuple(_Habit(*habit) for habit in product(range(3), range(6)))


_Free = tuple[int, int, int]
"""A free rectangle: its sheet, width and height."""


class _Place(NamedTuple):
    """A free rectangle by its place in the list, and the sides of an insert as it lies there."""

    at: int
    width: int
    height: int


class _Filling(NamedTuple):
    """How good a filling is: fewer sheets, then less on the emptiest."""

    sheets: int
    emptiest: int
    contents: tuple[Counts, ...]


class Shuffler:
    """Fills sheets with what is wanted, in one order after another."""

    def __init__(
        self, field: Field, sizes: Sequence[Footprint], wanted: Counts, cancel: Cancel | None
    ) -> None:
        """Prepare to place ``wanted`` of each of ``sizes``, which must fit ``field``."""
        self.field = field
        self.sizes = tuple(sizes)
        self.areas = [size.area for size in sizes]
        self.cancel = cancel
        self.inserts = [index for index, count in enumerate(wanted) for _ in range(count)]
        self.random = Random(1)  # noqa: S311 - the same shuffles every time are what is wanted
        self.contents: set[Counts] = set()
        """Every content of a sheet that came up."""
        self.on_new = [[_first(field, size, choice) for size in sizes] for choice in range(3)]
        """By choice and footprint, which way an insert lies on an empty sheet."""
        self.starts: list[tuple[_Filling, _Order, _Habit]] = []

    def in_order(self) -> tuple[Counts, ...]:
        """Return the contents of the fewest sheets that plain orders give."""
        for measure, habit in product(_ORDERS, _HABITS):
            order = sorted(self.inserts, key=[measure(size) for size in self.sizes].__getitem__)
            self.starts.append((self._fill(order, habit), order, habit))
        self.starts.sort(key=lambda start: start[0][:2])
        return self.starts[0][0].contents

    def shuffled(self, enough: int, tries: int) -> tuple[Counts, ...]:
        """Return the contents of the fewest sheets after ``tries``, or of ``enough`` of them."""
        best = self.starts[0][0]
        for start in self.starts[:_STARTS]:
            for filling in self._shuffle(*start, tries // _STARTS):
                best = min(best, filling)
                if best.sheets <= enough:
                    return best.contents
        return best.contents

    def _shuffle(
        self, filling: _Filling, order: _Order, habit: _Habit, tries: int
    ) -> Iterator[_Filling]:
        random = self.random
        for _ in range(tries):
            go_on(self.cancel)
            other = list(order)
            i, j = random.randrange(len(other)), random.randrange(len(other))
            if random.random() < 0.5:
                other[i], other[j] = other[j], other[i]
            else:
                other.insert(j, other.pop(i))
            changed = habit if random.random() < 0.9 else random.choice(_HABITS)
            found = self._fill(other, changed)
            if found[:2] <= filling[:2]:
                filling, order, habit = found, other, changed
                yield found

    def _fill(self, order: _Order, habit: _Habit) -> _Filling:
        sheets: list[list[int]] = []
        free: list[_Free] = []
        for index in order:
            place = _best_place(free, self.sizes[index], habit.choice)
            if place is None:
                place = _Place(len(free), *self.on_new[habit.choice][index])
                free.append((len(sheets), *self.field))
                sheets.append([0] * len(self.sizes))
            at, w, h = place
            sheet, width, height = free[at]
            free[at] = free[-1]
            free.pop()
            sheets[sheet][index] += 1
            for part in _remains(width, height, w, h, habit.cut):
                if part[0] and part[1]:
                    free.append((sheet, *part))
        contents = tuple(map(tuple, sheets))
        self.contents.update(contents)
        emptiest = min((total(one, self.areas) for one in contents), default=0)
        return _Filling(len(contents), emptiest, contents)


def _best_place(free: Iterable[_Free], size: Footprint, choice: int) -> _Place | None:
    """Return which free rectangle to take, and which way an insert lies there."""
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


def _first(field: Field, size: Footprint, choice: int) -> tuple[int, int]:
    """Return which way an insert lies on an empty sheet. Raises ValueError if it does not fit."""
    place = _best_place([(0, *field)], size, choice)
    if place is None:
        raise ValueError(f"{size} does not fit {field}")
    return place.width, place.height


def _remains(
    width: int, height: int, w: int, h: int, cut: int
) -> tuple[tuple[int, int], tuple[int, int]]:
    """Return the two rectangles that remain of a free one beside and above an insert."""
    beside, above = width - w, height - h
    level = (beside < above, width < height, w * above > h * beside)[cut // 2]
    if level == bool(cut % 2):
        return (beside, height), (w, above)
    return (beside, h), (width, above)
