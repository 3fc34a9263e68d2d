"""Which of several layouts of the same content is the tidiest: the one place that decides it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from engine.ganging.feed import Feed
from engine.ganging.footprints import Field, Spot, millimetres

_BLEED = 3.0
"""In mm: an offcut begins beyond a bleed, which is seldom more (common practice)."""
_FEED = Feed(Feed().width + _BLEED, Feed().height + _BLEED)


class Untidiness(NamedTuple):
    """How untidy a layout is; the least is the best."""

    offcut: int
    """Less the area of the largest block that stays blank at the far corner, in hundredths of
    a square millimetre; 0 if it is too small for a printer to feed."""
    lengths: int
    """Distinct lengths between cuts, across and along: about the settings that it takes."""
    turns: int
    """How often the cuts change direction on the way to an insert."""
    extent: int
    """The area of the rectangle around everything."""


def untidiness(field: Field, spots: Sequence[Spot]) -> Untidiness:
    """Return how untidy a layout is that begins at the lower left corner of ``field``."""
    right = max((spot.x + spot.width for spot in spots), default=0)
    top = max((spot.y + spot.height for spot in spots), default=0)
    lengths: set[tuple[int, int]] = set()
    turns = _measure(spots, 0, lengths)
    return Untidiness(-_offcut(field, spots), len(lengths), turns, right * top)


def tidiest(field: Field, layouts: Iterable[tuple[Spot, ...]]) -> tuple[Spot, ...] | None:
    """Return the tidiest of ``layouts``, None if there are none."""
    return min(layouts, key=lambda spots: (untidiness(field, spots), spots), default=None)


def _offcut(field: Field, spots: Sequence[Spot]) -> int:
    """Return the area of the largest block at the far corner that two cuts take off, or 0."""
    xs = sorted({0} | {spot.x + spot.width for spot in spots})
    largest = 0
    for x in xs:
        y = max((spot.y + spot.height for spot in spots if spot.x + spot.width > x), default=0)
        width, height = field.width - x, field.height - y
        if (
            width * height > largest
            and _FEED.takes(millimetres(width), millimetres(height))
            and (
                all(spot.x >= x or spot.x + spot.width <= x for spot in spots)
                or all(spot.y >= y or spot.y + spot.height <= y for spot in spots)
            )
        ):
            largest = width * height
    return largest


def _measure(spots: Sequence[Spot], axis: int, lengths: set[tuple[int, int]]) -> int:
    """Add the lengths between the cuts that free ``spots``, and return the turns it takes.

    What cannot be cut apart counts as one piece.
    """
    groups = _groups(spots, axis)
    turned = len(groups) == 1
    if turned:
        axis = 1 - axis
        groups = _groups(spots, axis)
    if len(groups) < 2:
        lengths |= {(0, spot.width) for spot in spots} | {(1, spot.height) for spot in spots}
        return 0
    lengths |= {(axis, after - before) for (before, _), (after, _) in pairwise(groups)}
    return max(turned + 1 + _measure(group, 1 - axis, lengths) for _, group in groups) - turned


def _groups(spots: Sequence[Spot], axis: int) -> list[tuple[int, list[Spot]]]:
    """Return what cuts across ``axis`` part, each with where it begins, in order."""
    groups: list[tuple[int, list[Spot]]] = []
    reach = -1
    for spot in sorted(spots, key=lambda spot: spot[1 + axis]):
        start = spot[1 + axis]
        if start >= reach:
            groups.append((start, []))
        groups[-1][1].append(spot)
        reach = max(reach, start + spot[3 + axis])
    return groups
