"""What the room above a skyline could be worth at most, by the strips it is made of."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from heapq import heappop, heappush
from itertools import pairwise

from engine.ganging.bars import Prices, Way, best_prices, filled

Skyline = tuple[tuple[int, int], ...]
"""Height and width of each level stretch, from left to right."""


class Roof:
    """What the room above a skyline could be worth at most."""

    def __init__(self, width: int, height: int, ways: Sequence[Way]) -> None:
        """Share out the worths of ``ways``."""
        self.width, self.height = width, height
        self.ways = ways
        self.prices = best_prices(width, height, ways)
        self.columns = [filled(prices.along, height) for prices in self.prices]
        self._over: dict[Skyline, tuple[int | None, int]] = {}
        """The least bound so far, and how many of the prices it comes from."""
        self._last: tuple[Skyline, list[tuple[int, int, int]]] = ((), [])
        """The rows asked for last, since they are often asked for twice."""
        self._widths = sorted({way.width for way in ways})
        self._rows: dict[tuple[int, int], list[int]] = {}
        self._narrow: dict[tuple[int, int, int, int], int] = {}

    def over(self, skyline: Skyline, asked: int = 0) -> int:
        """Return what comes above ``skyline`` at most; any such bound, if it is below ``asked``."""
        least, weighed = self._over.get(skyline, (None, 0))
        if weighed == len(self.prices) or (least is not None and least < asked):
            return least or 0
        columns, rows = self._columns_of(skyline), self.rows_of(skyline)
        while weighed < len(self.prices) and (least is None or least >= asked):
            worth = self._worth(weighed, self.prices[weighed], columns, rows)
            least = worth if least is None else min(least, worth)
            weighed += 1
        self._over[skyline] = least, weighed
        return least or 0

    def _worth(
        self,
        k: int,
        prices: Prices,
        columns: Sequence[tuple[int, int, int]],
        rows: Sequence[tuple[int, int, int]],
    ) -> int:
        total = 0
        if prices.along:
            open_columns = self.columns[k]
            for width, room, depth in columns:
                each = self._notched(k, room, depth, width) if depth else open_columns[room]
                total += width * each
        if prices.across:
            for height, run, room in rows:
                total += height * self._row(k, room)[run]
        return total

    def _columns_of(self, skyline: Skyline) -> list[tuple[int, int, int]]:
        """Return the width of each stretch, the room above it, and how deep a notch it is."""
        walls = [self.height, *(y for y, _ in skyline), self.height]
        return [
            (w, self.height - y, max(min(walls[k], walls[k + 2]) - y, 0) if len(skyline) > 1 else 0)
            for k, (y, w) in enumerate(skyline)
        ]

    def rows_of(self, skyline: Skyline) -> list[tuple[int, int, int]]:
        """Return how high each band of rows is, how far it runs, and the room above its floor."""
        if skyline == self._last[0]:
            return self._last[1]
        found = []
        levels = sorted({y for y, _ in skyline})
        for low, high in pairwise([*levels, self.height]):
            run, floor = 0, self.height
            for y, w in (*skyline, (self.height, 0)):
                if y <= low:
                    run += w
                    floor = min(floor, y)
                elif run:
                    found.append((high - low, run, self.height - floor))
                    run, floor = 0, self.height
        self._last = skyline, found
        return found

    def _row(self, k: int, room: int) -> list[int]:
        """Return what rows are worth at most under which inserts have ``room`` to stand."""
        if (k, room) not in self._rows:
            shares = self.prices[k].across
            some = {way.width: shares[way.width] for way in self.ways if way.height <= room}
            self._rows[k, room] = filled(some, self.width)
        return self._rows[k, room]

    def _notched(self, k: int, room: int, depth: int, width: int) -> int:
        """Return what a column is worth at most that begins in a notch ``depth`` deep.

        Only inserts as narrow as the notch can begin below its lower wall.
        """
        alike = bisect_right(self._widths, width)
        key = k, room, depth, alike
        if key not in self._narrow:
            shares, whole = self.prices[k].along, self.columns[k]
            narrow = {way.height: shares[way.height] for way in self.ways if way.width <= width}
            reached = {0: 0}
            most = whole[room - depth]
            rising = [0]
            while rising:
                at = heappop(rising)
                worth = reached[at]
                most = max(most, worth + whole[room - depth])
                for height, share in narrow.items():
                    top = at + height
                    if top > room:
                        continue
                    if top < depth:
                        if top not in reached:
                            heappush(rising, top)
                        reached[top] = max(reached.get(top, 0), worth + share)
                    else:
                        most = max(most, worth + share + whole[room - top])
            self._narrow[key] = most
        return self._narrow[key]
