"""The queue: which finished inserts to press together now, and what the next sheet lacks."""

from __future__ import annotations

from collections import Counter, defaultdict, deque
from collections.abc import Iterable, Sequence
from datetime import datetime
from itertools import chain, islice

from engine.ganging.backlog import Runs
from engine.ganging.footprints import (
    Coming,
    Field,
    Footprint,
    Item,
    Lack,
    Laid,
    Layout,
    Spot,
    footprint,
    footprints,
    millimetres,
    tenths,
)
from engine.ganging.fullness import fullness
from engine.ganging.knife import arrange_by
from engine.ganging.planning import fewest
from engine.ganging.vectors import Counts, total
from engine.ganging.waiting import Cancel, go_on
from engine.model import Forme, Value


class Ganged(Value, frozen=True):
    """What the queue gives now."""

    ready: tuple[Layout, ...]
    """Full sheets, in the order in which to press them."""
    open: Layout | None
    """The sheet that is filling, laid out so that what it lacks can be added; None if empty."""
    lacks: tuple[Lack, ...]
    """What the open sheet still needs to be full."""
    too_large: tuple[str, ...] = ()
    """Keys of inserts that do not fit the sheet at all."""


def gang(
    queue: Sequence[Item],
    coming: Sequence[Coming],
    forme: Forme,
    *,
    patience: int = 4,
    cancel: Cancel | None = None,
) -> Ganged:
    """Return the full sheets that ``queue`` gives, and the open one with what it lacks.

    A content is full when nothing of ``queue`` or ``coming`` could be added to it in any layout.
    The least offcut goes first, the longest waiting between equals; when the oldest insert has
    been passed over by ``patience`` sheets it must be on the next one, even if that has to wait
    for what it lacks. When nothing more is coming, the sheets are the fewest that can be.
    Raises Cancelled when ``cancel`` says so.
    """
    line = Line(queue, coming, forme)
    ready = line.press_by_offcut(patience, cancel)
    if not line.more_is_coming:
        thrifty = Line(queue, (), forme)
        runs = fewest(thrifty.field, thrifty.sizes, thrifty.held, forme.rule, cancel=cancel)
        if runs.sheets < len(ready):
            line, ready = thrifty, thrifty.press_by_plan(runs)
    layout, lacks = line.open_sheet(patience)
    return Ganged(tuple(ready), layout, lacks, tuple(line.too_large))


def gang_part_full(
    queue: Sequence[Item], forme: Forme, *, cancel: Cancel | None = None
) -> tuple[Layout, ...]:
    """Return the fewest sheets that print everything in ``queue``, full or not.

    Raises Cancelled when ``cancel`` says so.
    """
    line = Line(queue, (), forme)
    runs = fewest(line.field, line.sizes, line.held, forme.rule, cancel=cancel)
    return tuple(line.press_by_plan(runs))


def lay_out(
    items: Iterable[Item], sizes: Sequence[Footprint], spots: Iterable[Spot], forme: Forme
) -> Layout:
    """Return ``items`` laid on ``spots``, those of one footprint in their order.

    Spots for which there is no item stay open.
    """
    lying: dict[Footprint, deque[Item]] = defaultdict(deque)
    for item in items:
        lying[footprint(item, forme.gutter)].append(item)
    laid = tuple(
        _laid(lying[size].popleft(), spot, forme)
        for spot in spots
        if lying[size := sizes[spot.size]]
    )
    area = sum(one.width * one.height for one in laid)
    return Layout(laid, area / (forme.stock.width * forme.stock.height))


