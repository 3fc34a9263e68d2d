"""Pressing part-full on purpose: what the sheet wastes, and what could use the room."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from enum import StrEnum
from typing import NamedTuple

from engine.ganging.fullness import Problem
from engine.ganging.inserts import Coming, Item, Layout, fits, footprint, lay_out
from engine.model import Forme, Sheet, Value
from engine.model.waiting import Cancel, go_on
from engine.packing.rectangles import Footprint


class Why(StrEnum):
    """What an offer is for."""

    SPARE = "spare"
    """A second print of an insert that is often spoiled."""
    GAME = "game"
    """An insert that is nearly finished."""
    LABEL = "label"
    """A plain edge label."""
    STRIP = "strip"
    """A strip of the check page."""


class Offer(NamedTuple):
    """Something that could fill the room on a sheet."""

    item: Item
    why: Why


class Filled(Value, frozen=True):
    """A sheet that was filled up as far as it goes."""

    layout: Layout
    taken: tuple[Offer, ...]
    """The offers that found room."""
    wasted: float
    """Part of the stock's area that nothing uses, 0 to 1."""


def fill(
    items: Sequence[Item], offers: Sequence[Offer], forme: Forme, *, cancel: Cancel | None = None
) -> Filled | None:
    """Return one sheet with all ``items`` and as many ``offers`` as find room, in their order.

    None when the items themselves do not fit on one sheet. Under the knife rule both are looked
    for lying anyhow; what no way is found for is left out, so that what is returned can be
    printed, but an offer may be left that has room. Raises Cancelled.
    """
    if not all(fits(item, forme) for item in items):
        return None
    problem = Problem.of([*items, *(offer.item for offer in offers)], forme)
    lines: dict[Footprint, list[Item]] = {size: [] for size in problem.sizes}
    for item in items:
        lines[footprint(item, forme.gutter)].append(item)
    spots = problem.place(tuple(map(len, lines.values())))
    if spots is None:
        return None
    taken: list[Offer] = []
    without_room: set[Footprint] = set()
    for offer in offers:
        size = footprint(offer.item, forme.gutter)
        if size in without_room or size not in lines:
            continue
        go_on(cancel)
        lines[size].append(offer.item)
        if more := problem.place(tuple(map(len, lines.values()))):
            spots = more
            taken.append(offer)
        else:
            lines[size].pop()
            without_room.add(size)
    layout = lay_out(list(lines.values()), spots, forme)
    return Filled(layout, tuple(taken), 1 - layout.used)


def has_room(items: Iterable[Item], kinds: Iterable[Coming], forme: Forme) -> bool:
    """Return whether a sheet that holds all ``items`` could hold one more of any of ``kinds``.

    Exactly where each cut goes edge to edge; under the knife rule as far as a search can tell.
    The smallest are tried first, which mostly tells without listing what a sheet can hold.
    """
    held, more = tuple(items), [one for one in kinds if one.count]
    problem = Problem.of([*held, *more], forme)
    there = Counter(footprint(item, forme.gutter) for item in held)
    wanted = {footprint(one, forme.gutter) for one in more}
    smallest_first = sorted(wanted.intersection(problem.sizes), key=lambda size: size.area)
    grown = ([there[s] + (s == size) for s in problem.sizes] for size in smallest_first)
    return any(problem.place(tuple(counts)) is not None for counts in grown)


def spares(items: Iterable[Item], sheets: Iterable[Sheet]) -> tuple[Offer, ...]:
    """Return a spare of each item, those most often spoiled first.

    What was spoiled before goes by its own count, the others by how often their case kind is.
    """
    printed_on = (one for one in sheets if one.settled_at and not one.withdrawn_at)
    placed = [placement for sheet in printed_on for placement in sheet.placements]
    printed = Counter(one.case for one in placed)
    spoiled = Counter(one.case for one in placed if one.spoiled)
    own = Counter(one.game for one in placed if one.spoiled)

    def risk(item: Item) -> tuple[int, float, str]:
        rate = spoiled[item.case] / printed[item.case] if printed[item.case] else 0.0
        return -own[item.key], -rate, item.key

    return tuple(Offer(item, Why.SPARE) for item in sorted(items, key=risk))
