"""The papers in use: what is to be printed on each, and the sheets that it gives now."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from threading import Lock
from typing import NamedTuple

import msgspec

from engine import ganging
from engine.cases.casing import Casing
from engine.ganging import Cancel, Coming, Item, Lack, Layout, offcut_stock
from engine.ganging.results import PlanPart, PlanReport
from engine.ganging.sheetwork import footprints, waiting
from engine.model import Forme, Game, Sheet, Stock
from engine.model.stages import Place, Standing


class Paper(NamedTuple):
    """One stock, and what is to be printed on it."""

    forme: Forme
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


class Ganged(NamedTuple):
    """What one paper gives now."""

    ready: tuple[Proposed, ...]
    """Full sheets, those on offcuts first."""
    open: Proposed | None
    lacks: tuple[Lack, ...]


_ganging = Lock()
_LOOK = 0.05
"""How often who waits for the ganging of others looks whether to give up, in seconds."""
_KEPT = 32
_ganged: dict[tuple[Paper, int], Ganged] = {}
"""Papers ganged before with their patience, the oldest first: most deeds change none."""


def papers(
    games: Mapping[str, Game],
    standing: Mapping[str, Standing],
    casing: Casing,
    sheets: Iterable[Sheet],
) -> tuple[Paper, ...]:
    """Return the papers that games ask for, in the order of the games."""
    live = [sheet for sheet in sheets if sheet.withdrawn_at is None]
    items: dict[str, list[Item]] = {}
    backlog: dict[str, list[Game]] = {}
    formes: dict[str, Forme] = {}
    of_kind = {kind: casing.forme_of(kind) for kind in map(casing.case_of, games.values())}
    for game in games.values():
        forme = of_kind[casing.case_of(game)]
        if standing[game.id].place is Place.BACKLOG:
            formes[forme.stock.id] = forme
            backlog.setdefault(forme.stock.id, []).append(game)
    for item in waiting(games, standing, casing, live):
        forme = of_kind[item.case]
        formes[forme.stock.id] = forme
        items.setdefault(forme.stock.id, []).append(item)
    kept = kept_offcuts(live)
    return tuple(
        Paper(
            forme,
            tuple(items.get(stock, ())),
            footprints(backlog.get(stock, ()), casing),
            tuple(offcut for offcut, paper in kept if paper == stock),
        )
        for stock, forme in formes.items()
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


def gang(paper: Paper, patience: int, cancel: Cancel | None = None) -> Ganged:
    """Return the full sheets that a paper gives, and its open one with what it lacks.

    One paper is ganged at a time, whoever asks: two at once would be ready later than one
    after the other. Raises Cancelled when ``cancel`` says so, while it waits too.
    """
    while not _ganging.acquire(timeout=_LOOK):
        ganging.go_on(cancel)
    try:
        if (paper, patience) not in _ganged:
            if len(_ganged) >= _KEPT:
                _ganged.pop(next(iter(_ganged)))
            _ganged[paper, patience] = _freshly_ganged(paper, patience, cancel)
        return _ganged[paper, patience]
    finally:
        _ganging.release()


def _freshly_ganged(paper: Paper, patience: int, cancel: Cancel | None) -> Ganged:
    on_offcuts = [
        Proposed(msgspec.structs.replace(paper.forme, stock=stock), layout)
        for stock, layout in ganging.gang_offcuts(
            paper.offcuts, paper.waiting, paper.coming, paper.forme
        )
    ]
    taken = {laid.key for one in on_offcuts for laid in one.layout.laid}
    rest = [item for item in paper.waiting if item.key not in taken]
    ganged = ganging.gang(rest, paper.coming, paper.forme, patience=patience, cancel=cancel)
    return Ganged(
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
