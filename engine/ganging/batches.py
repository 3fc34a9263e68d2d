"""What next: which games to finish now, so that every batch ends with only full sheets.

A batch is clean when nothing waits after its sheets are pressed. How many inserts a sheet holds
seldom divides by the size of a batch, so several batches are worked out together: a run of
batches ends clean when full sheets, with what waits already, add up to exactly as many games.
The shortest such run is taken, and of those the one that wastes least paper, as long as the
rest of the backlog can still be printed on the fewest sheets: an integer programme.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from itertools import islice
from typing import NamedTuple

from engine.ganging.inserts import Coming, Item, Unfinished, footprint
from engine.ganging.queue import Ganged, Line, gang
from engine.model import Forme
from engine.model.waiting import Cancel
from engine.packing.cutting_stock.column_generation import SHEET
from engine.packing.cutting_stock.programme import cover
from engine.packing.rectangles import Counts, Footprint, minus, plus, total

_LONGEST = 48
"""Games that are looked ahead at most."""
_ALIKE = 12
"""Full patterns with the same number of inserts that a run is made of."""
_NODES = 500


def next_batch(
    queue: Sequence[Item],
    backlog: Sequence[Unfinished],
    forme: Forme,
    *,
    size: int = 6,
    patience: int = 4,
    cancel: Cancel | None = None,
) -> tuple[str, ...]:
    """Return the keys of the games to finish together next, ``size`` while there are as many.

    Games begun come first, then the order of the list; inserts that do not fit the sheet last.
    Raises Cancelled when ``cancel`` says so.
    """
    left = sorted(backlog, key=lambda game: not game.begun)
    bench = _Bench(list(queue), left, forme, patience).pressed(cancel)
    games = [game for game in left if game.wanted]
    if len(games) > size:
        runs = _Runs(Line(bench.queue, bench.coming, forme), games, size, cancel)
        clean = (run for run in runs.clean() if bench.after(run).ganged(cancel).open is None)
        games = list(dict.fromkeys([*(next(clean, None) or runs.closing()), *games]))
    return tuple(game.key for game in games[:size])


class _Bench(NamedTuple):
    """What waits and what is left to do between two batches."""

    queue: list[Item]
    left: list[Unfinished]
    forme: Forme
    patience: int

    @property
    def coming(self) -> list[Coming]:
        """Return what may still come."""
        kinds = Counter((game.case, game.width, game.height, game.turns) for game in self.left)
        return [Coming(*kind, count=count) for kind, count in kinds.items()]

    def after(self, games: Sequence[Unfinished]) -> _Bench:
        """Return what waits and what is left when ``games`` are finished."""
        keys = {game.key for game in games}
        zone = self.queue[0].since.tzinfo if self.queue else UTC
        later = datetime.max.replace(tzinfo=zone)
        done = [game.finished(later) for game in games]
        left = [game for game in self.left if game.key not in keys]
        return self._replace(queue=[*self.queue, *done], left=left)

    def ganged(self, cancel: Cancel | None) -> Ganged:
        """Return the sheets that there are now."""
        patience = self.patience
        return gang(self.queue, self.coming, self.forme, patience=patience, cancel=cancel)

    def pressed(self, cancel: Cancel | None) -> _Bench:
        """Return what waits when all that is full is pressed."""
        ganged = self.ganged(cancel)
        sheets = len(ganged.ready)
        gone = {laid.key for sheet in ganged.ready for laid in sheet.laid} | {*ganged.too_large}
        left = [item for item in self.queue if item.key not in gone]
        return self._replace(queue=[one._replace(passed=one.passed + sheets) for one in left])


class _Runs:
    """The ways to go on from here."""

    def __init__(
        self, line: Line, games: Sequence[Unfinished], size: int, cancel: Cancel | None
    ) -> None:
        self.line, self.size, self.cancel = line, size, cancel
        alike: dict[Footprint, list[Unfinished]] = defaultdict(list)
        for game in games:
            alike[footprint(game, line.forme.gutter)].append(game)
        self.games = [alike[size] for size in line.problem.sizes]
        self.held, offered = line.held, tuple(map(len, self.games))
        begun = {game.key for game in islice((game for game in games if game.begun), size)}
        early = (sum(game.key in begun for game in some) for some in self.games)
        self.need = plus(self.held, tuple(early))
        self.all = plus(self.held, offered)
        self.plan = line.plan(self.all, cancel)

    def clean(self) -> Iterator[list[Unfinished]]:
        """Yield runs of games that leave nothing waiting, the shortest first."""
        alike: dict[int, list[Counts]] = defaultdict(list)
        for one in sorted(self.line.full.every(self.line.bound), key=self._loss):
            if len(alike[sum(one)]) < _ALIKE:
                alike[sum(one)].append(one)
        patterns = [one for some in alike.values() for one in some]
        many = min(_LONGEST, sum(self.all) - sum(self.held))
        for inserts in range(sum(self.held) + self.size, sum(self.held) + many + 1, self.size):
            found = patterns and cover(
                [(*one, sum(one)) for one in patterns],
                (*self.need, inserts),
                most=(*self.all, inserts),
                costs=[self._loss(one) / SHEET for one in patterns],
                nodes=_NODES,
                cancel=self.cancel,
            )
            if found:
                uses = zip(found.uses, patterns, strict=True)
                run = [one for times, one in uses for _ in range(times)]
                rest = self.line.plan(minus(self.all, plus(*run)), self.cancel)
                if len(run) + rest.sheets <= self.plan.sheets:
                    yield self._of(run)

    def closing(self) -> list[Unfinished]:
        """Return the games that fill what is open soonest, and then the best sheets after it."""
        first = self.line.full.target(self.need, self.line.bound, None)
        run = [first] if first else []
        rest = self.line.plan(minus(self.all, plus(self.need, *run)), self.cancel)
        then = [counts for times, counts in rest.runs for _ in range(times)]
        return self._of([*run, *sorted(then, key=self._loss)])

    def _of(self, run: Sequence[Counts]) -> list[Unfinished]:
        """Return the games that a run asks for, those sheets first that lack the fewest."""
        have, left = self.held, list(run)
        games = [iter(some) for some in self.games]
        chosen: list[Unfinished] = []
        while left:
            counts = min(left, key=lambda one: (sum(minus(one, have)), one))
            left.remove(counts)
            for n, some in zip(minus(counts, have), games, strict=True):
                chosen += islice(some, n)
            have = minus(have, counts)
        return sorted(chosen, key=lambda game: not game.begun)

    def _loss(self, counts: Counts) -> int:
        """Return how much of a sheet's worth ``counts`` leaves unused."""
        return SHEET - total(counts, self.plan.worth)
