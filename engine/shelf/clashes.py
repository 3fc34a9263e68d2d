"""What strikes the eye on a shelf as a whole and is seen on no insert alone.

The bounds are chosen by eye on the demo, no published source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import StrEnum
from itertools import pairwise
from typing import NamedTuple

from engine.colours import difference

ALIKE = 4.0
"""CIEDE2000 below which two neighbours look like one case; 1 is just seen side by side."""
APART = 16.0
"""CIEDE2000 above which a colour is another than that of its series."""
JUMPS = 1.3
"""Type that is so many times as large as that of both its neighbours, or as small, jumps."""
_SERIES = 3
"""Games that make a series of which a colour can be that of most."""


class Clash(StrEnum):
    """What is wrong."""

    ALIKE = "alike"
    SERIES = "series"
    SIZE = "size"


class Seen(NamedTuple):
    """What is seen of an edge on the shelf."""

    game: str
    title: str
    series: str
    group: str
    """The group that gave it its colour; empty for none."""
    line: str
    """Edges that stand in one line have the same: a way of storage and a kind of edge."""
    colour: str
    size: float
    """Of its title, in points; 0 without one."""


class Found(NamedTuple):
    """A clash."""

    what: Clash
    games: tuple[str, ...]
    """The one to mend first."""
    words: str


def clashes(shelf: Sequence[Seen]) -> Iterator[Found]:
    """Yield what clashes on a shelf, in its order; each kind of clash by itself."""
    yield from _alike(shelf)
    yield from _broken_series(shelf)
    yield from _jumps(shelf)


def _alike(shelf: Sequence[Seen]) -> Iterator[Found]:
    """Yield neighbours that one takes for each other; a group or series shares its colour."""
    for one, other in pairwise(shelf):
        shared = (one.group and one.group == other.group) or (
            one.series and one.series == other.series
        )
        if not shared and one.line == other.line and difference(one.colour, other.colour) < ALIKE:
            words = f"{other.title} has the colour of {one.title} beside it"
            yield Found(Clash.ALIKE, (other.game, one.game), words)


def _broken_series(shelf: Sequence[Seen]) -> Iterator[Found]:
    """Yield games whose colour is not that of most of their series."""
    series: dict[str, list[Seen]] = {}
    for one in shelf:
        if one.series:
            series.setdefault(one.series, []).append(one)
    for name, games in series.items():
        if len(games) < _SERIES:
            continue
        like = {one.game: [o for o in games if _near(one, o)] for one in games}
        most = max(like.values(), key=len)
        if 2 * len(most) <= len(games):
            continue
        kept = {one.game for one in most}
        for one in games:
            if one.game not in kept:
                words = f"{one.title} has another colour than its series, {name}"
                yield Found(Clash.SERIES, (one.game, most[0].game), words)


def _near(one: Seen, other: Seen) -> bool:
    return difference(one.colour, other.colour) <= APART


def _jumps(shelf: Sequence[Seen]) -> Iterator[Found]:
    """Yield titles that are much larger or smaller than those on both sides of them."""
    for before, one, after in zip(shelf, shelf[1:], shelf[2:], strict=False):
        beside = [other.size for other in (before, after) if other.line == one.line]
        if len(beside) < 2 or not all((one.size, *beside)):
            continue
        if one.size > JUMPS * max(beside):
            said = "larger"
        elif one.size * JUMPS < min(beside):
            said = "smaller"
        else:
            continue
        words = f"the title of {one.title} is {said} than those beside it, {one.size:g} pt"
        yield Found(Clash.SIZE, (one.game,), words)
