"""Contents that a search hopes for, as bits: which of them a part of a sheet can still become."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from functools import cache

from engine.ganging.free import short, side_sums
from engine.ganging.vectors import Counts, total

Steps = Sequence[tuple[int, int]]


class Goals:
    """A set of contents, each of them a bit."""

    def __init__(
        self,
        contents: Sequence[Counts] | None,
        width: int,
        height: int,
        sizes: Sequence[Sequence[tuple[int, int]]],
    ) -> None:
        """Take in ``contents`` of a field; None stands for any content at all.

        Of each footprint, ``sizes`` says in which widths and heights it may lie.
        """
        self.any = contents is None
        self.width, self.height = width, height
        self._sizes = sizes
        room = width * height
        areas = [max((w * h for w, h in ways), default=0) for ways in sizes]
        spare = {one: room - total(one, areas) for one in contents or ()}
        # The one that leaves least room comes first, so that those that can spare some are the
        # upper bits.
        self._contents = sorted(spare, key=lambda one: (spare[one], one))
        self._spare = [spare[one] for one in self._contents]
        self.all = 1 if self.any else (1 << len(self._contents)) - 1
        self.holding = cache(self._holding)
        self._reach = cache(self._reach_of)

    def _holding(self, index: int, count: int) -> int:
        """Return those with at least ``count`` of one footprint."""
        if self.any:
            return 1
        return sum(1 << k for k, one in enumerate(self._contents) if one[index] >= count)

    def sparing(self, waste: int) -> int:
        """Return those that leave room for ``waste``."""
        if self.any:
            return 1
        # The first whose spare room is enough; all above it have more.
        return -1 << bisect_right(self._spare, waste - 1)

    def reachable(self, goals: int, counts: Counts, columns: Steps, rows: Steps, waste: int) -> int:
        """Return ``goals`` less some that have no room above a skyline, where ``counts`` lie.

        What is missing of a goal fills columns and rows only up to the longest sum of its sides;
        all that stays empty so, above the ``waste`` so far, must be spared. It stops at the first
        goal that can be. Each of ``columns`` and ``rows`` is how many there are and their room.
        """
        if self.any:
            return goals
        while goals:
            top = goals.bit_length() - 1
            left = tuple(n - m for n, m in zip(self._contents[top], counts, strict=True))
            across, along = self._reach(left)
            spare = self._spare[top] - waste
            if (
                sum(many * short(along, room) for many, room in columns) <= spare
                and sum(many * short(across, room) for many, room in rows) <= spare
            ):
                break
            goals ^= 1 << top
        return goals

    def _reach_of(self, counts: Counts) -> tuple[int, int]:
        widths = [[w for w, _ in ways] for ways in self._sizes]
        heights = [[h for _, h in ways] for ways in self._sizes]
        return side_sums(widths, counts, self.width), side_sums(heights, counts, self.height)
