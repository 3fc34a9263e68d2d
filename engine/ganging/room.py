"""A sheet full of inserts of one kind."""

from __future__ import annotations

from engine.ganging.fullness import Problem
from engine.ganging.inserts import LONG_AGO, Coming, Item, Layout, lay_out
from engine.ganging.papers import Proposed
from engine.ganging.strips import most_on, roomy
from engine.model import Forme, Size


def full_of(forme: Forme, case: str, size: Size, *, turns: bool) -> Proposed:
    """Return a sheet with as many inserts of this size in mm as it holds, numbered from 0.

    None of them lies on it where there is no room for one.
    """
    most = most_on(forme, case, size, turns=turns)
    coming = Coming(case, *size, turns, most)
    forme = roomy(forme, [coming])
    if not most:
        return Proposed(forme, Layout((), 0.0))
    items = [Item(f"{n}", case, *size, turns, LONG_AGO) for n in range(most)]
    return Proposed(
        forme, lay_out([items], Problem.of([coming], forme).place((most,)) or (), forme)
    )
