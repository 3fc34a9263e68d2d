"""Inserts as rectangles: what waits, what may still come, and how both lie on a sheet."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from math import ceil, floor
from typing import NamedTuple

from engine.model import Forme, Value

_TENTHS = 10
_SLACK = 1e-6
"""Lengths closer than this, in tenths of a millimetre, are the same: floating point is not
paper."""


class Item(NamedTuple):
    """A finished insert that waits to be printed."""

    key: str
    case: str
    width: float
    """Of the finished insert in mm, without bleed or gutter."""
    height: float
    turns: bool
    """Whether it may lie turned by 90 degrees."""
    since: datetime
    """When it was finished: the longest waiting goes first."""
    passed: int = 0
    """Sheets already pressed while it waited."""
    spoiled: bool = False
    """Printed before and not usable: first in line."""


class Coming(NamedTuple):
    """Inserts of one case kind that the rest of the backlog can still bring."""

    case: str
    width: float
    height: float
    turns: bool
    count: int  # type: ignore[assignment]  # hides a tuple's method of that name


class Unfinished(NamedTuple):
    """A game whose insert is not finished yet."""

    key: str
    case: str
    width: float
    """Of the finished insert in mm, without bleed or gutter."""
    height: float
    turns: bool
    begun: bool = False
    """The person has decided something about it already: it comes first."""
    wanted: bool = True
    """It passes the filter; the others only count as what may still come."""


class Laid(NamedTuple):
    """A finished insert on the stock, in mm from its lower left corner, without bleed."""

    key: str
    case: str
    x: float
    y: float
    width: float
    """As it lies, after any rotation."""
    height: float
    rotated: bool
    """Turned 90 degrees counter-clockwise."""


class Layout(Value, frozen=True):
    """One sheet's worth of inserts."""

    laid: tuple[Laid, ...]
    used: float
    """Part of the stock's area that the finished inserts take, 0 to 1."""


class Lack(NamedTuple):
    """Inserts of one case kind that a sheet still needs to be full."""

    case: str
    count: int  # type: ignore[assignment]  # hides a tuple's method of that name


class Footprint(NamedTuple):
    """A size an insert takes on a sheet: integer tenths of a millimetre, gutter included."""

    width: int
    height: int
    turns: bool

    @property
    def area(self) -> int:
        """Return its area in hundredths of a square millimetre."""
        return self.width * self.height

    @property
    def ways(self) -> tuple[tuple[int, int], ...]:
        """Return the widths and heights in which it may lie."""
        if self.turns:
            return (self.width, self.height), (self.height, self.width)
        return ((self.width, self.height),)

    def fits(self, field: Field) -> bool:
        """Return whether ``field`` has room for it."""
        return any(w <= field.width and h <= field.height for w, h in self.ways)


class Spot(NamedTuple):
    """A footprint on the field, in tenths of a millimetre from its lower left corner."""

    size: int
    """Index of the footprint."""
    x: int
    y: int
    width: int
    height: int


class Field(NamedTuple):
    """The room for footprints on a sheet, in integer tenths of a millimetre.

    Between two inserts lies one gutter, beside the last one none, so a gutter is added to
    every insert and to the field.
    """

    width: int
    height: int

    @classmethod
    def of(cls, forme: Forme) -> Field:
        """Return the room that ``forme`` leaves; never more than there is."""
        field = forme.field
        return cls(_down(field.width + forme.gutter), _down(field.height + forme.gutter))


def footprint(insert: Item | Coming | Unfinished, gutter: float) -> Footprint:
    """Return the footprint of an insert, rounded up to the tenth, the longer side as width.

    Inserts that may be turned have the same footprint whichever way round they are given.
    """
    width, height = _up(insert.width + gutter), _up(insert.height + gutter)
    if not insert.turns or width == height:
        return Footprint(width, height, turns=False)
    return Footprint(max(width, height), min(width, height), turns=True)


def fits(insert: Item | Coming | Unfinished, forme: Forme) -> bool:
    """Return whether a sheet has room for an insert at all."""
    return footprint(insert, forme.gutter).fits(Field.of(forme))


def footprints(inserts: Iterable[Item | Coming], gutter: float) -> tuple[Footprint, ...]:
    """Return the distinct footprints of ``inserts``, the largest first."""
    distinct = {footprint(insert, gutter) for insert in inserts}
    return tuple(sorted(distinct, key=lambda size: (-size.area, size)))


def _up(mm: float) -> int:
    return ceil(mm * _TENTHS - _SLACK)


def _down(mm: float) -> int:
    return floor(mm * _TENTHS + _SLACK)


def tenths(mm: float) -> int:
    """Return the nearest whole number of tenths of a millimetre."""
    return round(mm * _TENTHS)


def millimetres(tenths: int) -> float:
    """Return ``tenths`` of a millimetre in mm."""
    return tenths / _TENTHS
