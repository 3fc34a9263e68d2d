"""Every pattern that a field can hold when each cut goes edge to edge.

A piece of paper holds one footprint, or it is cut in two and holds a pattern of each part. Going
through all pieces whose sides are raster points, from small to large, and keeping of each only
the patterns that lie within no other, gives every maximal pattern of the field, exactly. What a
piece holds it has from the piece one point narrower or lower, or from two parts that first fit,
each with a pattern that a narrower one does not hold, and not both with one that lower ones do.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import NamedTuple

from engine.model.waiting import Cancel, go_on
from engine.packing.patterns.encoding import Encoding
from engine.packing.patterns.knapsack import Knapsack, Piece
from engine.packing.rectangles import Counts, Field, Footprint, minus, within

Split = tuple[Piece, Counts, Piece, Counts]
"""Two pieces that a cut makes, each with what it is to hold."""

_New = tuple[Sequence[int], Sequence[int]]
"""Codes of what a piece holds and the next narrower (lower) one does not, and what neither does."""


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
        within_room = tuple(map(min, caps, room)) if caps else room
        self.knapsack = Knapsack(field, sizes, within_room)
        self.whole: Piece = len(self.knapsack.xs) - 1, len(self.knapsack.ys) - 1
        self._capped = within_room != room
        self._encoding = Encoding(within_room, prize.worth if prize else None)
        self._table = self._fill(prize, effort, cancel)
        self.maximal = tuple(self._tops(self.whole))

    def holds(self, counts: Counts, piece: Piece | None = None) -> bool:
        """Return whether a piece, or else the whole field, can hold ``counts`` together."""
        tops = self._tops(piece or self.whole)
        return not any(counts) or any(within(counts, top) for top in tops)

    def splits(self, piece: Piece, counts: Counts) -> Iterator[Split]:
        """Yield each way to cut a piece so that both parts together hold ``counts``.

        Where the first part holds everything, the piece is only made smaller.
        """
        for one, two in self.knapsack.cuts(*piece):
            for part in {tuple(map(min, counts, top)) for top in self._tops(one)}:
                rest = minus(counts, part)
                if any(part) and self.holds(rest, two):
                    yield one, part, two, rest

    def _fill(
        self, prize: Prize | None, effort: int | None, cancel: Cancel | None
    ) -> list[list[list[int]]]:
        """Return the codes of what each piece holds, the largest first."""
        grid, encoding = self.knapsack, self._encoding
        table: list[list[list[int]]] = [[[] for _ in grid.xs] for _ in grid.ys]
        wide: list[list[_New]] = [[((), ())] * len(grid.xs) for _ in grid.ys]
        high: list[list[_New]] = [[((), ())] * len(grid.xs) for _ in grid.ys]
        best = grid.best(prize.worth) if prize else []
        slacks = grid.slacks(best, prize.slack) if prize else []
        beam = prize.beam if prize else None
        spent = 0
        for j, i in product(range(1, len(grid.ys)), range(1, len(grid.xs))):
            if prize and slacks[j][i] < 0:
                continue
            floor = max(best[j][i] - slacks[j][i], 0) << encoding.worth_shift if prize else 0
            fresh = {encoding.units[index] for index in grid.born[j].get(i, ())}
            pairs = [(wide[j][p], wide[j][q]) for p, q in grid.across[i]]
            pairs += [(high[p][i], high[q][i]) for p, q in grid.along[j]]
            for (one, one_new), (other, other_new) in pairs:
                spent += len(one_new) * len(other) + len(one) * len(other_new)
                for some, more in ((one_new, other), (one, other_new)):
                    joined = {a + b for a in some for b in more}
                    fresh.update(encoding.clip(joined, encoding.caps) if self._capped else joined)
            if effort is not None and spent > effort:
                raise TooMany
            go_on(cancel)
            left, below = set(table[j][i - 1]), set(table[j - 1][i])
            near = {one for one in fresh.union(left, below) if one >= floor}
            held = table[j][i] = encoding.outermost(near)[:beam]
            both = [one for one in held if one not in left and one not in below]
            wide[j][i] = [one for one in held if one not in left], both
            high[j][i] = [one for one in held if one not in below], both
        return table

    def _tops(self, piece: Piece) -> list[Counts]:
        i, j = piece
        return [self._encoding.decode(one) for one in self._table[j][i]]
