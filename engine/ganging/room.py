"""How many inserts of one kind a sheet has room for, and how they lie on it."""

from __future__ import annotations

from datetime import UTC, datetime

from engine.ganging.fullness import Fullness, Problem
from engine.ganging.inserts import Coming, Item, Layout, lay_out
from engine.ganging.papers import Proposed, roomy
from engine.model import Forme, Size

_MANY = 999
"""More than any sheet holds."""


def most_on(forme: Forme, case: str, size: Size, *, turns: bool) -> int:
    """Return how many inserts of this size in mm a full sheet holds; 0 where none fits.

    Names stand up the side where an insert needs the height of the foot, as on a pressed sheet.
    """
    coming = _many(case, size, turns=turns)
    forme = roomy(forme, [coming])
    return _most(Problem.of([coming], forme)) if forme.holds(*size, turns=turns) else 0


def full_of(forme: Forme, case: str, size: Size, *, turns: bool) -> Proposed:
    """Return a sheet with as many inserts of this size in mm as it holds, numbered from 0.

    None of them lies on it where there is no room for one.
    """
    coming = _many(case, size, turns=turns)
    forme = roomy(forme, [coming])
    if not forme.holds(*size, turns=turns):
        return Proposed(forme, Layout((), 0.0))
    problem = Problem.of([coming], forme)
    most, now = _most(problem), datetime.min.replace(tzinfo=UTC)
    items = [Item(f"{n}", case, *size, turns, now) for n in range(most)]
    return Proposed(forme, lay_out([items], problem.place((most,)) or (), forme))


def _many(case: str, size: Size, *, turns: bool) -> Coming:
    return Coming(case, size.width, size.height, turns, _MANY)


def _most(problem: Problem) -> int:
    return max(sum(full) for full in Fullness(problem).every((_MANY,)))
