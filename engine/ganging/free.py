"""Free placement (the knife rule): whether a content fits a field anyhow, and where.

The field is filled from the foot upwards along its skyline, the upper edge of all that is laid
so far. In any packing the inserts can be pushed down and to the left until each lies against
something, so that in the lowest notch of the skyline there are three cases only: an insert
stands in its left corner; or the first insert on its floor stands further right, against one
that overhangs from the left wall of the notch; or nothing stands on its floor, and the notch
stays empty up to its lower wall. What stays empty is counted against the paper that the content
leaves over, and a branch ends as soon as more must be wasted than there is.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from functools import cache
from typing import NamedTuple

from engine.ganging.footprints import Field, Footprint, Spot
from engine.ganging.vectors import Counts, total
from engine.ganging.waiting import Cancel, go_on

_RECENT = 16
"""Skylines above which nothing fitted that a new one is compared with."""
_MOST = 250
"""Inserts on one sheet that are searched for; each is a call within a call."""
_ASKED = 1024
"""Steps between two looks at whether the person still waits."""


class Undecided(Exception):  # noqa: N818 - nothing went wrong
    """The search was given up before it had an answer."""


class _Step(NamedTuple):
    """A level stretch of the skyline."""

    x: int
    y: int
    width: int


_Skyline = tuple[_Step, ...]


class FreeSearch:
    """Looks for a free placement of one content."""

    def __init__(
        self,
        field: Field,
        sizes: Sequence[Footprint],
        counts: Counts,
        *,
        effort: int,
        cancel: Cancel | None = None,
    ) -> None:
        """Prepare to lay ``counts`` of ``sizes`` on ``field`` in at most ``effort`` steps."""
        self.sizes = tuple(sizes)
        self.counts = counts
        self.ways = [tuple(sorted(set(size.ways), reverse=True)) for size in sizes]
        self.effort = effort
        self.cancel = cancel
        self._reach = cache(self._reach_of)
        self.limits = field.width, field.height
        across, along = self._reach(counts)
        # No row and no column can be covered further than to the longest sum of sides.
        self.width, self.height = across.bit_length() - 1, along.bit_length() - 1
        self.starts = tuple(x for x in range(self.width) if across >> x & 1)
        area = total(counts, (size.area for size in sizes))
        self.spare = self.width * self.height - area
        # Turned over left to right or upside down, a packing is still one, so that one insert
        # can be asked to lie in the lower left of the field.
        single = [i for i, n in enumerate(counts) if n == 1]
        self.single = max(single, key=lambda i: self.sizes[i].area, default=-1)
        self.seen: set[tuple[_Skyline, Counts]] = set()
        self.failed: dict[Counts, list[_Skyline]] = {}
        """Skylines above which there is no room for what is left."""
        self.steps = 0

    def find(self) -> tuple[Spot, ...] | None:
        """Return where everything lies, or None if it cannot. Raises Undecided, Cancelled."""
        if self.spare < 0:
            return None
        if sum(self.counts) > _MOST:
            raise Undecided
        floor = (_Step(0, 0, self.width),)
        found = self._lay(floor, self.counts, self.spare)
        return None if found is None else tuple(found)

    def _lay(self, skyline: _Skyline, left: Counts, spare: int) -> list[Spot] | None:
        """Return places for all that is ``left`` above ``skyline``, wasting ``spare`` at most."""
        if not any(left):
            return []
        lost = self.failed.setdefault(left, [])
        if (skyline, left) in self.seen or any(_lower(other, skyline) for other in lost[-_RECENT:]):
            return None
        self._count_step()
        if self._hopeless(skyline, left, spare):
            return None
        for place, raised, wasted in self._moves(skyline, left, spare):
            if place is None:
                found = self._lay(raised, left, spare - wasted)
                if found is not None:
                    return found
                continue
            rest = tuple(n - (i == place.size) for i, n in enumerate(left))
            found = self._lay(raised, rest, spare - wasted)
            if found is not None:
                return [place, *found]
        lost.append(skyline)
        self.seen.add((skyline, left))
        return None

    def _count_step(self) -> None:
        self.steps += 1
        if self.steps > self.effort:
            raise Undecided
        if self.steps % _ASKED == 0:
            go_on(self.cancel)

    def _moves(
        self, skyline: _Skyline, left: Counts, spare: int
    ) -> Iterator[tuple[Spot | None, _Skyline, int]]:
        """Yield what can be done in the lowest notch: an insert or none, and what it wastes."""
        at = min(range(len(skyline)), key=lambda k: skyline[k].y)
        x, y, width = skyline[at]
        left_wall = skyline[at - 1].y if at else self.height
        right_wall = skyline[at + 1].y if at + 1 < len(skyline) else self.height
        ways = [
            (w, h, index)
            for index, count in enumerate(left)
            if count
            for w, h in self.ways[index]
            if w <= width
            and y + h <= self.height
            and (index != self.single or 2 * y + h <= self.height)
        ]
        ways.sort(key=lambda way: (way[0] != width, -way[0] * way[1], way))
        for w, h, index in ways:
            if index != self.single or 2 * x + w <= self.width:
                yield Spot(index, x, y, w, h), _raise(skyline, at, x, w, y + h), 0
        if at:
            yield from self._gaps(skyline, at, ways, left_wall, spare)
        lower = min(left_wall, right_wall)
        wasted = width * (lower - y)
        if len(skyline) > 1 and wasted <= spare:
            yield None, _raise(skyline, at, x, width, lower), wasted

    def _gaps(
        self,
        skyline: _Skyline,
        at: int,
        ways: Sequence[tuple[int, int, int]],
        wall: int,
        spare: int,
    ) -> Iterator[tuple[Spot, _Skyline, int]]:
        """Yield inserts that stand off the left wall, under one that overhangs from it."""
        x, y, width = skyline[at]
        for start in self.starts[bisect_right(self.starts, x) :]:
            wasted = (start - x) * (wall - y)
            if start >= x + width or wasted > spare:
                break
            for w, h, index in ways:
                if index == self.single and 2 * start + w > self.width:
                    continue
                if start + w <= x + width and y + h > wall:
                    filled = _raise(skyline, at, x, start - x, wall)
                    notch = next(k for k, step in enumerate(filled) if step.x == start)
                    yield (
                        Spot(index, start, y, w, h),
                        _raise(filled, notch, start, w, y + h),
                        wasted,
                    )

    def _hopeless(self, skyline: _Skyline, left: Counts, spare: int) -> bool:
        """Return whether more must stay empty than may, or an insert has no room left."""
        across, along = self._reach(left)
        columns = sum(width * short(along, self.height - y) for _, y, width in skyline)
        if columns > spare or self._rows(skyline, across) > spare:
            return True
        return any(
            count and not any(self._has_room(skyline, w, h) for w, h in self.ways[index])
            for index, count in enumerate(left)
        )

    def _rows(self, skyline: _Skyline, across: int) -> int:
        """Return what must stay empty because no sum of widths fills the rows."""
        levels = sorted({step.y for step in skyline})
        empty = 0
        for low, high in zip(levels, [*levels[1:], self.height], strict=True):
            run = missing = 0
            for _, y, width in skyline:
                if y <= low:
                    run += width
                elif run:
                    missing += short(across, run)
                    run = 0
            if run:
                missing += short(across, run)
            empty += missing * (high - low)
        return empty

    def _reach_of(self, counts: Counts) -> tuple[int, int]:
        """Return the lengths that sides of ``counts`` add up to, across and along, as bits."""
        widths = [[w for w, _ in ways] for ways in self.ways]
        heights = [[h for _, h in ways] for ways in self.ways]
        return side_sums(widths, counts, self.limits[0]), side_sums(heights, counts, self.limits[1])

    def _has_room(self, skyline: _Skyline, w: int, h: int) -> bool:
        run = 0
        for step in skyline:
            run = run + step.width if step.y + h <= self.height else 0
            if run >= w:
                return True
        return False


def _raise(skyline: _Skyline, at: int, x: int, width: int, y: int) -> _Skyline:
    """Return ``skyline`` with part of step ``at`` raised to ``y``, level steps joined."""
    old = skyline[at]
    parts = [_Step(x, y, width)]
    if x > old.x:
        parts.insert(0, _Step(old.x, old.y, x - old.x))
    if x + width < old.x + old.width:
        parts.append(_Step(x + width, old.y, old.x + old.width - x - width))
    joined: list[_Step] = []
    for step in (*skyline[:at], *parts, *skyline[at + 1 :]):
        if joined and joined[-1].y == step.y:
            joined[-1] = _Step(joined[-1].x, step.y, joined[-1].width + step.width)
        else:
            joined.append(step)
    return tuple(joined)


def _lower(one: _Skyline, other: _Skyline) -> bool:
    """Return whether ``one`` is nowhere above ``other``."""
    n = 0
    for x, y, width in one:
        while True:
            step = other[n]
            if y > step.y:
                return False
            if step.x + step.width >= x + width:
                break
            n += 1
        if step.x + step.width == x + width:
            n += 1
    return True


def short(reach: int, room: int) -> int:
    """Return by how much the longest sum of sides falls short of ``room``."""
    return room + 1 - (reach & ((1 << (room + 1)) - 1)).bit_length()


def side_sums(lengths: Sequence[Sequence[int]], counts: Counts, limit: int) -> int:
    """Return a bit for every sum of sides of distinct inserts up to ``limit``."""
    reached = 1
    window = (1 << (limit + 1)) - 1
    for some, count in zip(lengths, counts, strict=True):
        for _ in range(count):
            before = reached
            for length in some:
                reached |= (before << length) & window
            if reached == before:
                break
    return reached
