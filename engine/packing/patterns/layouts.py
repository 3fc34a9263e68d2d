"""Where a pattern lies when each cut goes edge to edge, as tidily as is known."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache, partial
from heapq import nsmallest

from engine.packing.patterns.knapsack import Knapsack
from engine.packing.patterns.maximal import Patterns, Piece, Prize, Split
from engine.packing.patterns.strips import strips
from engine.packing.patterns.tidiness import Spots, tidiest, untidiness
from engine.packing.rectangles import Counts, Field, Footprint, total

_TRIED = 12
"""First cuts of a field that are compared for the tidiest layout; of its parts, a quarter."""


@lru_cache(maxsize=4096)
def arrange(field: Field, sizes: tuple[Footprint, ...], counts: Counts) -> Spots | None:
    """Return where to lay ``counts`` on ``field``, None if that cannot be; exactly.

    What lies in strips is laid so. Else, worth being area, a pattern can hold ``counts`` only
    if it comes that near the best.
    """
    areas = [size.area for size, count in zip(sizes, counts, strict=True) if count]
    worth = tuple(size.area if count else 0 for size, count in zip(sizes, counts, strict=True))
    wanted = total(counts, worth)
    if not areas or wanted > field.width * field.height:
        return None if areas else ()
    in_strips = tidiest(field, strips(field, sizes, counts))
    if in_strips is not None:
        return in_strips
    best = Knapsack(field, sizes, counts).best(worth)[-1][-1]
    if wanted > best:
        return None
    patterns = Patterns(field, sizes, caps=counts, prize=Prize(worth, best - wanted))
    if not patterns.holds(counts):
        return None
    return _Layer(patterns, sizes).lay(patterns.whole, counts)


class _Layer:
    """Lays what pieces of a field hold."""

    def __init__(self, patterns: Patterns, sizes: Sequence[Footprint]) -> None:
        self.patterns, self.sizes = patterns, sizes

    def lay(self, piece: Piece, counts: Counts, tried: int = _TRIED) -> Spots:
        """Return where ``counts`` lie in a piece that holds them, from its lower left corner.

        Of ways to cut it, as many as ``tried`` are compared, and fewer of its parts.
        """
        grid = self.patterns.knapsack
        field = Field(grid.xs[piece[0]], grid.ys[piece[1]])
        in_strips = tidiest(field, strips(field, self.sizes, counts))
        if in_strips is not None:
            return in_strips
        splits = nsmallest(tried, self.patterns.splits(piece, counts), key=_mixture)
        layouts = [self._halves(split, piece, max(tried // 4, 1)) for split in splits]
        return min(layouts, key=partial(untidiness, field))

    def _halves(self, split: Split, piece: Piece, tried: int) -> Spots:
        """Return where everything lies in a piece that is cut so.

        What is left of each part goes to its far side, so that the paper a layout leaves is in
        blocks at the edges and not in strips between what lies there.
        """
        one, part, two, rest = split
        first, second = self.lay(one, part, tried), self.lay(two, rest, tried)
        if one[1] == piece[1]:
            away = max(spot.x + spot.width for spot in first)
            return first + tuple(spot._replace(x=spot.x + away) for spot in second)
        away = max(spot.y + spot.height for spot in first)
        return first + tuple(spot._replace(y=spot.y + away) for spot in second)


def _mixture(split: Split) -> tuple[int, int, Split]:
    """Return how mixed the parts of a cut are: alike side by side need fewer settings."""
    _, part, _, rest = split
    kinds = sum(map(bool, part)) + sum(map(bool, rest))
    return kinds, abs(sum(part) - sum(rest)), split
