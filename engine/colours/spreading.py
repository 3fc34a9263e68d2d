"""Picking one point for each of several things so that the two nearest lie as far apart as may be.

A max-min dispersion problem: started many times from the point farthest from what is there, then
bettered by moving one of the two that lie nearest until no move helps.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Distances = NDArray[np.float64]
    Points = NDArray[np.intp]


class Task(NamedTuple):
    """What is to be placed."""

    apart: Distances
    """The distance of every two points."""
    start: tuple[int, ...]
    """The point each thing has already, -1 for none."""
    allowed: tuple[Points, ...]
    """The points each thing may have."""
    enough: float
    """A thing that has a point leaves it only while another thing lies nearer than this."""


ROUNDS = 300
"""Moves after which one start is given up."""


def spread(task: Task, starts: int) -> list[int]:
    """Return a point for each thing; always the same answer to the same task.

    Answers are compared by the distances from each thing to the one nearest to it, the least
    first, so that what cannot be bettered does not keep the rest from being bettered.
    """
    import numpy as np

    free = [thing for thing, point in enumerate(task.start) if point < 0]
    answers = []
    for attempt in range(starts if free else 1):
        order = np.random.default_rng(attempt).permutation(len(free))
        places = _bettered(task, _placed(task, [free[i] for i in order], attempt))
        answers.append((sorted(_nearest(task.apart, places)), places))
    return max(answers)[1]


def _placed(task: Task, free: Sequence[int], attempt: int) -> list[int]:
    """Return a first answer: each free thing, in turn, as far as it can be from what is there."""
    import numpy as np

    places = list(task.start)
    for thing in free:
        there = [place for place in places if place >= 0]
        choices = task.allowed[thing]
        if there:
            places[thing] = int(choices[_reach(task.apart, choices, there).argmax()])
        else:
            places[thing] = int(np.random.default_rng(attempt).choice(choices))
    return places


def _bettered(task: Task, places: list[int]) -> list[int]:
    """Return ``places`` after moving the most crowded things until no single move helps."""
    for _ in range(ROUNDS):
        nearest = _nearest(task.apart, places)
        crowded = sorted(range(len(places)), key=lambda thing: nearest[thing])
        moved = next(filter(None, (_moved(task, places, nearest, each) for each in crowded)), None)
        if moved is None:
            break
        places = moved
    return places


def _moved(task: Task, places: list[int], nearest: list[float], thing: int) -> list[int] | None:
    """Return ``places`` with ``thing`` where it stands freer; None where it should stay."""
    import numpy as np

    had = task.start[thing]
    others = places[:thing] + places[thing + 1 :]
    if not others or (had >= 0 and nearest[thing] >= task.enough):
        return None
    choices = task.allowed[thing]
    reach = _reach(task.apart, choices, others)
    best = int(reach.argmax())
    if had >= 0 and reach[best] >= task.enough:
        far = np.where(reach >= task.enough, task.apart[choices, had], np.inf)
        best = int(far.argmin())
    if reach[best] <= nearest[thing] + 1e-9:
        return None
    moved = [*places[:thing], int(choices[best]), *places[thing + 1 :]]
    return moved if sorted(_nearest(task.apart, moved)) > sorted(nearest) else None


def _reach(apart: Distances, choices: Points, others: Sequence[int]) -> NDArray[np.float64]:
    """Return for each of ``choices`` how far the nearest of ``others`` lies."""
    import numpy as np

    return np.asarray(apart[others].min(axis=0)[choices])


def _nearest(apart: Distances, places: Sequence[int]) -> list[float]:
    """Return for each thing how far the nearest other one lies; infinite for a thing alone."""
    import numpy as np

    among = apart[places][:, places]
    np.fill_diagonal(among, np.inf)
    return [float(each) for each in among.min(axis=1)] if len(places) > 1 else [np.inf]
