"""Skylines that others have made needless: nowhere higher, and worth at least as much."""

from __future__ import annotations

from collections.abc import Sequence

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

        self._places = np.linspace(0, width - 1, _COLUMNS).astype(np.int64)
        # Neighbouring columns are mostly level, so the first few lie far apart.
        self._order = np.argsort(np.arange(_COLUMNS) % (_COLUMNS // _FIRST), kind="stable")
        self._heights = np.zeros((_KEPT, _COLUMNS), dtype=np.int32)
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
        self._heights[at], self._worths[at] = heights, worth
        if at < len(self._skylines):
            self._skylines[at] = skyline
        else:
            self._skylines.append(skyline)
        self._next += 1

    def _sampled(self, skyline: _Steps):  # type: ignore[no-untyped-def]
        import numpy as np

        ends = np.cumsum([w for _, w in skyline])
        levels = np.array([y for y, _ in skyline], dtype=np.int32)
        return levels[np.searchsorted(ends, self._places, side="right")][self._order]

    def _below(self, skyline: _Steps, heights, worth: int) -> bool:  # type: ignore[no-untyped-def]
        import numpy as np

        some = len(self._skylines)
        near = (self._heights[:some, :_FIRST] <= heights[:_FIRST]).all(axis=1)
        near &= self._worths[:some] >= worth
        rows = np.nonzero(near)[0]
        rows = rows[(self._heights[rows] <= heights).all(axis=1)]
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
