"""How many inserts of one kind a sheet has room for."""

from __future__ import annotations

from engine.ganging.fullness import Fullness, Problem
from engine.ganging.inserts import Coming
from engine.ganging.papers import roomy
from engine.model import Forme, Size

_MANY = 999
"""More than any sheet holds."""


def most_on(forme: Forme, case: str, size: Size, *, turns: bool) -> int:
    """Return how many inserts of this size in mm a full sheet holds; 0 where none fits.

    Names stand up the side where an insert needs the height of the foot, as on a pressed sheet.
    """
    coming = [Coming(case, size.width, size.height, turns, _MANY)]
    forme = roomy(forme, coming)
    if not forme.holds(*size, turns=turns):
        return 0
    return max(sum(full) for full in Fullness(Problem.of(coming, forme)).every((_MANY,)))
