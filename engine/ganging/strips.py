"""Where the check bars and the names of a sheet stand: the one rule.

A strip along the foot holds a level bar, names and the number; one up the left side an upright bar,
and the names where inserts need the height. Where one strip alone leaves room for clearly more
inserts, they are ganged so; a sheet of them that has room for the other bar gets it all the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import lru_cache

import msgspec

from engine.ganging.fullness import Fullness, Problem
from engine.ganging.inserts import Coming, Item, Layout
from engine.ganging.laying import laid_anew
from engine.model import Forme, Rule, Size
from engine.model.paper import BAR_STRIP

_MANY = 999
"""More than any sheet holds."""
_DEAR = Fraction(20, 19)
"""What a sheet with one bar counts, against one with both."""


def roomy(forme: Forme, inserts: Iterable[Item | Coming]) -> Forme:
    """Return how a stock is laid out for these inserts.

    So that as many sizes fit as can, and then so that they take the fewest sheets, each size on
    sheets of its own. Both bars are kept unless one sheet in twenty is saved, and the names stand
    along the foot between equals.
    """
    counts: dict[Coming, int] = {}
    for one in inserts:
        size = Coming("", one.width, one.height, one.turns, 1)
        counts[size] = counts.get(size, 0) + (one.count if isinstance(one, Coming) else 1)
    held = {way: _held(way, counts) for way in forme.ways}
    most = held[forme]
    for sizes in held.values():
        most = sizes if sizes > most else most
    fitting = {size: counts[size] for size in most}
    ways = [way for way, sizes in held.items() if sizes == most]
    return min(ways, key=lambda way: _sheets(way, fitting) * (1 if way.has_both_strips else _DEAR))


def with_bars(layout: Layout, forme: Forme, usual: Forme) -> tuple[Layout, Forme]:
    """Return the inserts of a sheet laid out so that both bars have room, where they can be.

    ``usual`` is how a sheet of the stock is laid out, where there is room.
    """
    if forme.has_both_strips:
        return layout, forme
    return _with_bars(layout, forme, usual)


def most_on(forme: Forme, case: str, size: Size, *, turns: bool) -> int:
    """Return how many inserts of this size in mm a full sheet holds; 0 where none fits."""
    coming = Coming(case, size.width, size.height, turns, _MANY)
    forme = roomy(forme, [coming])
    return _most(Problem.of([coming], forme)) if forme.holds(*size, turns=turns) else 0


def _held(forme: Forme, sizes: Iterable[Coming]) -> frozenset[Coming]:
    return frozenset(one for one in sizes if forme.holds(one.width, one.height, turns=one.turns))


def _sheets(forme: Forme, counts: Mapping[Coming, int]) -> Fraction:
    """Return how many sheets so many of each size take, all of which fit: each on its own sheets.

    Counted edge to edge under the knife rule too: it is for comparing.
    """
    edge_to_edge = msgspec.structs.replace(forme, rule=Rule.TRIMMER)
    each = (Fraction(n, _most(Problem.of([one], edge_to_edge))) for one, n in counts.items())
    return sum(each, start=Fraction())


@lru_cache(maxsize=256)
def _most(problem: Problem) -> int:
    return max(sum(full) for full in Fullness(problem).every((_MANY,)))


@lru_cache(maxsize=256)
def _with_bars(layout: Layout, forme: Forme, usual: Forme) -> tuple[Layout, Forme]:
    missing = {"side": BAR_STRIP} if forme.foot else {"foot": BAR_STRIP}
    for way in (*usual.with_bars, msgspec.structs.replace(forme, **missing)):
        found = laid_anew(layout, way)
        if found is not None:
            return found, way
    return layout, forme
