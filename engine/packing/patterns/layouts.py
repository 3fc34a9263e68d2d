"""Where a pattern lies when each cut goes edge to edge, as tidily as is known."""

from __future__ import annotations

from functools import lru_cache, partial
from heapq import nsmallest

from engine.packing.patterns.knapsack import Knapsack, Piece
from engine.packing.patterns.maximal import Patterns, Prize, Split
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
    if not any(counts):
        return ()
    areas = tuple(size.area if count else 0 for size, count in zip(sizes, counts, strict=True))
    wanted = total(counts, areas)
    if wanted > field.area:
        return None
    in_strips = tidiest(field, strips(field, sizes, counts))
    if in_strips is not None:
        return in_strips
    best = Knapsack(field, sizes, counts).best(areas)[-1][-1]
    if wanted > best:
        return None
    patterns = Patterns(field, sizes, caps=counts, prize=Prize(areas, best - wanted))
    return _laid(patterns, patterns.whole, counts, _TRIED) if patterns.holds(counts) else None


def _laid(patterns: Patterns, piece: Piece, counts: Counts, tried: int) -> Spots:
    """Return where ``counts`` lie in a piece that holds them, from its lower left corner.

    Of ways to cut it, as many as ``tried`` are compared, and fewer of its parts.
    """
    grid = patterns.knapsack
    field = Field(grid.xs[piece[0]], grid.ys[piece[1]])
    in_strips = tidiest(field, strips(field, grid.sizes, counts))
    if in_strips is not None:
        return in_strips

    def mixture(split: Split) -> tuple[int, int, Split]:
        # Alike side by side need fewer settings.
        _, part, _, rest = split
        return sum(map(bool, part + rest)), abs(sum(part) - sum(rest)), split

    splits = nsmallest(tried, patterns.splits(piece, counts), key=mixture)
    layouts = [_halves(patterns, split, piece, max(tried // 4, 1)) for split in splits]
    return min(layouts, key=partial(untidiness, field))


def _halves(patterns: Patterns, split: Split, piece: Piece, tried: int) -> Spots:
    """Return where everything lies in a piece that is cut so.

    What is left of each part goes to its far side, so that the paper a layout leaves is in
    blocks at the edges and not in strips between what lies there.
    """
    one, part, two, rest = split
    first, second = _laid(patterns, one, part, tried), _laid(patterns, two, rest, tried)
    beside = one[1] == piece[1]
    x = max(spot.x + spot.width for spot in first) if beside else 0
    y = 0 if beside else max(spot.y + spot.height for spot in first)
    return first + tuple(spot._replace(x=spot.x + x, y=spot.y + y) for spot in second)
