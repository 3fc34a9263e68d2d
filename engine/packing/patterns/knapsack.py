"""The pieces of a field that are worth looking at, and the most that each can be worth."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence

from engine.packing.patterns.raster import joints, raster
from engine.packing.rectangles import Counts, Field, Footprint

Piece = tuple[int, int]
"""Width and height as indices of raster points."""
Table = list[list[int]]
"""A number for each piece: [height][width]."""


class Knapsack:
    """All pieces whose sides are raster points of a field."""

    def __init__(self, field: Field, sizes: Sequence[Footprint], caps: Counts) -> None:
        """Find the raster points of ``field`` for up to ``caps`` of each of ``sizes``."""
        present = [size for size, cap in zip(sizes, caps, strict=True) if cap]
        self.sizes = tuple(sizes)
        self.xs = raster((w for size in present for w, _ in size.ways), field.width)
        self.ys = raster((h for size in present for _, h in size.ways), field.height)
        self.across = joints(self.xs)
        self.along = joints(self.ys)
        self.born: list[dict[int, list[int]]] = [{} for _ in self.ys]
        """Of each row: the footprints that fit for the first time in a column's piece."""
        for index, size in enumerate(sizes):
            if caps[index]:
                for w, h in size.ways:
                    if w <= self.xs[-1] and h <= self.ys[-1]:
                        row = self.born[bisect_left(self.ys, h)]
                        row.setdefault(bisect_left(self.xs, w), []).append(index)

    @property
    def cost(self) -> int:
        """Return how many sums it takes to tell what all pieces are worth."""
        across = sum(map(len, self.across)) * len(self.ys)
        return across + sum(map(len, self.along)) * len(self.xs) + 1

    def best(self, worth: Sequence[int]) -> Table:
        """Return the most that each piece can be worth with any number of each footprint.

        The unbounded guillotine knapsack of Gilmore and Gomory, Operations Research 14(6),
        1966, over raster points.
        """
        import numpy as np

        columns = len(self.xs)
        best = np.zeros((len(self.ys), columns), dtype=np.int64)
        for j in range(1, len(self.ys)):
            whole = best[j - 1]
            if self.along[j]:
                p, q = np.array(self.along[j], dtype=np.intp).T
                whole = np.maximum(whole, (best[p] + best[q]).max(axis=0))
            row: list[int] = whole.tolist()
            born = self.born[j]
            for i in range(1, columns):
                most = max(row[i], row[i - 1])
                for index in born.get(i, ()):
                    most = max(most, worth[index])
                for p, q in self.across[i]:
                    most = max(most, row[p] + row[q])
                row[i] = most
            best[j] = row
        return best.tolist()

    def cuts(self, i: int, j: int) -> Iterator[tuple[Piece, Piece]]:
        """Yield the pairs of parts that first fit into a piece, and what it is narrowed to."""
        yield (i - 1, j), (0, j)
        yield (i, j - 1), (i, 0)
        for p, q in self.across[i]:
            yield (p, j), (q, j)
        for p, q in self.along[j]:
            yield (i, p), (i, q)

    def pattern(self, best: Table, worth: Sequence[int]) -> Counts:
        """Return a pattern that reaches the ``best`` of the whole field."""
        counts = [0] * len(self.sizes)
        pieces = [(len(self.xs) - 1, len(self.ys) - 1)]
        while pieces:
            i, j = pieces.pop()
            value = best[j][i]
            whole = [k for k in self.born[j].get(i, ()) if worth[k] == value]
            if whole:
                counts[whole[0]] += 1
            elif value:
                pieces += next(
                    (one, two)
                    for one, two in self.cuts(i, j)
                    if best[one[1]][one[0]] + best[two[1]][two[0]] == value
                )
        return tuple(counts)

    def slacks(self, best: Table, slack: int) -> Table:
        """Return how far each piece may fall short of its best; below 0 it is of no use.

        When the whole may fall short by ``slack``, a part may by what the cuts on the way to it
        have left of that, on the way that leaves the most.
        """
        left = [[-1] * len(self.xs) for _ in self.ys]
        left[-1][-1] = slack
        for j in range(len(self.ys) - 1, 0, -1):
            for i in range(len(self.xs) - 1, 0, -1):
                if left[j][i] >= 0:
                    spare = left[j][i] - best[j][i]
                    for one, two in self.cuts(i, j):
                        rest = spare + best[one[1]][one[0]] + best[two[1]][two[0]]
                        for x, y in (one, two) if rest >= 0 else ():
                            left[y][x] = max(left[y][x], rest)
        return left