class Line:
    """The inserts that wait, the oldest of each footprint first. Pressing takes them away."""

    def __init__(self, queue: Sequence[Item], coming: Sequence[Coming], forme: Forme) -> None:
        """Sort what waits and what may still come by footprint."""
        self.forme = forme
        self.field = Field.of(forme)
        known = footprints([*queue, *coming], forme.gutter)
        self.sizes = tuple(size for size in known if size.fits(self.field))
        self._waiting: dict[Footprint, deque[Item]] = {size: deque() for size in self.sizes}
        self.too_large: list[str] = []
        for item in sorted(queue, key=_seniority):
            size = footprint(item, forme.gutter)
            if size in self._waiting:
                self._waiting[size].append(item)
            else:
                self.too_large.append(item.key)
        self._coming: dict[Footprint, list[Coming]] = defaultdict(list)
        for more in coming:
            self._coming[footprint(more, forme.gutter)].append(more)
        self._passed = {item.key: item.passed for item in queue}
        gutter = tenths(forme.gutter)
        self.areas = tuple((s.width - gutter) * (s.height - gutter) for s in self.sizes)

    @property
    def held(self) -> Counts:
        """Return how many of each footprint wait."""
        return tuple(len(self._waiting[size]) for size in self.sizes)

    @property
    def bound(self) -> Counts:
        """Return how many of each footprint wait or may still come."""
        return tuple(
            len(self._waiting[size]) + sum(more.count for more in self._coming[size])
            for size in self.sizes
        )

    @property
    def more_is_coming(self) -> bool:
        """Return whether anything that fits may still come."""
        return self.held != self.bound

    def press_by_offcut(self, patience: int, cancel: Cancel | None = None) -> list[Layout]:
        """Take full sheets, the least offcut first, for as long as there are any."""
        full = fullness(self.field, self.sizes, self.areas, self.forme.rule)
        sheets = []
        while any(held := self.held):
            go_on(cancel)
            must, wished = self._overdue(patience), self._spoiled()
            ties = full.ready(held, self.bound, must)
            if wished is not None and must is None:
                ties = full.ready(held, self.bound, wished) or ties
            if not ties:
                break
            sheets.append(self._take(min(ties, key=lambda one: (self._ages(one), one))))
        return sheets

    def press_by_plan(self, runs: Runs) -> list[Layout]:
        """Take the sheets of a plan for all that waits, each made as full as it can be."""
        full = fullness(self.field, self.sizes, self.areas, self.forme.rule)
        sheets = []
        for counts in sorted(
            (counts for times, counts in runs.runs for _ in range(times)),
            key=lambda one: (-self._area(one), one),
        ):
            part = tuple(map(min, counts, self.held))
            if any(part):
                sheets.append(self._take(full.filled(part, self.held)))
        # Under the knife rule a search may not find again what the plan's own search found:
        # what that leaves goes on sheets that are known.
        while any(self.held):
            sheets.append(self._take(full.filled((0,) * len(self.sizes), self.held)))
            if not sheets[-1].laid:
                break
        return [sheet for sheet in sheets if sheet.laid]

    def open_sheet(self, patience: int) -> tuple[Layout | None, tuple[Lack, ...]]:
        """Return the sheet that is filling and what it lacks, without taking anything."""
        full = fullness(self.field, self.sizes, self.areas, self.forme.rule)
        held = self.held
        target = full.target(held, self.bound, self._overdue(patience))
        if target is None:
            return None, ()
        missing = tuple(max(a - b, 0) for a, b in zip(target, held, strict=True))
        return self.lay(target), self._lacks(missing)

    def _overdue(self, patience: int) -> int | None:
        """Return the footprint of the oldest insert, if it has been passed over often enough."""
        oldest = self._oldest()
        if oldest is None or self._passed[oldest.key] < patience:
            return None
        return self.sizes.index(footprint(oldest, self.forme.gutter))

    def _spoiled(self) -> int | None:
        """Return the footprint of the first insert in line if it is there for the second time."""
        first = self._oldest()
        if first is None or not first.spoiled:
            return None
        return self.sizes.index(footprint(first, self.forme.gutter))

    def _oldest(self) -> Item | None:
        heads = [items[0] for items in self._waiting.values() if items]
        return min(heads, key=_seniority, default=None)

    def _area(self, counts: Counts) -> int:
        return total(counts, self.areas)

    def _ages(self, counts: Counts) -> list[tuple[bool, datetime, str]]:
        return sorted(
            _seniority(item)
            for n, size in zip(counts, self.sizes, strict=True)
            for item in islice(self._waiting[size], n)
        )

    def _lacks(self, missing: Counts) -> tuple[Lack, ...]:
        lacks: Counter[str] = Counter()
        for count, size in zip(missing, self.sizes, strict=True):
            left = count
            for more in self._coming[size]:
                given = min(left, more.count)
                lacks[more.case] += given
                left -= given
        return tuple(Lack(case, count) for case, count in lacks.items() if count)

    def _take(self, counts: Counts) -> Layout:
        """Take ``counts`` off the line and lay them out."""
        sheet = self.lay(counts)
        taken = {laid.key for laid in sheet.laid}
        for items in self._waiting.values():
            while items and items[0].key in taken:
                items.popleft()
            for item in items:
                self._passed[item.key] += 1
        return sheet

    def lay(self, counts: Counts) -> Layout:
        """Lay out ``counts``, leaving open the places for which nothing waits yet."""
        spots = arrange_by(self.forme.rule, self.field, self.sizes, counts) or ()
        first = (islice(self._waiting[size], n) for n, size in zip(counts, self.sizes, strict=True))
        return lay_out(chain.from_iterable(first), self.sizes, spots, self.forme)


def _laid(item: Item, spot: Spot, forme: Forme) -> Laid:
    own = footprint(item._replace(turns=False), forme.gutter)
    rotated = (spot.width, spot.height) != (own.width, own.height)
    width, height = (item.height, item.width) if rotated else (item.width, item.height)
    return Laid(
        item.key,
        item.case,
        forme.field.x + millimetres(spot.x),
        forme.field.y + millimetres(spot.y),
        width,
        height,
        rotated,
    )


def _seniority(item: Item) -> tuple[bool, datetime, str]:
    return not item.spoiled, item.since, item.key
