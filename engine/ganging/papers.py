"""The papers in use: what is to be printed on each, and the sheets that it gives now."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import datetime
from threading import Lock
from typing import NamedTuple

import msgspec

from engine import ganging
from engine.cases.casing import Casing
from engine.ganging import Coming, Item, Lack, Layout, Unfinished, offcut_stock
from engine.ganging.results import PlanPart, PlanReport
from engine.ganging.slices import for_trimmer
from engine.ganging.strips import roomy, with_bars
from engine.ganging.widening import widened
from engine.model import Design, Forme, Game, Sheet, Stock
from engine.model.settings import Settings
from engine.model.stages import Place, Standing
from engine.model.waiting import Cancel, go_on


class Paper(NamedTuple):
    """One stock, and what is to be printed on it."""

    forme: Forme
    """With the room there is for inserts; a sheet that they leave more of has both bars."""
    waiting: tuple[Item, ...]
    """The longest waiting first."""
    coming: tuple[Coming, ...]
    """What the backlog still brings."""
    offcuts: tuple[Stock, ...] = ()
    """Pieces of it that the person keeps."""


class Proposed(NamedTuple):
    """A layout on one stock."""

    forme: Forme
    layout: Layout

    def widened(self, settings: Settings) -> Proposed:
        """Return it as it is pressed: its spare paper goes to the bars, then between inserts.

        Bleed and gutters become as wide as the settings allow, and the fewest cuts are left to a
        knife.
        """
        usual = settings.forme_on(self.forme.stock)
        layout, forme = with_bars(self.layout, self.forme, usual)
        layout, forme = widened(layout, forme, settings.free_bleed, settings.free_gutter)
        return Proposed(forme, for_trimmer(layout, forme))


class PaperSheets(NamedTuple):
    """What one paper gives now."""

    ready: tuple[Proposed, ...]
    """Full sheets, those on offcuts first."""
    open: Proposed | None
    lacks: tuple[Lack, ...]


_ganging = Lock()
_LOOK = 0.05
"""How often who waits for the ganging of others looks whether to give up, in seconds."""
_KEPT = 32
_ganged: dict[tuple[Paper, int], PaperSheets] = {}
"""Papers ganged before with their patience, the oldest first: most changes alter none."""


class Queue:
    """What is to be printed, by game: the finished inserts that wait, and what is coming.

    Nothing in it changes; a change of a few games makes a later one of it.
    """

    def __init__(self, games: Mapping[str, Game], casing: Casing, history: SheetHistory) -> None:
        """Begin empty."""
        self._games = games
        self._casing = casing
        self._history = history
        self._entries: dict[str, Item | Unfinished] = {}

    @classmethod
    def of(
        cls,
        games: Mapping[str, Game],
        standing: Mapping[str, Standing],
        casing: Casing,
        sheets: Mapping[int, Sheet],
    ) -> Queue:
        """Return what there is to print of ``games``, as they stand."""
        queue = cls(games, casing, SheetHistory.of(sheets))
        for key, game in games.items():
            queue._enter(game, standing[key])
        return queue

    def after(
        self,
        games: Mapping[str, Game],
        standing: Mapping[str, Standing],
        changed: Iterable[str],
        sheets: Mapping[int, Sheet],
    ) -> Queue:
        """Return what there is to print once the games of ``changed`` stand otherwise."""
        if sheets is not self._history.sheets:
            return Queue.of(games, standing, self._casing, sheets)
        later = Queue(games, self._casing, self._history)
        later._entries = dict(self._entries)
        for key in changed:
            later._entries.pop(key, None)
            if key in games:
                later._enter(games[key], standing[key])
        return later

    def _enter(self, game: Game, standing: Standing) -> None:
        if standing.place is Place.BACKLOG:
            self._entries[game.id] = unfinished(game, self._casing)
        elif standing.place is Place.QUEUE and standing.design and standing.since:
            design, since = standing.design, standing.since
            size = self._casing.net_for(design).size
            stock = self._casing.stock_of(design.case).id
            self._entries[game.id] = Item(
                game.id,
                design.case,
                size.width,
                size.height,
                self._casing.turns(design.case),
                since,
                passed=self._history.passed_over(game.id, since, stock),
                spoiled=self._history.is_spoiled(game.id, design),
            )

    @property
    def papers(self) -> tuple[Paper, ...]:
        """What is to be printed on each stock in use, in the order of the games."""
        waiting: dict[str, list[Item]] = {}
        coming: dict[str, Counter[Coming]] = {}
        formes: dict[str, Forme] = {}
        of_kind: dict[str, Forme] = {}
        for key in self._games:
            entry = self._entries.get(key)
            if entry is None:
                continue
            if entry.case not in of_kind:
                of_kind[entry.case] = self._casing.forme_of(entry.case)
            forme = of_kind[entry.case]
            stock = formes.setdefault(forme.stock.id, forme).stock.id
            if isinstance(entry, Item):
                waiting.setdefault(stock, []).append(entry)
            else:
                one = Coming(entry.case, entry.width, entry.height, entry.turns, 1)
                coming.setdefault(stock, Counter())[one] += 1
        kept = kept_offcuts(self._history.live)
        return tuple(
            Paper(
                roomy(forme, (*waiting.get(stock, ()), *coming.get(stock, ()))),
                tuple(sorted(waiting.get(stock, ()), key=lambda item: item.since)),
                tuple(
                    one._replace(count=count)
                    for one, count in sorted(coming.get(stock, Counter()).items())
                ),
                tuple(offcut for offcut, paper in kept if paper == stock),
            )
            for stock, forme in formes.items()
        )


class SheetHistory(NamedTuple):
    """What sheets tell of the inserts that wait: who was passed over, and what was spoiled."""

    sheets: Mapping[int, Sheet]
    live: Sequence[Sheet]
    """Those that were not withdrawn."""
    pressed: Mapping[str, Sequence[datetime]]
    """When sheets of each stock were pressed, in order."""
    placed: Mapping[tuple[str, str], Sequence[datetime]]
    """When sheets were pressed that carry a game, by stock and game, in order."""
    spoiled: Mapping[str, Collection[str]]
    """The designs of spoiled placements, by game."""

    @classmethod
    def of(cls, sheets: Mapping[int, Sheet]) -> SheetHistory:
        """Look through sheets."""
        live = [sheet for sheet in sheets.values() if sheet.withdrawn_at is None]
        pressed: dict[str, list[datetime]] = {}
        placed: dict[tuple[str, str], list[datetime]] = {}
        for sheet in sorted(live, key=lambda sheet: sheet.pressed_at):
            stock = sheet.forme.stock.id
            pressed.setdefault(stock, []).append(sheet.pressed_at)
            for game in {placement.game for placement in sheet.placements}:
                placed.setdefault((stock, game), []).append(sheet.pressed_at)
        spoiled: dict[str, set[str]] = {}
        for placement in (one for sheet in live for one in sheet.placements if one.spoiled):
            spoiled.setdefault(placement.game, set()).add(placement.design)
        return cls(sheets, live, pressed, placed, spoiled)

    def passed_over(self, game: str, since: datetime, stock: str) -> int:
        """Return how many sheets of a stock were pressed without a game that waited ``since``."""

        def later(times: Sequence[datetime]) -> int:
            return len(times) - bisect_left(times, since)

        return later(self.pressed.get(stock, ())) - later(self.placed.get((stock, game), ()))

    def is_spoiled(self, game: str, design: Design) -> bool:
        """Return whether a print of this design was spoiled."""
        return game in self.spoiled and design.fingerprint in self.spoiled[game]


def unfinished(
    game: Game, casing: Casing, *, begun: bool = False, wanted: bool = True
) -> Unfinished:
    """Return a game as an insert that is still to be finished."""
    kind, size = casing.case_of(game), casing.net_of(game).size
    return Unfinished(
        game.id,
        kind,
        size.width,
        size.height,
        casing.turns(kind),
        begun=begun or game.accepted.art is not None,
        wanted=wanted,
    )


def footprints(games: Iterable[Game], casing: Casing) -> tuple[Coming, ...]:
    """Return what inserts these games bring, by case kind and size."""
    counts = Counter((casing.case_of(game), casing.net_of(game).size) for game in games)
    return tuple(
        Coming(kind, size.width, size.height, casing.turns(kind), count)
        for (kind, size), count in sorted(counts.items())
    )


def kept_offcuts(live: Sequence[Sheet]) -> tuple[tuple[Stock, str], ...]:
    """Return the offcuts that are kept and not used up, each with the id of its paper."""
    used = {sheet.forme.stock.id for sheet in live}
    papers: dict[str, str] = {}
    found = []
    for sheet in sorted(live, key=lambda sheet: sheet.number):
        stock = sheet.forme.stock
        paper = papers.get(stock.id, stock.id)
        for kept in sheet.offcuts:
            offcut = offcut_stock(kept.rect, sheet.number, kept.number, stock)
            papers[offcut.id] = paper
            if offcut.id not in used:
                found.append((offcut, paper))
    return tuple(found)


def gang(paper: Paper, patience: int, cancel: Cancel | None = None) -> PaperSheets:
    """Return the full sheets that a paper gives, and its open one with what it lacks.

    One paper is ganged at a time, whoever asks: two at once would be ready later than one
    after the other. Raises Cancelled when ``cancel`` says so, while it waits too.
    """
    while not _ganging.acquire(timeout=_LOOK):
        go_on(cancel)
    try:
        if (paper, patience) not in _ganged:
            if len(_ganged) >= _KEPT:
                _ganged.pop(next(iter(_ganged)))
            _ganged[paper, patience] = _freshly_ganged(paper, patience, cancel)
        return _ganged[paper, patience]
    finally:
        _ganging.release()


def _freshly_ganged(paper: Paper, patience: int, cancel: Cancel | None) -> PaperSheets:
    on_offcuts = [
        Proposed(msgspec.structs.replace(paper.forme, stock=stock), layout)
        for stock, layout in ganging.gang_offcuts(
            paper.offcuts, paper.waiting, paper.coming, paper.forme, cancel=cancel
        )
    ]
    taken = {laid.key for one in on_offcuts for laid in one.layout.laid}
    rest = [item for item in paper.waiting if item.key not in taken]
    ganged = ganging.gang(rest, paper.coming, paper.forme, patience=patience, cancel=cancel)
    return PaperSheets(
        (*on_offcuts, *(Proposed(paper.forme, layout) for layout in ganged.ready)),
        Proposed(paper.forme, ganged.open) if ganged.open else None,
        ganged.lacks,
    )


def part_full(paper: Paper, cancel: Cancel | None = None) -> tuple[Proposed, ...]:
    """Return the fewest sheets of a paper that print all that waits, full or not.

    Raises Cancelled when ``cancel`` says so.
    """
    layouts = ganging.gang_part_full(paper.waiting, paper.forme, cancel=cancel)
    return tuple(Proposed(paper.forme, layout) for layout in layouts)


def plan(papers: Sequence[Paper], cancel: Cancel | None = None) -> PlanReport:
    """Return the fewest sheets for all that waits or is coming, over all papers.

    Raises Cancelled when ``cancel`` says so.
    """
    parts = []
    for paper in papers:
        here = (
            *(Coming(i.case, i.width, i.height, i.turns, 1) for i in paper.waiting),
            *paper.coming,
        )
        found = ganging.plan(here, paper.forme, cancel=cancel)
        parts.append(
            PlanPart(
                stock=paper.forme.stock,
                sheets=found.sheets,
                bound=found.bound,
                proven=found.proven,
                too_large=tuple(sorted(set(found.too_large))),
            )
        )
    whole = PlanReport(
        sheets=sum(part.sheets for part in parts),
        bound=sum(part.bound for part in parts),
        proven=all(part.proven for part in parts),
        parts=tuple(parts),
    )
    return msgspec.structs.replace(whole, rule=papers[0].forme.rule) if papers else whole
