"""What next: which games to finish now, so that every batch ends with only full sheets.

A batch is clean when nothing waits after its sheets are pressed. How many inserts a sheet holds
seldom divides by the size of a batch, so several batches are worked out together: a run of
batches ends clean when full contents, with what waits already, add up to exactly as many games.
The shortest such run is taken, the one that wastes least paper first, as long as the rest of
the backlog can still be printed on the fewest sheets.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from heapq import nsmallest
from itertools import islice
from typing import NamedTuple

from engine.ganging.backlog import Runs
from engine.ganging.footprints import Coming, Footprint, Item, Unfinished, footprint
from engine.ganging.fullness import fullness
from engine.ganging.planning import fewest
from engine.ganging.queue import Line, gang
from engine.ganging.vectors import Counts
from engine.ganging.waiting import Cancel
from engine.model import Forme, Value

_LONGEST = 48
"""Games that are looked ahead at most."""
_ALIKE = 12
_TRIES = 8


class Batch(Value, frozen=True):
    """Games to finish together."""

    keys: tuple[str, ...]
    sheets: int
    """Full sheets that can be pressed after it."""
    waits: int
    """Inserts that wait for a later sheet then."""

    @property
    def clean(self) -> bool:
        """Return whether the batch ends with only full sheets."""
        return not self.waits


def next_batch(
    queue: Sequence[Item],
    backlog: Sequence[Unfinished],
    forme: Forme,
    *,
    size: int = 6,
    patience: int = 4,
    cancel: Cancel | None = None,
) -> Batch | None:
    """Return the games to finish next, None when there are none; as ``batches`` does."""
    every = batches(queue, backlog, forme, size=size, patience=patience, cancel=cancel)
    return next(every, None)


def batches(
    queue: Sequence[Item],
    backlog: Sequence[Unfinished],
    forme: Forme,
    *,
    size: int = 6,
    patience: int = 4,
    cancel: Cancel | None = None,
) -> Iterator[Batch]:
    """Yield the batches in which to finish ``backlog``, ``size`` games each, to the last.

    Games begun come first, then the order of the list; inserts that do not fit the sheet last.
    Each batch is worked out when it is asked for. Raises Cancelled when ``cancel`` says so.
    """
    table = _Table(queue, backlog, forme, patience, cancel)
    while table.wanted():
        run = table.next_run(size)
        while run:
            yield table.finish(run[:size])
            run = run[size:]


class _Run(NamedTuple):
    """Full contents that are printed one after the other, with the worth they leave unused."""

    loss: int
    contents: tuple[Counts, ...]


class _Table:
    """What waits and what is left to do, while one batch after the other is finished."""

    def __init__(
        self,
        queue: Sequence[Item],
        backlog: Sequence[Unfinished],
        forme: Forme,
        patience: int,
        cancel: Cancel | None,
    ) -> None:
        self.forme, self.patience, self.cancel = forme, patience, cancel
        self.left = sorted(backlog, key=lambda game: not game.begun)
        zone = queue[0].since.tzinfo if queue else UTC
        self.later = datetime.max.replace(tzinfo=zone)
        self.queue = list(queue)
        self._press()

    def wanted(self) -> list[Unfinished]:
        """Return the games that are still to be finished."""
        return [game for game in self.left if game.wanted]

    def finish(self, games: Sequence[Unfinished]) -> Batch:
        """Finish ``games`` and press what is full then."""
        keys = tuple(game.key for game in games)
        self.left = [game for game in self.left if game.key not in keys]
        self.queue += [self._finished(game) for game in games]
        sheets = self._press()
        return Batch(keys, sheets, len(self.queue))

    def next_run(self, size: int) -> list[Unfinished]:
        """Return the games of the next batches, in the order in which to finish them."""
        games = self.wanted()
        if len(games) <= size:
            return games
        line = Line(self.queue, self._coming(self.left), self.forme)
        runs = _Runs(line, games, size, self.cancel)
        for run in islice(runs.clean(), _TRIES):
            chosen = runs.games(run)
            if self._ends_clean(chosen):
                return chosen
        chosen = runs.games(runs.closing())
        return [*chosen, *(game for game in games if game not in chosen)][:size]

    def _ends_clean(self, games: Sequence[Unfinished]) -> bool:
        keys = {game.key for game in games}
        rest = [game for game in self.left if game.key not in keys]
        queue = [*self.queue, *map(self._finished, games)]
        ganged = gang(queue, self._coming(rest), self.forme, patience=self.patience)
        return ganged.open is None

    def _press(self) -> int:
        ganged = gang(self.queue, self._coming(self.left), self.forme, patience=self.patience)
        printed = {laid.key for sheet in ganged.ready for laid in sheet.laid}
        printed.update(ganged.too_large)
        self.queue = [
            item._replace(passed=item.passed + len(ganged.ready))
            for item in self.queue
            if item.key not in printed
        ]
        return len(ganged.ready)

    def _finished(self, game: Unfinished) -> Item:
        return Item(game.key, game.case, game.width, game.height, game.turns, self.later)

    def _coming(self, games: Sequence[Unfinished]) -> list[Coming]:
        kinds = Counter((game.case, game.width, game.height, game.turns) for game in games)
        return [Coming(*kind, count=count) for kind, count in kinds.items()]


class _Runs:
    """The ways to go on from here."""

    def __init__(
        self, line: Line, games: Sequence[Unfinished], size: int, cancel: Cancel | None
    ) -> None:
        self.line = line
        self.cancel = cancel
        self.size = size
        self.stock: dict[Footprint, list[Unfinished]] = defaultdict(list)
        for game in games:
            self.stock[footprint(game, line.forme.gutter)].append(game)
        self.held = line.held
        self.offered = tuple(len(self.stock[each]) for each in line.sizes)
        self.plan = self._fewest(_sum(self.held, self.offered))
        begun = [game for game in games if game.begun][:size]
        self.begun = tuple(sum(game in begun for game in self.stock[s]) for s in line.sizes)
        full = fullness(line.field, line.sizes, line.areas, line.forme.rule).every(line.bound)
        self.contents = sorted(full, key=lambda one: (self.plan.loss(one), one))

    def clean(self) -> Iterator[_Run]:
        """Yield runs that leave nothing waiting, the shortest first, then the least loss."""
        longest = min(_LONGEST // self.size * self.size, sum(self.offered))
        further = self._sums(longest)
        starts = self._starts()
        for games in range(self.size, longest + 1, self.size):
            found = [
                _Run(start.loss + more.loss, start.contents + more.contents)
                for start in starts
                if (rest := games - self._new(start)) >= 0
                for more in further[rest]
            ]
            possible = (run for run in sorted(set(found)) if self._possible(run))
            yield from filter(self._thrifty, islice(possible, _TRIES))

    def closing(self) -> _Run:
        """Return the run that fills what is open soonest, and then the best sheets after it."""
        start = min(self._starts(), key=lambda run: (self._new(run), run))
        offered = tuple(max(a - b, 0) for a, b in zip(self._total(start), self.held, strict=True))
        rest = tuple(max(a - b, 0) for a, b in zip(self.offered, offered, strict=True))
        then = [counts for times, counts in self._fewest(rest).runs for _ in range(times)]
        then.sort(key=lambda one: (self.plan.loss(one), one))
        return _Run(start.loss, (*start.contents, *then))

    def games(self, run: _Run) -> list[Unfinished]:
        """Return the games that a run asks for, sheet by sheet."""
        have = Counter(dict(zip(self.line.sizes, self.held, strict=True)))
        stock = {size: iter(games) for size, games in self.stock.items()}
        chosen: list[Unfinished] = []
        for counts in run.contents:
            for size, count in zip(self.line.sizes, counts, strict=True):
                waiting = min(count, have[size])
                have[size] -= waiting
                if size in stock:
                    chosen += islice(stock[size], count - waiting)
        return sorted(chosen, key=lambda game: not game.begun)

    def _starts(self) -> list[_Run]:
        """Return the contents that take all that waits, and what was begun."""
        need = _sum(self.held, self.begun)
        if not any(need):
            return [_Run(0, ())]
        whole = [one for one in self.contents if _within(need, one)]
        if whole:
            return [_Run(self.plan.loss(one), (one,)) for one in whole[: _TRIES * 4]]
        taken: list[Counts] = []
        while any(need):
            best = max(self.contents, key=lambda one: (sum(map(min, one, need)), one))
            taken.append(best)
            need = tuple(max(a - b, 0) for a, b in zip(need, best, strict=True))
        return [_Run(sum(map(self.plan.loss, taken)), tuple(taken))]

    def _sums(self, longest: int) -> list[list[_Run]]:
        """Return for each number of inserts some runs of full sheets that hold just as many."""
        alike: dict[int, list[Counts]] = defaultdict(list)
        for one in self.contents:
            if len(alike[sum(one)]) < _ALIKE:
                alike[sum(one)].append(one)
        found: list[list[_Run]] = [[_Run(0, ())]]
        for games in range(1, longest + 1):
            runs = {
                _Run(before.loss + self.plan.loss(one), tuple(sorted((*before.contents, one))))
                for count, some in alike.items()
                if count <= games
                for before in found[games - count]
                for one in some
            }
            found.append(nsmallest(_TRIES, runs))
        return found

    def _possible(self, run: _Run) -> bool:
        """Return whether there are as many games of each footprint as ``run`` asks for."""
        return _within(self._total(run), _sum(self.held, self.offered))

    def _thrifty(self, run: _Run) -> bool:
        """Return whether the rest can still be printed on the fewest sheets."""
        have = _sum(self.held, self.offered)
        rest = tuple(a - b for a, b in zip(have, self._total(run), strict=True))
        return len(run.contents) + self._fewest(rest).sheets <= self.plan.sheets

    def _total(self, run: _Run) -> Counts:
        return _sum(tuple(0 for _ in self.held), *run.contents)

    def _new(self, run: _Run) -> int:
        return sum(self._total(run)) - sum(self.held)

    def _fewest(self, counts: Counts) -> Runs:
        return fewest(
            self.line.field, self.line.sizes, counts, self.line.forme.rule, cancel=self.cancel
        )


def _sum(*some: Counts) -> Counts:
    return tuple(map(sum, zip(*some, strict=True)))


def _within(inner: Counts, outer: Counts) -> bool:
    return all(a <= b for a, b in zip(inner, outer, strict=True))
