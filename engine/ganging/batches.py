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

from engine.ganging.inserts import Coming, Item, Unfinished, footprint
from engine.ganging.queue import Line, gang
from engine.packing.cancelling import Cancel
from engine.packing.cutting_stock import fewest
from engine.packing.cutting_stock.column_generation import SHEET, CuttingPlan
from engine.packing.cutting_stock.programme import cover
from engine.packing.rectangles import Counts, minus, plus, total
from engine.values import Forme, Value

_LONGEST = 48
"""Games that are looked ahead at most."""
_ALIKE = 12
"""Full patterns with the same number of inserts that a run is made of."""
_NODES = 500


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
    bench = _Bench(queue, backlog, forme, patience, cancel)
    while bench.wanted():
        run = bench.next_run(size)
        while run:
            yield bench.finish(run[:size])
            run = run[size:]


class _Bench:
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
        self.queue, self.left = self._after(games)
        return Batch(keys, self._press(), len(self.queue))

    def next_run(self, size: int) -> list[Unfinished]:
        """Return the games of the next batches, in the order in which to finish them."""
        games = self.wanted()
        if len(games) <= size:
            return games
        runs = _Runs(Line(self.queue, _coming(self.left), self.forme), games, size, self.cancel)
        for chosen in runs.clean():
            queue, left = self._after(chosen)
            if gang(queue, _coming(left), self.forme, patience=self.patience).open is None:
                return chosen
        chosen = runs.closing()
        keys = {game.key for game in chosen}
        return [*chosen, *(game for game in games if game.key not in keys)][:size]

    def _press(self) -> int:
        ganged = gang(self.queue, _coming(self.left), self.forme, patience=self.patience)
        printed = {laid.key for sheet in ganged.ready for laid in sheet.laid}
        printed.update(ganged.too_large)
        self.queue = [
            item._replace(passed=item.passed + len(ganged.ready))
            for item in self.queue
            if item.key not in printed
        ]
        return len(ganged.ready)

    def _after(self, games: Sequence[Unfinished]) -> tuple[list[Item], list[Unfinished]]:
        """Return what waits and what is left when ``games`` are finished."""
        keys = {game.key for game in games}
        done = [Item(g.key, g.case, g.width, g.height, g.turns, self.later) for g in games]
        return [*self.queue, *done], [game for game in self.left if game.key not in keys]


class _Runs:
    """The ways to go on from here."""

    def __init__(
        self, line: Line, games: Sequence[Unfinished], size: int, cancel: Cancel | None
    ) -> None:
        self.line, self.size, self.cancel = line, size, cancel
        of_size: dict[tuple[int, int, bool], list[Unfinished]] = defaultdict(list)
        for game in games:
            of_size[footprint(game, line.forme.gutter)].append(game)
        self.games = [of_size[size] for size in line.problem.sizes]
        self.held = line.held
        self.offered = tuple(map(len, self.games))
        begun = {game.key for game in [game for game in games if game.begun][:size]}
        self.begun = tuple(sum(game.key in begun for game in some) for some in self.games)
        self.plan = self._fewest(plus(self.held, self.offered))

    def clean(self) -> Iterator[list[Unfinished]]:
        """Yield runs of games that leave nothing waiting, the shortest first."""
        alike: dict[int, list[Counts]] = defaultdict(list)
        for one in sorted(self.line.full.every(self.line.bound), key=self._loss):
            if len(alike[sum(one)]) < _ALIKE:
                alike[sum(one)].append(one)
        patterns = [one for some in alike.values() for one in some]
        losses = [self._loss(one) / SHEET for one in patterns]
        columns = [(*one, sum(one)) for one in patterns]
        least, most = plus(self.held, self.begun), plus(self.held, self.offered)
        for many in range(self.size, min(_LONGEST, sum(self.offered)) + 1, self.size):
            whole = sum(self.held) + many
            found = columns and cover(
                columns,
                (*least, whole),
                most=(*most, whole),
                costs=losses,
                nodes=_NODES,
                cancel=self.cancel,
            )
            if found:
                uses = zip(found.uses, patterns, strict=True)
                run = [one for times, one in uses for _ in range(times)]
                if len(run) + self._fewest(minus(most, plus(*run))).sheets <= self.plan.sheets:
                    yield self._of(run)

    def closing(self) -> list[Unfinished]:
        """Return the games that fill what is open soonest, and then the best sheets after it."""
        need = plus(self.held, self.begun)
        first = self.line.full.target(need, self.line.bound, None) if any(need) else None
        run = [first] if first else []
        rest = minus(plus(self.held, self.offered), plus(need, *run))
        then = [counts for times, counts in self._fewest(rest).runs for _ in range(times)]
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

    def _fewest(self, counts: Counts) -> CuttingPlan:
        problem = self.line.problem
        return fewest(
            problem.field, problem.sizes, counts, freely=problem.freely, cancel=self.cancel
        )


def _coming(games: Sequence[Unfinished]) -> list[Coming]:
    kinds = Counter((game.case, game.width, game.height, game.turns) for game in games)
    return [Coming(*kind, count=count) for kind, count in kinds.items()]
