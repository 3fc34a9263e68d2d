"""Contents that no placement can hold, told by reckoning alone, and those that may remain.

A dual feasible function gives every length a weight so that lengths which fit side by side never
weigh more than one together. The product of two such weights, one for each side, is then like
an area: a content that weighs more than one sheet cannot lie on it, cut or uncut. The functions
are those of Fekete and Schepers (Mathematical Methods of Operations Research 60(2), 2004): the
length itself, its rounding to parts of the whole, and two that count long sides as the whole and
short ones as nothing.
"""

from __future__ import annotations

from collections.abc import Sequence

from engine.ganging.contents import TooMany
from engine.ganging.footprints import Field, Footprint
from engine.ganging.vectors import Counts

_PARTS = 8
"""Up to so many parts of a side are rounded to."""

_LIMIT = 100_000
"""Contents, whole or partial, that are looked at side by side."""

ROOM = 1 + 1e-9
"""A whole sheet, with something for rounding, so that nothing possible is ever ruled out."""

Weights = dict[int, float]
"""What each length weighs; one for the whole side."""


class Relaxation:
    """What a field could hold at most, whatever the placement."""

    def __init__(self, field: Field, sizes: Sequence[Footprint]) -> None:
        """Reckon the weights of all ``sizes``, each of which must fit the field."""
        self._ways = [
            [(w, h) for w, h in size.ways if w <= field.width and h <= field.height]
            for size in sizes
        ]
        self._caps = tuple(field.width * field.height // size.area for size in sizes)
        every = [way for ways in self._ways for way in ways]
        across = _functions({w for w, _ in every}, field.width)
        along = _functions({h for _, h in every}, field.height)
        rows = {self._row(one, other) for one in across for other in along}
        self.rows: tuple[tuple[float, ...], ...] = tuple(
            sorted(row for row in rows if not any(_below(row, other) for other in rows))
        )
        """What one of each footprint weighs, in each way of weighing that can decide anything."""
        self._ruled_out: list[Counts] = []

    def allows(self, counts: Counts) -> bool:
        """Return False if ``counts`` certainly cannot lie on the field."""
        return all(
            sum(n * weight for n, weight in zip(counts, row, strict=True)) <= ROOM
            for row in self.rows
        ) and not any(_within(one, counts) for one in self._ruled_out)

    def rule_out(self, counts: Counts) -> None:
        """Note that ``counts`` was found not to fit, and so nothing that holds it does."""
        self._ruled_out.append(counts)

    def every(self, caps: Counts, limit: int) -> list[Counts] | None:
        """Return all contents up to ``caps`` that may fit, few first; None beyond ``limit``."""
        found = level = [tuple(0 for _ in caps)]
        while level:
            larger = {
                tuple(n + (i == k) for k, n in enumerate(one))
                for one in level
                for i, cap in enumerate(caps)
                if one[i] < cap
            }
            level = sorted(filter(self.allows, larger))
            found = found + level
            if len(found) > limit:
                return None
        return found

    def above(self, worth: Sequence[int], least: int) -> list[Counts] | None:
        """Return all contents that may fit and are worth more than ``least``, any number of each.

        What is worth nothing is left out. None when there are too many.
        """
        try:
            found = self.dearest(worth, self._caps, least, _LIMIT, limit=_LIMIT)
        except TooMany:
            return None
        return [counts for _, counts in found]

    def dearest(
        self,
        worth: Sequence[int],
        caps: Counts,
        above: int,
        many: int,
        *,
        limit: int | None = None,
    ) -> list[tuple[int, Counts]]:
        """Return up to ``many`` contents that may fit and are worth more than ``above``.

        The dearest comes first, so that nothing at all is worth more. Footprint by footprint,
        all numbers are tried side by side, and dropped where even the best use of the room that
        is left in some way of weighing could not bring them above.
        """
        import numpy as np

        weights = np.array(self.rows).T
        order = [i for i, each in enumerate(worth) if each > 0 and caps[i] > 0]
        order.sort(key=lambda i: (-worth[i] / max(weights[i].max(), 1e-9), i))
        values = np.array([worth[i] for i in order], dtype=np.int64)
        yields = np.full((len(order) + 1, weights.shape[1]), 0.0)
        for k in range(len(order) - 1, -1, -1):
            weight = weights[order[k]]
            each = np.divide(values[k], weight, out=np.full_like(weight, np.inf), where=weight > 0)
            yields[k] = np.maximum(yields[k + 1], each)
        partial = np.zeros((1, len(worth)), dtype=np.int64)
        value = np.zeros(1, dtype=np.int64)
        room = np.full((1, weights.shape[1]), ROOM)
        for k, i in enumerate(order):
            heavy = weights[i] > 0
            most = np.minimum((room[:, heavy] / weights[i][heavy]).min(axis=1), caps[i])
            repeats = most.astype(np.int64) + 1
            if limit is not None and repeats.sum() > limit:
                raise TooMany
            source = np.repeat(np.arange(len(partial)), repeats)
            count = np.arange(len(source)) - np.repeat(np.cumsum(repeats) - repeats, repeats)
            partial = partial[source]
            partial[:, i] = count
            value = value[source] + count * values[k]
            room = np.maximum(room[source] - count[:, None] * weights[i], 0.0)
            bounded = np.isfinite(yields[k + 1])
            best = (room[:, bounded] * yields[k + 1][bounded]).min(axis=1, initial=np.inf)
            kept = value + best > above
            for ruled_out in self._ruled_out:
                if ruled_out[i]:
                    some = [j for j, n in enumerate(ruled_out) if n]
                    kept &= (partial[:, some] < np.array(ruled_out)[some]).any(axis=1)
            partial, value, room = partial[kept], value[kept], room[kept]
        found = zip(value.tolist(), map(tuple, partial.tolist()), strict=True)
        dear = ((-each, counts) for each, counts in found if each > above)
        return [(-negative, counts) for negative, counts in sorted(dear)[:many]]

    def _row(self, across: Weights, along: Weights) -> tuple[float, ...]:
        return tuple(min(across[w] * along[h] for w, h in ways) for ways in self._ways)


def _functions(lengths: set[int], whole: int) -> list[Weights]:
    """Return the weights that ``lengths`` have by each dual feasible function."""
    found = [{x: x / whole for x in lengths}]
    found += [{x: _rounded(x, whole, parts) for x in lengths} for parts in range(1, _PARTS)]
    bounds = {x for x in lengths if 2 * x <= whole}
    bounds |= {whole - x + more for x in lengths for more in (0, 1) if 2 * x >= whole}
    for bound in sorted(b for b in bounds if 0 < 2 * b <= whole):
        found.append({x: _whole_or_nothing(x, whole, bound) for x in lengths})
        found.append({x: _counted(x, whole, bound) for x in lengths})
    return found


def _rounded(x: int, whole: int, parts: int) -> float:
    if (parts + 1) * x % whole == 0:
        return x / whole
    return ((parts + 1) * x // whole) / parts


def _whole_or_nothing(x: int, whole: int, bound: int) -> float:
    if x > whole - bound:
        return 1.0
    return x / whole if x >= bound else 0.0


def _counted(x: int, whole: int, bound: int) -> float:
    most = whole // bound
    if 2 * x > whole:
        return 1 - ((whole - x) // bound) / most
    return 1 / most if x >= bound else 0.0


def _within(inner: Counts, outer: Counts) -> bool:
    return all(a <= b for a, b in zip(inner, outer, strict=True))


def _below(row: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return row != other and all(a <= b for a, b in zip(row, other, strict=True))
