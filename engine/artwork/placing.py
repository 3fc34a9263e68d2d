"""Where a window may begin along the way it crops, so that it cuts nothing that must stay whole.

All along one way, in pixels from the beginning of what is cropped.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import inf
from typing import NamedTuple

Interval = tuple[float, float]
"""Where a window may begin: from, to, both included."""

CLOSE = 1e-6
"""What is only the rounding of floats."""

STEPS = 32
"""Into which the whole reach is parted to try places between the ends of intervals."""


class Span(NamedTuple):
    """Something that is either whole in sight or not at all."""

    start: float
    end: float
    before: float
    """The room it needs between its start and the window's, where it is in sight."""
    after: float
    away: float
    """How far the window's end must stay from it, where it is not in sight."""
    may_go: bool

    def allows(self, shown: float) -> list[Interval]:
        """Return where a window of ``shown`` pixels may begin for its sake."""
        whole = [(self.end + self.after - shown, self.start - self.before)]
        if not self.may_go:
            return whole
        return [(-inf, self.start - self.away - shown), *whole, (self.end + self.away, inf)]


class Strip(NamedTuple):
    """A bar along the start or the end of what is cropped: enough of it stays, or nothing."""

    start: float
    end: float
    least: float
    """Part of it that may be left and still look meant."""

    def allows(self, shown: float) -> list[Interval]:
        """Return where a window of ``shown`` pixels may begin for its sake."""
        deep = self.least * (self.end - self.start)
        if self.start <= CLOSE:
            return [(-inf, self.end - deep), (self.end, inf)]
        return [(-inf, self.start - shown), (self.start + deep - shown, inf)]


def places(there: float, shown: float, things: Iterable[Span | Strip]) -> list[Interval]:
    """Return where a window of ``shown`` pixels on ``there`` may begin; nothing where nowhere."""
    found: list[Interval] = [(0.0, max(0.0, there - shown))]
    for thing in things:
        found = _common(found, thing.allows(shown))
    return found


def _common(some: Sequence[Interval], others: Sequence[Interval]) -> list[Interval]:
    pairs = ((max(a, c), min(b, d)) for a, b in some for c, d in others)
    return [(low, max(low, high)) for low, high in pairs if high - low >= -CLOSE]


def best(
    there: float, shown: float, where: Sequence[Interval], price: Callable[[float], float]
) -> float | None:
    """Return the place in ``where`` that costs least, the one nearest the middle of equals."""
    middle = (there - shown) / 2
    grid = [middle, *(step / STEPS * (there - shown) for step in range(STEPS + 1))]
    tried = {end for interval in where for end in interval}
    tried.update(at for at in grid if any(low <= at <= high for low, high in where))
    return min(tried, key=lambda at: (round(price(at), 6), abs(at - middle)), default=None)
