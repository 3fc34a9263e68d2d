"""Every content a sheet can hold when each cut goes edge to edge (the trimmer rule).

A piece of paper holds one insert, or it is cut in two and holds a content of each part. Going
through all pieces whose sides are raster points, from small to large, and keeping of each only
the contents that lie within no other, gives every maximal content of the sheet, exactly.

Most of what a piece holds it has from the piece one point narrower or lower; what is new needs
its whole width and height, so only such parts are put together that do so for the first time.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from functools import lru_cache, partial
from heapq import nlargest, nsmallest
from typing import NamedTuple

from engine.ganging.footprints import Field, Footprint, Spot
from engine.ganging.grid import Grid, Table
from engine.ganging.strips import strips
from engine.ganging.tidiness import tidiest, untidiness
from engine.ganging.vectors import Counts, Packer, total
from engine.ganging.waiting import Cancel, go_on

Held = frozenset[int]
"""The outermost contents of a piece, packed."""

_TRIED = 12
"""First cuts of a sheet that are compared for the tidiest layout; of its parts, a quarter."""
_NOTHING: Held = frozenset()
_Piece = tuple[int, int]
"""A piece of the grid: indices of its width and its height among the raster points."""
_Split = tuple[_Piece, Counts, _Piece, Counts]
"""Two pieces that a cut makes, each with what it is to hold."""


class TooMany(Exception):  # noqa: N818 - nothing went wrong
    """There are more contents than the effort allowed for."""


class Prize(NamedTuple):
    """What each footprint is worth, and how far from the best a content may fall."""

    worth: tuple[int, ...]
    slack: int
    beam: int | None = None
    """How many contents to keep of each piece: a search that may miss some."""


class Contents:
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
        """Work out the maximal contents of ``field``.

        ``caps`` is the most of each footprint that is wanted. With a ``prize`` only the contents
        that come near the best are kept. Raises TooMany beyond ``effort`` sums, and Cancelled.
        """
        self.sizes = tuple(sizes)
        room = tuple(field.width * field.height // size.area for size in sizes)
        self.caps = tuple(map(min, caps, room)) if caps else room
        self._capped = self.caps != room
        self._packer = Packer(self.caps, prize.worth if prize else None)
        self._grid = Grid(field, sizes, self.caps)
        self._prize = prize
        self._effort = effort
        self._cancel = cancel
        self._table = self._fill()
        whole = self._table[-1][-1]
        self.maximal: tuple[Counts, ...] = tuple(
            self._packer.unpack(one) for one in sorted(whole, reverse=True) if one
        )

    def holds(self, counts: Counts) -> bool:
        """Return whether the field can hold ``counts`` together."""
        return self._fits(len(self._grid.xs) - 1, len(self._grid.ys) - 1, counts)

    def lay(self, counts: Counts) -> tuple[Spot, ...]:
        """Return where to lay ``counts``, which the field must hold, as tidily as is known."""
        return self._lay(len(self._grid.xs) - 1, len(self._grid.ys) - 1, counts, _TRIED)

    def _fill(self) -> list[list[Held]]:
        grid = self._grid
        table: list[list[Held]] = [[_NOTHING] * len(grid.xs) for _ in grid.ys]
        # Of each piece: what it holds that the next narrower (lower) one does not, and of
        # that, what neither does.
        wide = [[(_NOTHING, _NOTHING)] * len(grid.xs) for _ in grid.ys]
        high = [[(_NOTHING, _NOTHING)] * len(grid.xs) for _ in grid.ys]
        least = self._thresholds()
        spent = 0
        for j in range(1, len(grid.ys)):
            for i in range(1, len(grid.xs)):
                if least is not None and least[j][i] < 0:
                    continue
                left, below = table[j][i - 1], table[j - 1][i]
                fresh = {self._packer.units[index] for index in grid.born[j].get(i, ())}
                pairs = [(wide[j][p], wide[j][q]) for p, q in grid.across[i]]
                pairs += [(high[p][i], high[q][i]) for p, q in grid.along[j]]
                floor = least[j][i] if least else 0
                for (one, one_new), (other, other_new) in pairs:
                    if one and other:
                        spent += len(one_new) * len(other) + len(one) * len(other_new)
                        self._join(fresh, one_new, other, floor)
                        self._join(fresh, one, other_new, floor)
                self._check(spent)
                held = self._thin(self._merge(left, below, fresh - left - below), floor)
                table[j][i] = held
                narrow = held - left if held is not left else _NOTHING
                low = held - below if held is not below else _NOTHING
                both = narrow & low
                wide[j][i] = narrow, both
                high[j][i] = low, both
        return table

    def _thresholds(self) -> Table | None:
        """Return the least packed number that each piece keeps, -1 for a useless piece."""
        if self._prize is None:
            return None
        best = self._grid.best(self._prize.worth)
        slacks = self._grid.slacks(best, self._prize.slack)
        shift = self._packer.worth_shift
        return [
            [
                max(top - spare, 0) << shift if spare >= 0 else -1
                for top, spare in zip(*rows, strict=True)
            ]
            for rows in zip(best, slacks, strict=True)
        ]

    def _thin(self, held: Held, floor: int) -> Held:
        """Return what is worth keeping of ``held``."""
        if floor:
            held = frozenset(one for one in held if one >= floor)
        beam = self._prize.beam if self._prize else None
        if beam is not None and len(held) > beam:
            return frozenset(nlargest(beam, held))
        return held

    def _join(self, into: set[int], ones: Held, others: Held, floor: int) -> None:
        """Add to ``into`` the contents of two parts put together, from ``floor`` upwards."""
        joined: Sequence[int] = [one + other for one in ones for other in others]
        if self._capped:
            joined = self._packer.clip(joined)
        if floor:
            joined = [one for one in joined if one >= floor]
        into.update(joined)

    def _merge(self, left: Held, below: Held, fresh: set[int]) -> Held:
        """Return the outermost of all three; ``left`` or ``below`` itself if nothing is new."""
        packer = self._packer
        if left is below and not fresh:
            return left
        both = left & below
        only_left, only_below = left - both, below - both
        kept_left = packer.outermost(only_left, only_below) if only_below else only_left
        kept_below = packer.outermost(only_below, only_left) if only_left else only_below
        old = both.union(kept_left, kept_below)
        new = packer.outermost(fresh, old) if fresh else ()
        held = frozenset(packer.outermost(old, new)).union(new) if new else old
        return left if held == left else below if held == below else held

    def _check(self, spent: int) -> None:
        if self._effort is not None and spent > self._effort:
            raise TooMany
        go_on(self._cancel)

    def _lay(self, i: int, j: int, counts: Counts, tried: int) -> tuple[Spot, ...]:
        """Return where everything lies in the piece [i][j], from its lower left corner.

        Of ways to cut it, as many as ``tried`` are compared, and fewer of its parts.
        """
        field = Field(self._grid.xs[i], self._grid.ys[j])
        in_strips = tidiest(field, strips(field, self.sizes, counts))
        if in_strips is not None:
            return in_strips
        splits = nsmallest(tried, self._splits(i, j, counts), key=_mixture)
        layouts = [self._halves(j, split, max(tried // 4, 1)) for split in splits]
        return min(layouts, key=partial(untidiness, field))

    def _halves(self, j: int, split: _Split, tried: int) -> tuple[Spot, ...]:
        """Return where everything lies in a piece of height [j] that is cut by ``split``.

        What is left of each part goes to its far side, so that the paper a layout leaves is in
        blocks at the edges and not in strips between the inserts.
        """
        one, part, two, rest = split
        first, second = self._lay(*one, part, tried), self._lay(*two, rest, tried)
        if one[1] == j:
            away = max(spot.x + spot.width for spot in first)
            return first + tuple(spot._replace(x=spot.x + away) for spot in second)
        away = max(spot.y + spot.height for spot in first)
        return first + tuple(spot._replace(y=spot.y + away) for spot in second)

    def _splits(self, i: int, j: int, counts: Counts) -> Iterator[_Split]:
        """Yield each way to cut the piece [i][j] so that both parts together hold ``counts``.

        Where the first part holds everything, the piece is only made smaller.
        """
        for one, two in self._cuts(i, j):
            for part in {tuple(map(min, counts, top)) for top in self._tops(*one)}:
                rest = tuple(a - b for a, b in zip(counts, part, strict=True))
                if any(part) and self._fits(*two, rest):
                    yield one, part, two, rest

    def _cuts(self, i: int, j: int) -> Iterator[tuple[_Piece, _Piece]]:
        xs, ys = self._grid.xs, self._grid.ys
        for p in range(1, i):
            yield (p, j), (bisect_right(xs, xs[i] - xs[p]) - 1, j)
        for p in range(1, j):
            yield (i, p), (i, bisect_right(ys, ys[j] - ys[p]) - 1)

    def _tops(self, i: int, j: int) -> list[Counts]:
        return [self._packer.unpack(one) for one in sorted(self._table[j][i], reverse=True)]

    def _fits(self, i: int, j: int, counts: Counts) -> bool:
        if any(count > cap for count, cap in zip(counts, self.caps, strict=True)):
            return False
        packed = self._packer.pack(counts) & self._packer.all_counts
        return not packed or any(self._packer.within(packed, top) for top in self._table[j][i])


def _mixture(split: _Split) -> tuple[int, int, _Split]:
    """Return how mixed the parts of a cut are: alike inserts side by side need fewer settings."""
    _, part, _, rest = split
    kinds = sum(map(bool, part)) + sum(map(bool, rest))
    return kinds, abs(sum(part) - sum(rest)), split


def arrange(field: Field, sizes: Sequence[Footprint], counts: Counts) -> tuple[Spot, ...] | None:
    """Return where to lay ``counts`` on ``field``, None if that cannot be; exactly.

    What lies in strips is laid so. Else, worth being area, a content can hold ``counts`` only
    if it comes that near the best.
    """
    present = tuple(index for index, count in enumerate(counts) if count)
    if not present:
        return ()
    spots = _arrange(field, tuple(sizes[i] for i in present), tuple(counts[i] for i in present))
    return spots and tuple(spot._replace(size=present[spot.size]) for spot in spots)


@lru_cache(maxsize=512)
def _arrange(field: Field, sizes: tuple[Footprint, ...], counts: Counts) -> tuple[Spot, ...] | None:
    in_strips = tidiest(field, strips(field, sizes, counts))
    if in_strips is not None:
        return in_strips
    areas = tuple(size.area for size in sizes)
    wanted = total(counts, areas)
    best = Grid(field, sizes, counts).best(areas)[-1][-1]
    if wanted > best:
        return None
    held = Contents(field, sizes, caps=counts, prize=Prize(areas, best - wanted))
    return held.lay(counts) if held.holds(counts) else None


@lru_cache(maxsize=64)
def contents(field: Field, sizes: tuple[Footprint, ...]) -> Contents:
    """Return what ``field`` can hold, worked out once for a field and set of footprints."""
    return Contents(field, sizes)
