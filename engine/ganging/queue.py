"""The queue: which finished inserts to press together now, and what the next sheet lacks."""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Sequence
from datetime import datetime
from itertools import islice

from engine.ganging.fullness import Fullness, Problem, fullness
from engine.ganging.inserts import Coming, Item, Lack, Layout, footprint, lay_out
from engine.model import Forme, Value
from engine.model.waiting import Cancel, go_on
from engine.packing.cutting_stock import fewest
from engine.packing.cutting_stock.column_generation import CuttingPlan
from engine.packing.rectangles import Counts, minus, plus, total


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

    A sheet is full when nothing of ``queue`` or ``coming`` could be added to it in any layout;
    under the knife rule, in any that is found. The least offcut goes first, the longest waiting
    between equals; when the oldest insert has been passed over by ``patience`` sheets it must be
    on the next one, even if that has to wait for what it lacks. When nothing more is coming, the
    sheets are as few as a plan for all makes them. Raises Cancelled when ``cancel`` says so.
    """
    line = Line(queue, coming, forme, patience)
    ready = line.press_by_offcut(cancel)
    if line.held == line.bound:
        thrifty = Line(queue, (), forme)
        plan = thrifty.plan(thrifty.held, cancel)
        if plan.sheets < len(ready):
            line, ready = thrifty, thrifty.press_by_plan(plan)
    layout, lacks = line.open_sheet()
    return Ganged(tuple(ready), layout, lacks, tuple(line.too_large))


def gang_part_full(
    queue: Sequence[Item], forme: Forme, *, cancel: Cancel | None = None
) -> tuple[Layout, ...]:
    """Return the fewest sheets found that print everything in ``queue``, full or not.

    Raises Cancelled when ``cancel`` says so.
    """
    line = Line(queue, (), forme)
    return tuple(line.press_by_plan(line.plan(line.held, cancel)))


class Line:
    """The inserts that wait, the oldest of each footprint first. Pressing takes them away."""

    def __init__(
        self, queue: Sequence[Item], coming: Sequence[Coming], forme: Forme, patience: int = 4
    ) -> None:
        """Sort what waits and what may still come by footprint."""
        self.forme, self.patience = forme, patience
        self.problem = Problem.of([*queue, *coming], forme)
        self._waiting: list[deque[Item]] = [deque() for _ in self.problem.sizes]
        self._coming: list[list[Coming]] = [[] for _ in self.problem.sizes]
        self._pressed = 0
        self.too_large: list[str] = []
        index = {size: n for n, size in enumerate(self.problem.sizes)}
        for item in sorted(queue, key=lambda item: item.seniority):
            n = index.get(footprint(item, forme.gutter))
            if n is None:
                self.too_large.append(item.key)
            else:
                self._waiting[n].append(item)
        for more in coming:
            n = index.get(footprint(more, forme.gutter))
            if n is not None:
                self._coming[n].append(more)

    @property
    def full(self) -> Fullness:
        """Return what a sheet can be full of."""
        return fullness(self.problem)

    @property
    def held(self) -> Counts:
        """Return how many of each footprint wait."""
        return tuple(map(len, self._waiting))

    @property
    def bound(self) -> Counts:
        """Return how many of each footprint wait or may still come."""
        return plus(self.held, tuple(sum(one.count for one in some) for some in self._coming))

    def plan(self, wanted: Counts, cancel: Cancel | None) -> CuttingPlan:
        """Return the fewest sheets for so many of each footprint."""
        field, sizes, _, freely = self.problem
        return fewest(field, sizes, wanted, freely=freely, cancel=cancel)

    def press_by_offcut(self, cancel: Cancel | None = None) -> list[Layout]:
        """Take full sheets, the least offcut first, for as long as there are any."""
        sheets: list[Layout] = []
        while any(held := self.held):
            go_on(cancel)
            overdue, spoiled = self._due()
            ties = self.full.ready(held, self.bound, overdue if spoiled is None else spoiled)
            if not ties and overdue is None and spoiled is not None:
                ties = self.full.ready(held, self.bound, None)
            if not ties:
                break
            sheets.append(self._take(min(ties, key=lambda one: (self._ages(one), one))))
        return sheets

    def press_by_plan(self, plan: CuttingPlan) -> list[Layout]:
        """Take the sheets of a plan for all that waits, each made as full as it can be."""
        every = [counts for times, counts in plan.runs for _ in range(times)]
        sheets: list[Layout] = []
        for counts in sorted(every, key=lambda one: (-total(one, self.problem.areas), one)):
            part = tuple(map(min, counts, self.held))
            if any(part):
                sheets.append(self._take(self.full.filled(part, self.held)))
        # Under the knife rule a search may not find again what the plan's own search found:
        # what that leaves goes on sheets that are known.
        while any(self.held):
            sheets.append(self._take(self.full.filled((0,) * len(self.held), self.held)))
        return [sheet for sheet in sheets if sheet.laid]

    def open_sheet(self) -> tuple[Layout | None, tuple[Lack, ...]]:
        """Return the sheet that is filling and what it lacks, without taking anything."""
        held = self.held
        target = self.full.target(held, self.bound, self._due()[0])
        if target is None:
            return None, ()
        return self._lay(target), self._lacks(minus(target, held))

    def _due(self) -> tuple[int | None, int | None]:
        """Return the footprint of the oldest insert if it is overdue, and if it was spoiled."""
        heads = [(items[0].seniority, n) for n, items in enumerate(self._waiting) if items]
        if not heads:
            return None, None
        _, n = min(heads)
        oldest = self._waiting[n][0]
        overdue = oldest.passed + self._pressed >= self.patience
        return n if overdue else None, n if oldest.spoiled and not overdue else None

    def _ages(self, counts: Counts) -> list[tuple[bool, datetime, str]]:
        return sorted(
            item.seniority
            for n, items in zip(counts, self._waiting, strict=True)
            for item in islice(items, n)
        )

    def _lacks(self, missing: Counts) -> tuple[Lack, ...]:
        lacks: Counter[str] = Counter()
        for count, some in zip(missing, self._coming, strict=True):
            cases = (more.case for more in some for _ in range(more.count))
            lacks.update(islice(cases, count))
        return tuple(Lack(case, count) for case, count in lacks.items())

    def _take(self, counts: Counts) -> Layout:
        """Take ``counts`` off the line and lay them out."""
        layout = self._lay(counts)
        if layout.laid:
            self._pressed += 1
            for n, items in zip(counts, self._waiting, strict=True):
                for _ in range(min(n, len(items))):
                    items.popleft()
        return layout

    def _lay(self, counts: Counts) -> Layout:
        """Lay out ``counts``, leaving open the places for which nothing waits yet."""
        return lay_out(self._waiting, self.problem.place(counts) or (), self.forme)
