"""What can be done in the lowest notch of a skyline, and how far a skyline can be raised."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence

from engine.ganging.bars import Way
from engine.ganging.raster import sums
from engine.ganging.roof import Skyline


class Moves:
    """The moves on one field."""

    def __init__(self, width: int, height: int, ways: Sequence[Way]) -> None:
        """Prepare for inserts that lie in any of ``ways``."""
        self.height = height
        self.narrowest = min(way.width for way in ways)
        self.across = sums((way.width for way in ways), width)
        reach = sums((way.height for way in ways), height)
        self.lifted = [
            height - reach[bisect_right(reach, height - y) - 1] for y in range(height + 1)
        ]
        """Of each height, how high it can be raised without losing room for an insert."""

    def of(
        self, skyline: Skyline, ways: Sequence[Way], bearable: Callable[[Skyline, int], bool]
    ) -> Iterator[tuple[Way | None, Skyline]]:
        """Yield each insert of ``ways``, or none, in the lowest notch, and the skyline then.

        ``bearable`` says whether a skyline is worth going on with after so much was left empty
        beside the left wall; what leaves more is then left out.
        """
        at = min(range(len(skyline)), key=lambda k: skyline[k][0])
        y, width = skyline[at]
        if y == self.height:
            return
        before, after = skyline[:at], skyline[at + 1 :]
        left = before[-1][0] if before else self.height
        right = after[0][0] if after else self.height
        fitting = [way for way in ways if way.width <= width and y + way.height <= self.height]
        for way in fitting:
            yield way, (*before, *_standing(way, y, width), *after)
        tall = [way for way in fitting if y + way.height > left]
        if before and tall:
            for gap in self._gaps(before, width - self.narrowest):
                aside = *before, (left, gap), (y, width - gap), *after
                if not bearable(aside, gap * (left - y)):
                    break
                for way in tall:
                    if way.width <= width - gap:
                        stood = _standing(way, y, width - gap)
                        yield way, (*before, (left, gap), *stood, *after)
        if len(skyline) > 1:
            yield None, (*before, (min(left, right), width), *after)

    def _gaps(self, before: Skyline, most: int) -> list[int]:
        """Return how far off the left wall an insert may stand, against one that overhangs.

        That one lies against a wall further left, or against others that do.
        """
        x = sum(w for _, w in before)
        found: set[int] = set()
        at, wall = 0, self.height
        for y, w in before:
            if wall > y:
                nearest = bisect_right(self.across, x - at)
                found.update(at + reach - x for reach in self.across[nearest:])
            at, wall = at + w, y
        return sorted(gap for gap in found if gap <= most)

    def settled(self, skyline: Skyline) -> Skyline:
        """Return ``skyline`` raised as far as it loses no room, and from the side that is less.

        Whatever comes above can be pushed up against the upper edge, so that no insert stands
        lower than its column of heights leaves it; and a notch narrower than any insert stays
        empty. Turned over left to right, the same fits above.
        """
        steps = _joined([(self.lifted[y], w) for y, w in skyline])
        while True:
            for k, (y, w) in enumerate(steps):
                if w < self.narrowest:
                    left = steps[k - 1][0] if k else self.height
                    right = steps[k + 1][0] if k + 1 < len(steps) else self.height
                    if min(left, right) > y:
                        steps[k] = min(left, right), w
                        steps = _joined(steps)
                        break
            else:
                return min(tuple(steps), tuple(steps[::-1]))


def _standing(way: Way, y: int, width: int) -> Skyline:
    """Return the skyline of a floor at ``y`` with an insert in its left corner."""
    rest = ((y, width - way.width),) if width > way.width else ()
    return (y + way.height, way.width), *rest


def _joined(steps: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    joined: list[tuple[int, int]] = []
    for y, w in steps:
        if joined and joined[-1][0] == y:
            joined[-1] = y, joined[-1][1] + w
        else:
            joined.append((y, w))
    return joined
