"""Contents put together from pieces: many good ones, where hardly two inserts are alike.

Two pieces side by side or one above the other make a larger piece (Wang, Operations Research
31(3), 1983). Of all pairs only those are kept that are worth most for the paper they take, some
of each size; after a few rounds they fill whole sheets.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Any, NamedTuple, TypeAlias

from engine.ganging.footprints import Field, Footprint
from engine.ganging.vectors import Counts

if TYPE_CHECKING:
    from numpy.typing import NDArray

_KEPT = 100
"""Pieces kept of each range of sizes."""
_RANGES = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.75, 0.9, 1.0)
"""Parts of a sheet that bound the ranges."""

_Column: TypeAlias = "NDArray[Any]"


class _Pieces(NamedTuple):
    """Many pieces of paper, a column for each property."""

    width: _Column
    height: _Column
    worth: _Column
    counts: _Column
    """A row for each piece: how many of each footprint."""


class _Pairs(NamedTuple):
    """Pairs of pieces, and what they make together."""

    one: _Column
    other: _Column
    width: _Column
    height: _Column
    worth: _Column


class Assembler:
    """Puts contents of a field together, within what is wanted."""

    def __init__(self, field: Field, sizes: Sequence[Footprint], caps: Counts) -> None:
        """Begin with single inserts, no more of each than ``caps``."""
        import numpy as np

        self.field = field
        self.caps = np.array(caps, dtype=np.int32)
        single = [
            (w, h, index)
            for index, size in enumerate(sizes)
            for w, h in size.ways
            if w <= field.width and h <= field.height and caps[index]
        ]
        self.kinds = np.array([index for *_, index in single])
        self.singles = _Pieces(
            np.array([w for w, *_ in single]),
            np.array([h for _, h, _ in single]),
            np.zeros(len(single)),
            np.eye(len(sizes), dtype=np.int32)[self.kinds],
        )

    def contents(
        self, worth: Sequence[float], rounds: int, many: int
    ) -> list[tuple[float, Counts]]:
        """Return about ``many`` contents with their worth, the dearest first."""
        import numpy as np

        singles = self.singles._replace(worth=np.array(worth, dtype=np.float64)[self.kinds])
        pieces = singles
        found: dict[bytes, tuple[float, Counts]] = {}
        for _ in range(rounds):
            pairs = self._pairs(pieces)
            for dear in self._best(pieces, pairs, pairs.worth, many * 8):
                counts = pieces.counts[pairs.one[dear]] + pieces.counts[pairs.other[dear]]
                value = float(pairs.worth[dear])
                found.setdefault(counts.tobytes(), (value, tuple(counts.tolist())))
            pieces = _joined(singles, self._kept(pieces, pairs))
        return sorted(found.values(), key=lambda one: (-one[0], one[1]))

    def _pairs(self, pieces: _Pieces) -> _Pairs:
        """Return all pairs that fit the field, side by side and one above the other."""
        import numpy as np

        one, other = np.triu_indices(len(pieces.width))
        halves = []
        for long, short in ((pieces.width, pieces.height), (pieces.height, pieces.width)):
            upright = long is pieces.width
            both = long[one] + long[other]
            fits = both <= (self.field.width if upright else self.field.height)
            i, j, both = one[fits], other[fits], both[fits]
            high = np.maximum(short[i], short[j])
            width, height = (both, high) if upright else (high, both)
            halves.append(_Pairs(i, j, width, height, pieces.worth[i] + pieces.worth[j]))
        return _Pairs(*(np.concatenate(columns) for columns in zip(*halves, strict=True)))

    def _best(self, pieces: _Pieces, pairs: _Pairs, merit: _Column, many: int) -> _Column:
        """Return the best pairs by ``merit`` that take no more inserts than there are."""
        import numpy as np

        count = min(len(merit), many)
        if not count:
            return np.zeros(0, dtype=np.intp)
        best = np.argpartition(-merit, count - 1)[:count]
        best = best[np.lexsort((best, -merit[best]))]
        both = pieces.counts[pairs.one[best]] + pieces.counts[pairs.other[best]]
        within = (both <= self.caps).all(axis=1)
        chosen: _Column = best[within]
        return chosen

    def _kept(self, pieces: _Pieces, pairs: _Pairs) -> _Pieces:
        """Return the pairs that are worth most for their paper, of each range of sizes."""
        import numpy as np

        area = pairs.width * pairs.height
        density = pairs.worth / area
        part = area / (self.field.width * self.field.height)
        kept: list[int] = []
        for low, high in pairwise(_RANGES):
            here = np.nonzero((part > low) & (part <= high))[0]
            some = _Pairs(*(column[here] for column in pairs))
            best = here[self._best(pieces, some, density[here], _KEPT * 6)]
            seen: set[tuple[bytes, int, int]] = set()
            for index in best.tolist():
                both = pieces.counts[pairs.one[index]] + pieces.counts[pairs.other[index]]
                alike = both.tobytes(), int(pairs.width[index]), int(pairs.height[index])
                if alike not in seen and len(seen) < _KEPT:
                    seen.add(alike)
                    kept.append(index)
        chosen = np.array(kept, dtype=np.intp)
        counts = pieces.counts[pairs.one[chosen]] + pieces.counts[pairs.other[chosen]]
        return _Pieces(pairs.width[chosen], pairs.height[chosen], pairs.worth[chosen], counts)


def _joined(one: _Pieces, other: _Pieces) -> _Pieces:
    import numpy as np

    return _Pieces(*(np.concatenate(columns) for columns in zip(one, other, strict=True)))
