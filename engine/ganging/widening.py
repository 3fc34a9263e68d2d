"""Spare room on a sheet: it goes into bleed and gutters before it becomes an offcut.

What is ganged is decided at the least bleed and gutter, so that no more sheets are needed. The
same inserts are then laid out once more with as much of both as the sheet has room for: a trimmer
may err by more, and the numbers of the cuts find room between the inserts.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

import msgspec

from engine.ganging.inserts import Layout
from engine.ganging.laying import laid_anew
from engine.model import Forme
from engine.model.units import Mm

_STEP = 0.5
"""Between one bleed that is tried and the next, in mm; gutters are twice as far apart."""


@lru_cache(maxsize=256)
def widened(layout: Layout, forme: Forme, bleed: Mm, gutter: Mm) -> tuple[Layout, Forme]:
    """Return the inserts of a sheet laid out with bleed and gutters up to these, and how.

    Bleed goes first, then the gutter; every insert keeps the way it lies round. What is there
    already where the sheet has no more room, or where these are no more than the forme's own.
    """
    for wider in _bleeds(forme, bleed, gutter):
        least = msgspec.structs.replace(forme, bleed=wider, gutter=max(forme.gutter, 2 * wider))
        found = laid_anew(layout, least)
        if found is None:
            continue
        for between in _gutters(least.gutter, gutter):
            more = msgspec.structs.replace(least, gutter=between)
            if (roomier := laid_anew(layout, more)) is not None:
                return roomier, more
        return found, least
    return layout, forme


def _bleeds(forme: Forme, most: Mm, gutter: Mm) -> Iterator[Mm]:
    """Yield the bleeds to try, the widest first, the forme's own last."""
    wider = min(most, gutter / 2)
    while wider > forme.bleed:
        yield wider
        wider -= _STEP
    yield forme.bleed


def _gutters(least: Mm, most: Mm) -> Iterator[Mm]:
    """Yield the gutters to try that are wider than the least, the widest first."""
    while most > least:
        yield most
        most -= 2 * _STEP
