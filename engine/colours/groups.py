"""One colour for each group of games, so that a shelf reads as one and no two groups look alike.

What counts is the smallest CIEDE2000 difference between any two groups, as everyone sees them and
with each of the three colour-vision deficiencies. Black or white text reaches 4.58 to 1 on every
colour there is, so legibility never limits the choice. docs/artwork.md tells how it is searched.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from functools import cache, lru_cache
from itertools import combinations, count
from typing import TYPE_CHECKING, NamedTuple

from engine.colours.arrays import ciede2000, encoded, linear
from engine.colours.colour import channels, hex_colour, standing_out
from engine.colours.deficiency import Deficiency, lab_seen_as
from engine.colours.spreading import Task, spread
from engine.model import Sign, Value

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Distances = NDArray[np.float64]

TOLD_APART = 12.0
"""CIEDE2000 from which two groups are told apart on a shelf, seen one after the other and printed
at home; chosen by eye, no published source (1 is just noticeable side by side)."""

AGREE = 12.0
"""CIEDE2000 within which the pictures of one group have the same colour."""

AGREED_SHARE = 0.6
"""Part of a group's pictures that must have it."""

STRAY = 15.0
"""CIEDE2000 by which a group may leave its pictures' colour to keep clear of another group's."""

STARTS = 24
"""Beginnings of the search; the best end wins."""


class Origin(StrEnum):
    """Where a group's colour comes from."""

    PINNED = "pinned"
    """A person said so, or it is printed already."""
    PICTURES = "pictures"
    """Its games' own pictures agree on it, or nearly."""
    CHOSEN = "chosen"
    """From the set that is as distinct as possible."""


class Group(Value, frozen=True):
    """The games that share a colour."""

    name: str
    sides: tuple[str, ...] = ()
    """The base colours proposed for each of its games, ``#rrggbb``."""
    pinned: str = ""


class GroupColour(Value, frozen=True):
    """The colour of one group."""

    name: str
    colour: str
    origin: Origin
    sign: Sign = Sign.NONE


class GroupPalette(Value, frozen=True):
    """The colours of all groups."""

    groups: tuple[GroupColour, ...]
    smallest: float
    """The least CIEDE2000 difference of two groups to any eye; infinite for fewer than two."""
    closest: tuple[str, str] | None = None
    """The names of those two."""
    note: str = ""
    """What to say where they are too many to tell apart."""


def agreed_colour(colours: Sequence[str]) -> str | None:
    """Return the colour that most of ``colours`` share, None where they do not agree.

    The mean, in light, of the largest handful that lies within AGREE of one of them.
    """
    import numpy as np

    if not colours:
        return None
    lab = np.array([lab_seen_as(colour) for colour in colours])
    near = ciede2000(lab[:, None], lab[None, :]) <= AGREE
    middle = int(near.sum(axis=1).argmax())
    if near[middle].mean() < AGREED_SHARE:
        return None
    light = linear([channels(colour) for colour in colours])
    red, green, blue = encoded(np.asarray(light[near[middle]].mean(axis=0)))
    return hex_colour(red, green, blue)


def choose_colours(groups: Sequence[Group]) -> GroupPalette:
    """Return a colour for each of ``groups``, and signs where colours cannot tell them apart.

    Pinned ones stay. A group whose pictures agree takes their colour and leaves it, by STRAY at
    most, only to keep clear of another. The rest take what lies farthest from everything. The same
    groups in the same order give the same colours; pass what is printed already as pinned.
    """
    if not groups:
        return GroupPalette((), float("inf"))

    import numpy as np

    own = [group.pinned or agreed_colour(group.sides) or "" for group in groups]
    field = _ColourField.of(tuple(colour for colour in own if colour))
    given = count()
    start = tuple(next(given) if colour else -1 for colour in own)
    allowed = tuple(
        np.array([place] if group.pinned else field.near(place) if place >= 0 else field.grid)
        for group, place in zip(groups, start, strict=True)
    )
    chosen = spread(Task(field.apart, start, allowed, TOLD_APART), STARTS)
    origins = [
        Origin.PINNED if group.pinned else Origin.PICTURES if place >= 0 else Origin.CHOSEN
        for group, place in zip(groups, start, strict=True)
    ]
    colours = _standing_out(
        [field.colours[place] for place in chosen], [bool(group.pinned) for group in groups]
    )
    apart = _apart(colours)
    signs = _signs(apart)
    coloured = tuple(
        GroupColour(group.name, colour, origin, sign)
        for group, colour, origin, sign in zip(groups, colours, origins, signs, strict=True)
    )
    return _palette(coloured, apart)


