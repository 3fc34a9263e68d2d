"""Skylines that others have made needless: nowhere higher, and worth at least as much."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_KEPT = 4_000
_COLUMNS = 64
"""Heights are first compared at so many places across the sheet."""
_FIRST = 8

_Steps = Sequence[tuple[int, int]]


class Shadows:
    """Remembers the last skylines, to compare new ones with."""

    def __init__(self, width: int) -> None:
        """Remember none yet."""
        import numpy as np

        places = np.linspace(0, width - 1, _COLUMNS).astype(np.int64)
        # Neighbouring columns are mostly level, so the first few lie far apart.
        apart = np.argsort(np.arange(_COLUMNS) % (_COLUMNS // _FIRST), kind="stable")
        self._places = places[apart]
        self._heights = np.zeros((_COLUMNS, _KEPT), dtype=np.int32)
        self._worths = np.zeros(_KEPT, dtype=np.int64)
        self._skylines: list[_Steps] = []
        self._next = 0

    def cover(self, skyline: _Steps, worth: int) -> bool:
        """Return whether one of them is nowhere higher and worth as much."""
        return any(
            self._below(steps, self._sampled(steps), worth) for steps in (skyline, skyline[::-1])
        )

    def remember(self, skyline: _Steps, worth: int) -> None:
        """Compare later ones with this."""
        heights = self._sampled(skyline)
        at = self._next % _KEPT
        self._heights[:, at], self._worths[at] = heights, worth
        if at < len(self._skylines):
            self._skylines[at] = skyline
        else:
            self._skylines.append(skyline)
        self._next += 1

    def _sampled(self, skyline: _Steps) -> NDArray[np.int64]:
        import numpy as np

        levels, widths = np.array(skyline, dtype=np.int64).T
        return np.repeat(levels, widths)[self._places]

    def _below(self, skyline: _Steps, heights: NDArray[np.int64], worth: int) -> bool:
        some = len(self._skylines)
        near = self._worths[:some] >= worth
        for k in range(_FIRST):
            near &= self._heights[k, :some] <= heights[k]
        rows = near.nonzero()[0]
        if len(rows):
            rows = rows[(self._heights[:, rows] <= heights[:, None]).all(axis=0)]
        return any(_nowhere_higher(self._skylines[row], skyline) for row in rows)


def _nowhere_higher(one: _Steps, other: _Steps) -> bool:
    n = end = there = 0
    for y, w in one:
        end += w
        while True:
            if y > other[n][0]:
                return False
            if there + other[n][1] > end:
                break
            there += other[n][1]
            n += 1
            if there == end:
                break
    return True
