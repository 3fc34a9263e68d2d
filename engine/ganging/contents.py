"""Every content a sheet can hold when each cut goes edge to edge (the trimmer rule).

A piece of paper holds one insert, or it is cut in two and holds a content of each part. Going
through all pieces whose sides are raster points, from small to large, and keeping of each only
the contents that lie within no other, gives every maximal content of the sheet, exactly.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from engine.ganging.footprints import Field, Footprint
from engine.ganging.raster import raster
from engine.ganging.vectors import Counts, Packer


class Spot(NamedTuple):
    """A footprint on the field, in tenths of a millimetre from its lower left corner."""

    size: int
    """Index of the footprint."""
    x: int
    y: int
    width: int
    height: int


class Contents:
    """What one field can hold of the given footprints."""

    def __init__(self, field: Field, sizes: Sequence[Footprint]) -> None:
        """Work out the maximal contents of ``field``."""
        self.sizes = tuple(sizes)
        self._xs = _points([way[0] for size in sizes for way in size.ways], field.width)
        self._ys = _points([way[1] for size in sizes for way in size.ways], field.height)
        most = [max(field.width * field.height // size.area, 1) for size in sizes]
        self._packer = Packer(most)
        self._units = [
            self._packer.pack([int(i == j) for j in range(len(sizes))]) for i in range(len(sizes))
        ]
        self._held: dict[tuple[int, int], tuple[int, ...]] = {}
        self._known: dict[tuple[int, ...], tuple[int, ...]] = {}
        for height in self._ys:
            for width in self._xs:
                self._held[width, height] = self._hold(width, height)
        whole = self._held[self._xs[-1], self._ys[-1]]
        self.maximal: tuple[Counts, ...] = tuple(self._packer.unpack(one) for one in whole if one)

    def holds(self, counts: Counts) -> bool:
        """Return whether the field can hold ``counts`` together."""
        return any(
            all(count <= top for count, top in zip(counts, most, strict=True))
            for most in self.maximal
        ) or not any(counts)

    def lay(self, counts: Counts) -> tuple[Spot, ...]:
        """Return where to lay ``counts``, which the field must hold."""
        return tuple(self._lay(self._xs[-1], self._ys[-1], 0, 0, counts))

    def _hold(self, width: int, height: int) -> tuple[int, ...]:
        found = {
            unit
            for unit, size in zip(self._units, self.sizes, strict=True)
            if any(w <= width and h <= height for w, h in size.ways)
        }
        tried: set[tuple[int, int]] = set()
        for (w, h, _, _), (v, k, _, _) in self._cuts(width, height):
            first, second = self._held[w, h], self._held[v, k]
            names = id(first), id(second)
            if names not in tried:
                tried.add(names)
                found.update([one + other for one in first or (0,) for other in second or (0,)])
        content = self._packer.maximal(found)
        return self._known.setdefault(content, content)

    def _cuts(
        self, width: int, height: int
    ) -> Iterator[tuple[tuple[int, int, int, int], tuple[int, int, int, int]]]:
        """Yield both parts (width, height, x, y) of each cut that is worth trying."""
        for x in self._xs:
            if x and 2 * x <= width:
                yield (x, height, 0, 0), (_floor(self._xs, width - x), height, x, 0)
        for y in self._ys:
            if y and 2 * y <= height:
                yield (width, y, 0, 0), (width, _floor(self._ys, height - y), 0, y)

    def _lay(self, width: int, height: int, x: int, y: int, counts: Counts) -> Iterator[Spot]:
        if sum(counts) == 0:
            return
        if sum(counts) == 1:
            index = counts.index(1)
            for w, h in self.sizes[index].ways:
                if w <= width and h <= height:
                    yield Spot(index, x, y, w, h)
                    return
        for (w, h, dx, dy), (v, k, ex, ey) in self._cuts(width, height):
            for top in map(self._packer.unpack, self._held[w, h]):
                part = tuple(map(min, counts, top))
                rest = tuple(a - b for a, b in zip(counts, part, strict=True))
                if self._fits(v, k, rest):
                    yield from self._lay(w, h, x + dx, y + dy, part)
                    yield from self._lay(v, k, x + ex, y + ey, rest)
                    return

    def _fits(self, width: int, height: int, counts: Counts) -> bool:
        packed = self._packer.pack(counts)
        return any(self._packer.within(packed, top) for top in self._held[width, height] or (0,))


@lru_cache(maxsize=64)
def contents(field: Field, sizes: tuple[Footprint, ...]) -> Contents:
    """Return what ``field`` can hold, worked out once for a field and set of footprints."""
    return Contents(field, sizes)


def _points(lengths: list[int], limit: int) -> tuple[int, ...]:
    return raster([length for length in lengths if length <= limit], limit) or (0,)


def _floor(points: Sequence[int], length: int) -> int:
    return points[bisect_right(points, length) - 1]