def _standing_out(colours: Sequence[str], pinned: Sequence[bool]) -> tuple[str, ...]:
    """Return the colours, moved to where text stands out if that costs no two groups' difference.

    One that is told apart from all others stays so; none comes nearer to one that it is not.
    """
    found = list(colours)
    for nth, (colour, stays) in enumerate(zip(colours, pinned, strict=True)):
        moved = colour if stays else standing_out(colour)
        if moved != colour:
            others = (*found[:nth], *found[nth + 1 :])
            before, after = (_apart((one, *others))[0, 1:] for one in (colour, moved))
            if all(new >= min(old, TOLD_APART) for new, old in zip(after, before, strict=True)):
                found[nth] = moved
    return tuple(found)


def _signs(apart: Distances) -> list[Sign]:
    """Return a sign for each group so that groups too alike in colour never share one.

    Each takes the first sign that none of those before it and like it has; where all are taken,
    the one that the fewest have.
    """
    signs: list[Sign] = []
    for group in range(len(apart)):
        alike = [signs[other] for other in range(group) if apart[group, other] < TOLD_APART]
        signs.append(min(Sign, key=alike.count))
    return signs


def _palette(groups: tuple[GroupColour, ...], apart: Distances) -> GroupPalette:
    pairs = list(combinations(range(len(groups)), 2))
    if not pairs:
        return GroupPalette(groups, float("inf"))
    one, other = min(pairs, key=lambda pair: apart[pair])
    smallest = float(apart[one, other])
    names = (groups[one].name, groups[other].name)
    note = ""
    if smallest < TOLD_APART:
        note = (
            f"{len(groups)} groups are too many to tell apart by colour alone: {names[0]} and "
            f"{names[1]} come too near each other. A sign on the edge tells them apart"
        )
    return GroupPalette(groups, smallest, names, note)


class _ColourField(NamedTuple):
    """All colours a group can have and how far they lie apart."""

    colours: tuple[str, ...]
    """Those that were given first, then the grid."""
    apart: Distances
    """CIEDE2000, to the worst of the four eyes."""
    grid: list[int]

    @classmethod
    def of(cls, given: tuple[str, ...]) -> _ColourField:
        grid = printable_grid()
        colours = given + grid
        return cls(colours, _kept_apart(colours), list(range(len(given), len(colours))))

    def near(self, place: int) -> list[int]:
        """Return the colour at ``place`` and those of the grid within STRAY of it, to any eye."""
        lab = [lab_seen_as(colour) for colour in self.colours]
        close = ciede2000(lab, lab[place]) <= STRAY
        return [place, *(other for other in self.grid if close[other])]


@cache
def printable_grid() -> tuple[str, ...]:
    """Return colours evenly spread over what a home printer reaches, in OKLCh.

    Lightness from a soft black to a pale tint that still shows on white paper; chroma to 0.17,
    beyond which inks on card fall short of a screen (common practice, no published source).
    """
    from coloraide import Color

    found = set()
    for lightness in (0.24 + 0.06 * step for step in range(12)):
        for chroma in (0.0, 0.045, 0.09, 0.13, 0.17):
            for hue in range(0, 360, 15) if chroma else (0,):
                colour = Color("oklch", [lightness, chroma, hue]).convert("srgb")
                if colour.in_gamut(tolerance=0):
                    found.add(colour.to_string(hex=True))
    return tuple(sorted(found))


@lru_cache(maxsize=4)
def _kept_apart(colours: tuple[str, ...]) -> Distances:
    return _apart(colours)


def _apart(colours: Sequence[str]) -> Distances:
    """Return how far each two of ``colours`` lie apart, to the eye that tells them least."""
    import numpy as np

    one, other = np.triu_indices(len(colours), 1)
    least = np.full(len(one), np.inf)
    for kind in (None, *Deficiency):
        lab = np.array([lab_seen_as(colour, kind) for colour in colours])
        least = np.minimum(least, ciede2000(lab[one], lab[other]) if len(one) else least)
    table = np.zeros((len(colours), len(colours)))
    table[one, other] = table[other, one] = least
    return table
