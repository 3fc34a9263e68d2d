"""The queue: which finished inserts to press together now, and what the next sheet lacks."""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Sequence
from datetime import datetime

from engine.ganging.contents import Spot, contents
from engine.ganging.footprints import (
    Coming,
    Field,
    Footprint,
    Item,
    Lack,
    Laid,
    Layout,
    footprint,
    footprints,
    millimetres,
)
from engine.ganging.vectors import Counts
from engine.values import Forme, Value


class Ganged(Value, frozen=True):
    """What the queue gives now."""

    ready: tuple[Layout, ...]
    """Full sheets, in the order in which to press them."""
    open: Layout | None
    """The sheet that is filling, laid out so that what it lacks can be added; None is empty."""
    lacks: tuple[Lack, ...]
    """What the open sheet still needs to be full."""
    too_large: tuple[str, ...] = ()
    """Keys of inserts that do not fit the sheet at all."""


def gang(
    queue: Sequence[Item], coming: Sequence[Coming], forme: Forme, *, patience: int = 4
) -> Ganged:
    """Return the full sheets that ``queue`` gives, and the open one with what it lacks.

    A content is full when nothing of ``queue`` or ``coming`` could be added to it in any layout.
    The least offcut goes first, the longest waiting between equals; when the oldest insert has
    been passed over by ``patience`` sheets it must be on the next one.
    """
    return _Queue(queue, coming, forme, patience).gang()


def gang_part_full(queue: Sequence[Item], forme: Forme) -> tuple[Layout, ...]:
    """Return sheets that print everything in ``queue``, whether they are full or not."""
    return gang(queue, (), forme).ready


class _Queue:
    """The items that wait, by footprint, oldest first."""

    def __init__(
        self, queue: Sequence[Item], coming: Sequence[Coming], forme: Forme, patience: int
    ) -> None:
        self.forme = forme
        self.patience = patience
        self.sizes = footprints([*queue, *coming], forme.gutter)
        self.contents = contents(Field.of(forme), self.sizes)
        fits = {size for i, size in enumerate(self.sizes) if self.contents.holds(self._one(i))}
        self.waiting: dict[Footprint, deque[Item]] = {size: deque() for size in self.sizes}
        self.too_large: list[str] = []
        for item in sorted(queue, key=_seniority):
            size = footprint(item, forme.gutter)
            if size in fits:
                self.waiting[size].append(item)
            else:
                self.too_large.append(item.key)
        self.coming: dict[Footprint, list[Coming]] = defaultdict(list)
        for more in coming:
            self.coming[footprint(more, forme.gutter)].append(more)
        self.passed: dict[str, int] = {item.key: item.passed for item in queue}

    def gang(self) -> Ganged:
        ready: list[Layout] = []
        while (content := self._choose(self._full())) is not None:
            ready.append(self._take(content))
        target = self._target()
        if target is None:
            return Ganged(tuple(ready), None, (), tuple(self.too_large))
        held = self._held()
        lacks = self._lacks(tuple(max(a - b, 0) for a, b in zip(target, held, strict=True)))
        return Ganged(tuple(ready), self._take(target), lacks, tuple(self.too_large))

    def _one(self, index: int) -> Counts:
        return tuple(int(index == i) for i in range(len(self.sizes)))

    def _held(self) -> Counts:
        return tuple(len(self.waiting[size]) for size in self.sizes)

    def _full(self) -> list[Counts]:
        """Return the contents that are full while this much waits and may still come."""
        bound = tuple(
            held + sum(more.count for more in self.coming[size])
            for held, size in zip(self._held(), self.sizes, strict=True)
        )
        capped = {tuple(map(min, most, bound)) for most in self.contents.maximal}
        return [
            one
            for one in sorted(capped)
            if any(one) and not any(one != other and _within(one, other) for other in capped)
        ]

    def _choose(self, full: Sequence[Counts]) -> Counts | None:
        held, due = self._held(), self._due()
        can = [
            content
            for content in full
            if _within(content, held) and (due is None or content[due] > 0)
        ]
        return min(
            can,
            key=lambda content: (-self._area(content), self._age(content), content),
            default=None,
        )

    def _due(self) -> int | None:
        """Return the footprint of the oldest insert, if it has waited for long enough."""
        oldest = self._oldest()
        if oldest is None or not (oldest.first or self.passed[oldest.key] >= self.patience):
            return None
        return self.sizes.index(footprint(oldest, self.forme.gutter))

    def _oldest(self) -> Item | None:
        heads = [items[0] for items in self.waiting.values() if items]
        return min(heads, key=_seniority, default=None)

    def _area(self, content: Counts) -> int:
        return sum(n * size.area for n, size in zip(content, self.sizes, strict=True))

    def _age(self, content: Counts) -> list[tuple[bool, datetime, str]]:
        return sorted(
            _seniority(self.waiting[size][i])
            for n, size in zip(content, self.sizes, strict=True)
            for i in range(n)
        )

    def _target(self) -> Counts | None:
        """Return the full content that needs the fewest more inserts."""
        held, due = self._held(), self._due()
        if not any(held):
            return None
        return min(
            (content for content in self._full() if due is None or content[due] > 0),
            key=lambda content: (
                sum(max(a - b, 0) for a, b in zip(content, held, strict=True)),
                -self._area(tuple(map(min, content, held))),
                content,
            ),
            default=None,
        )

    def _lacks(self, missing: Counts) -> tuple[Lack, ...]:
        lacks: dict[str, int] = defaultdict(int)
        for count, size in zip(missing, self.sizes, strict=True):
            left = count
            for more in self.coming[size]:
                given = min(left, more.count)
                left -= given
                if given:
                    lacks[more.case] += given
        return tuple(Lack(case, count) for case, count in lacks.items())

    def _take(self, content: Counts) -> Layout:
        """Take ``content`` off the queue, as far as it is there, and lay it out."""
        laid = []
        for spot in self.contents.lay(content):
            items = self.waiting[self.sizes[spot.size]]
            if items:
                laid.append(_laid(items.popleft(), spot, self.forme))
        for items in self.waiting.values():
            for item in items:
                self.passed[item.key] += 1
        return layout(laid, self.forme)


def layout(laid: Sequence[Laid], forme: Forme) -> Layout:
    """Return ``laid`` with the part of the stock that it uses."""
    area = sum(one.width * one.height for one in laid)
    return Layout(tuple(laid), area / (forme.stock.width * forme.stock.height))


def _laid(item: Item, spot: Spot, forme: Forme) -> Laid:
    own = footprint(item._replace(turns=False), forme.gutter)
    rotated = (spot.width, spot.height) != (own.width, own.height)
    width, height = (item.height, item.width) if rotated else (item.width, item.height)
    field = forme.field
    return Laid(
        item.key,
        item.case,
        field.x + millimetres(spot.x),
        field.y + millimetres(spot.y),
        width,
        height,
        rotated,
    )


def _seniority(item: Item) -> tuple[bool, datetime, str]:
    return not item.first, item.since, item.key


def _within(inner: Counts, outer: Counts) -> bool:
    return all(a <= b for a, b in zip(inner, outer, strict=True))
