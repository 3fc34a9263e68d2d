"""How fast a person works, read off the times of what they did.

A *sitting* is a run of things done with no longer break than two hours between them: an evening,
in words. Times alone tell it, whatever the time zone. Where nobody noted that inserts were put
into their cases, there is no pace.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from itertools import accumulate
from math import ceil

from engine.model import Value

BREAK = timedelta(hours=2)
"""A longer one parts two sittings (common practice, no published source)."""
LOOKED_BACK = 8
"""So many weeks make the pace."""
_WEEK = timedelta(weeks=1)


class Week(Value, frozen=True):
    """A week, by its first moment, and the games that were done in it."""

    begins: datetime
    done: int
    """Games fitted in it."""
    total: int
    """Games fitted by its end."""


class Pace(Value, frozen=True):
    """How fast the work went, and what is left at that pace."""

    weeks: tuple[Week, ...]
    """The last ones, the present one last; none before the first thing was done."""
    left: int
    """Games that are still to be fitted."""
    evenings: int
    """Sittings in the weeks that make the pace."""
    done_a_week: float
    """Games fitted, on average of those weeks."""
    done_an_evening: float
    minutes_a_game: float | None
    """From the first to the last thing done in a sitting, by the games fitted; None where no
    game was."""
    evenings_left: int | None
    """None where there is no pace yet."""
    hours_left: float | None
    done_by: datetime | None
    """When the last game is fitted at this pace."""


def sittings(times: Iterable[datetime]) -> tuple[tuple[datetime, datetime], ...]:
    """Return the first and the last moment of each sitting, in order."""
    found: list[tuple[datetime, datetime]] = []
    for at in sorted(times):
        if found and at - found[-1][1] <= BREAK:
            found[-1] = (found[-1][0], at)
        else:
            found.append((at, at))
    return tuple(found)


def pace(fitted: Sequence[datetime], worked: Iterable[datetime], left: int, now: datetime) -> Pace:
    """Return the pace of someone who fitted games at these times.

    ``worked`` are the times of all that was done, fitting too; ``left`` games are to be fitted.
    """
    times = [at for at in worked if at <= now]
    weeks = _weeks(fitted, min(times, default=now), now)
    since = now - len(weeks[-LOOKED_BACK:]) * _WEEK
    done = sum(at > since for at in fitted)
    sat = [one for one in sittings(times) if one[1] > since]
    spent = sum((end - begin for begin, end in sat), timedelta())
    an_evening = done / len(sat) if sat else 0.0
    a_week = done / len(weeks[-LOOKED_BACK:])
    minutes = spent / timedelta(minutes=1) / done if done else None
    return Pace(
        weeks=weeks,
        left=left,
        evenings=len(sat),
        done_a_week=a_week,
        done_an_evening=an_evening,
        minutes_a_game=minutes,
        evenings_left=ceil(left / an_evening - 1e-9) if an_evening else None,
        hours_left=left * minutes / 60 if minutes is not None else None,
        done_by=now + left / a_week * _WEEK if a_week else None,
    )


def _weeks(fitted: Sequence[datetime], first: datetime, now: datetime) -> tuple[Week, ...]:
    """Return the weeks that end now, back to the first thing done: one at least."""
    count = max(1, ceil((now - first) / _WEEK))
    begins = [now - n * _WEEK for n in range(count, 0, -1)]
    done = [sum(begin < at <= begin + _WEEK for at in fitted) for begin in begins]
    done[0] += sum(at <= begins[0] for at in fitted)
    return tuple(
        Week(begin, some, total)
        for begin, some, total in zip(begins, done, accumulate(done), strict=True)
    )
