"""Every pattern that a field can hold when each cut goes edge to edge.

A piece of paper holds one footprint, or it is cut in two and holds a pattern of each part. Going
through all pieces whose sides are raster points, from small to large, and keeping of each only
the patterns that lie within no other, gives every maximal pattern of the field, exactly. What a
piece holds it has from the piece one point narrower or lower, or from two parts that first fit.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from engine.packing.cancelling import Cancel, go_on
from engine.packing.patterns.encoding import Encoding
from engine.packing.patterns.knapsack import Knapsack, Piece, Table
from engine.packing.rectangles import Counts, Field, Footprint, minus, within

_Held = frozenset[int]
"""The maximal patterns of a piece, encoded."""
_NOTHING: _Held = frozenset()

Split = tuple[Piece, Counts, Piece, Counts]
"""Two pieces that a cut makes, each with what it is to hold."""


class TooMany(Exception):  # noqa: N818 - nothing went wrong
    """There are more patterns than the effort allowed for."""


class Prize(NamedTuple):
    """What each footprint is worth, and how far from the best a pattern may fall."""

    worth: tuple[int, ...]
    slack: int
    beam: int | None = None
    """How many patterns to keep of each piece: a search that may miss some."""


class Patterns:
    """What one field can hold of the given footprints."""

    def __init__(
        self,
        field: Field,
        sizes: Sequence[Footprint],
        *,
        caps: Counts | None = None,
        prize: Prize | None = None,
        effort: int | None = None,
        cancel: Cancel | None = None,
    ) -> None:
        """Work out the maximal patterns of ``field``.

        ``caps`` is the most of each footprint that is wanted. With a ``prize`` only the patterns
        that come near the best are kept. Raises TooMany beyond ``effort`` sums, and Cancelled.
        """
        room = field.room(sizes)
        self.caps = tuple(map(min, caps, room)) if caps else room
        self.knapsack = Knapsack(field, sizes, self.caps)
        self.whole: Piece = len(self.knapsack.xs) - 1, len(self.knapsack.ys) - 1
        self._capped = self.caps != room
        self._encoding = Encoding(self.caps, prize.worth if prize else None)
        self._prize = prize
        self._table = self._fill(effort, cancel)
        found = sorted(self._table[-1][-1], reverse=True)
        self.maximal = tuple(self._encoding.decode(one) for one in found if one)

    def holds(self, counts: Counts, piece: Piece | None = None) -> bool:
        """Return whether a piece, or else the whole field, can hold ``counts`` together."""
        i, j = piece or self.whole
        return not any(counts) or any(within(counts, top) for top in self._tops(i, j))

    def splits(self, piece: Piece, counts: Counts) -> Iterator[Split]:
        """Yield each way to cut a piece so that both parts together hold ``counts``.

        Where the first part holds everything, the piece is only made smaller.
        """
        for one, two in self._cuts(*piece):
            for part in {tuple(map(min, counts, top)) for top in self._tops(*one)}:
                rest = minus(counts, part)
                if any(part) and self.holds(rest, two):
                    yield one, part, two, rest

    def _fill(self, effort: int | None, cancel: Cancel | None) -> list[list[_Held]]:
        grid, units = self.knapsack, self._encoding.units
        table: list[list[_Held]] = [[_NOTHING] * len(grid.xs) for _ in grid.ys]
        least = self._thresholds()
        spent = 0
        for j in range(1, len(grid.ys)):
            for i in range(1, len(grid.xs)):
                if least is not None and least[j][i] < 0:
                    continue
                floor = least[j][i] if least else 0
                fresh = {units[index] for index in grid.born[j].get(i, ())}
                for part, rest in grid.cuts(i, j):
                    one, other = table[part[1]][part[0]], table[rest[1]][rest[0]]
                    spent += len(one) * len(other)
                    fresh |= self._joined(one, other, floor)
                if effort is not None and spent > effort:
                    raise TooMany
                go_on(cancel)
                table[j][i] = self._outermost(table[j][i - 1], table[j - 1][i], fresh, floor)
        return table

    def _thresholds(self) -> Table | None:
        """Return the least code that each piece keeps, -1 for a useless piece."""
        if self._prize is None:
            return None
        best = self.knapsack.best(self._prize.worth)
        slacks = self.knapsack.slacks(best, self._prize.slack)
        shift = self._encoding.worth_shift
        return [
            [
                max(top - spare, 0) << shift if spare >= 0 else -1
                for top, spare in zip(*rows, strict=True)
            ]
            for rows in zip(best, slacks, strict=True)
        ]

    def _joined(self, ones: _Held, others: _Held, floor: int) -> set[int]:
        """Return the patterns of two parts put together, from ``floor`` upwards."""
        joined: Iterable[int] = [one + other for one in ones for other in others]
        if self._capped:
            joined = self._encoding.clip(joined, self._encoding.caps)
        return {one for one in joined if one >= floor}

    def _outermost(self, left: _Held, below: _Held, fresh: set[int], floor: int) -> _Held:
        """Return what is worth keeping of all three; ``left`` or ``below`` if nothing is new."""
        some = self._encoding.outermost(left | below | fresh)
        beam = self._prize.beam if self._prize else None
        held = frozenset([one for one in some if one >= floor][:beam])
        return left if held == left else below if held == below else held

    def _cuts(self, i: int, j: int) -> Iterator[tuple[Piece, Piece]]:
        xs, ys = self.knapsack.xs, self.knapsack.ys
        for p in range(1, i):
            yield (p, j), (bisect_right(xs, xs[i] - xs[p]) - 1, j)
        for p in range(1, j):
            yield (i, p), (i, bisect_right(ys, ys[j] - ys[p]) - 1)

    def _tops(self, i: int, j: int) -> list[Counts]:
        return [self._encoding.decode(one) for one in sorted(self._table[j][i], reverse=True)]
