"""Inserts as rectangles: what waits, what may still come, and how both lie on a sheet.

Packing counts in whole tenths of a millimetre. Between two inserts lies one gutter, beside the
last one none, so a gutter is added to every insert and to the field.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import UTC, datetime
from typing import NamedTuple

from engine.model import Design, Forme, Placement, Value
from engine.model.units import TENTHS, taken, there
from engine.packing.rectangles import Field, Footprint, Spot

LONG_AGO = datetime.min.replace(tzinfo=UTC)
"""Since when an insert waits of which that makes no difference."""


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

    @property
    def seniority(self) -> tuple[bool, datetime, str]:
        """Return its place in line: what was spoiled goes first, then what waits longest."""
        return not self.spoiled, self.since, self.key


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

    def finished(self, since: datetime) -> Item:
        """Return its insert once it is finished."""
        return Item(self.key, self.case, self.width, self.height, self.turns, since)


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

    def placed(self, game: str, design: Design | None, *, spare: bool = False) -> Placement:
        """Return it as it lies on a sheet for a game, '' for none, by its design."""
        return Placement(
            game=game,
            case=self.case,
            design=design.fingerprint if design else "",
            x=self.x,
            y=self.y,
            width=self.width,
            height=self.height,
            rotated=self.rotated,
            spare=spare,
        )


class Layout(Value, frozen=True):
    """One sheet's worth of inserts."""

    laid: tuple[Laid, ...]
    used: float
    """Part of the stock's area that the finished inserts take, 0 to 1."""

    @property
    def from_top(self) -> list[Laid]:
        """The inserts as they are numbered: from the top left down."""
        return sorted(self.laid, key=lambda one: (-(one.y + one.height), one.x))


class Lack(Value, frozen=True):
    """Inserts of one case kind that a sheet still needs to be full."""

    case: str
    count: int


def footprint(insert: Item | Coming | Unfinished, gutter: float) -> Footprint:
    """Return the footprint of an insert, rounded up to the tenth, the longer side as width.

    Inserts that may be turned have the same footprint whichever way round they are given.
    """
    width, height = taken(insert.width + gutter), taken(insert.height + gutter)
    if not insert.turns or width == height:
        return Footprint(width, height, turns=False)
    return Footprint(max(width, height), min(width, height), turns=True)


def fits(insert: Item | Coming | Unfinished, forme: Forme) -> bool:
    """Return whether a sheet has room for an insert at all."""
    return forme.holds(insert.width, insert.height, turns=insert.turns)


def footprints(inserts: Iterable[Item | Coming], gutter: float) -> tuple[Footprint, ...]:
    """Return the distinct footprints of ``inserts``, the largest first."""
    distinct = {footprint(insert, gutter) for insert in inserts}
    return tuple(sorted(distinct, key=lambda size: (-size.area, size)))


def field_of(forme: Forme) -> Field:
    """Return the room that ``forme`` leaves for footprints; never more than there is."""
    field = forme.field
    return Field(there(field.width + forme.gutter), there(field.height + forme.gutter))


def areas(sizes: Iterable[Footprint], gutter: float) -> tuple[int, ...]:
    """Return the areas of finished inserts in hundredths of a square millimetre."""
    less = round(gutter * TENTHS)
    return tuple((size.width - less) * (size.height - less) for size in sizes)


def lay_out(lines: Sequence[Iterable[Item]], spots: Iterable[Spot], forme: Forme) -> Layout:
    """Return inserts laid on ``spots``: of each footprint's line the first ones.

    Spots for which there is no insert stay open.
    """
    heads = [iter(line) for line in lines]
    field, gutter = forme.field, forme.gutter
    laid = []
    area = 0.0
    for spot in spots:
        item = next(heads[spot.size], None)
        if item is not None:
            rotated = spot.width != taken(item.width + gutter)
            width, height = (item.height, item.width) if rotated else (item.width, item.height)
            x, y = field.x + spot.x / TENTHS, field.y + spot.y / TENTHS
            laid.append(Laid(item.key, item.case, x, y, width, height, rotated))
            area += width * height
    return Layout(tuple(laid), area / (forme.stock.width * forme.stock.height))
