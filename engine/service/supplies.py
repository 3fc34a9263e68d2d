"""What the work still takes, and how fast it goes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from typing import Annotated

import msgspec

from engine.cases import CaseKind
from engine.ganging import papers
from engine.model import Game, Stage, Value, cautions
from engine.model.errors import InputError
from engine.model.house import House, Pack
from engine.model.stages import Place
from engine.model.units import SHARE
from engine.model.waiting import Cancel, go_on
from engine.service.ink import InkUse
from engine.service.session import Session
from engine.shelf.pace import Pace, pace
from engine.shelf.supplies import (
    ADHESIVE,
    INKS,
    Inked,
    InkSample,
    Need,
    Sort,
    Spoilage,
    bought,
    evenly,
    ink_needed,
    sheets_needed,
)
from engine.state import Snapshot

SAMPLE = 8
"""So many inserts of each case kind are measured for their ink, unless told otherwise."""

MODEL = (
    "A page is 5 % of an A4 sheet in one colour, as cartridge yields are measured (ISO/IEC 24711, "
    "24712; from memory). Coverage is by ideal inks (ISO 32000-1, 10.3.5). Printers mix greys of "
    "colours and clean their heads, and photographs are outside those standards: an estimate."
)


class SuppliesReport(Value, frozen=True):
    """What is still needed to finish."""

    games: int = msgspec.field(name="games_left")
    """That are still to be fitted."""
    inserts: int
    """That are on no sheet yet."""
    needs: tuple[Need, ...]
    planned: int = msgspec.field(name="sheets_planned")
    """By the plan, without spoilage."""
    proven: bool
    """No plan can do with fewer."""
    spoilage: Spoilage
    spoiled: Annotated[float, SHARE]
    """The person's own part of inserts that were spoiled."""
    ink: InkSample | None
    """How well the ink is known; None where it was not asked for."""
    pace: Pace
    cost: float | None
    """Of all that has a price; None where nothing has one."""
    unpriced: tuple[str, ...]
    """What is missing and has no price."""
    currency: str
    notes: tuple[str, ...]
    """Models, and cautions, a sentence each."""


class SuppliesWork:
    """Supplies and pace."""

    def __init__(self, session: Session, ink: InkUse) -> None:
        """Work in ``session``, on the ink of inserts."""
        self._session = session
        self._ink = ink

    def pace(self) -> Pace:
        """Return how fast the work went in the last weeks, and what is left at that pace."""
        return self._pace(self._session.snapshot)

    def _pace(self, snapshot: Snapshot) -> Pace:
        fitted = [
            game.fitted.at
            for key, game in snapshot.games.items()
            if game.fitted and not game.labels and snapshot.standing[key].stage is Stage.FITTED
        ]
        return pace(fitted, _worked(snapshot), len(_unfitted(snapshot)), self._session.now())

    def report(self, sample: int = SAMPLE, cancel: Cancel | None = None) -> SuppliesReport:
        """Return what is still needed to finish.

        The ink of ``sample`` inserts of each case kind stands for that of all; with 0 it is left
        out. The plan and the ink may take seconds, in which other methods answer. Raises
        Cancelled when ``cancel`` says so.
        """
        snapshot = self._session.snapshot
        plan = papers.plan(snapshot.papers, cancel)
        spoilage = _spoilage(snapshot)
        inserts = snapshot.at(Place.BACKLOG, Place.QUEUE)
        pages: dict[str, float] = {}
        known = None
        if sample > 0:
            pages, known = ink_needed(self._inked(snapshot, inserts, sample, cancel), spoilage)
        needs = [*_cases(snapshot, self._session.kinds)]
        needs += [
            Need(f"paper:{part.stock.id}", Sort.PAPER, part.stock.name, sheets)
            for part in plan.parts
            if (sheets := sheets_needed(part.sheets, spoilage))
        ]
        needs += [Need(f"ink:{ink}", Sort.INK, f"{ink} ink", pages[ink]) for ink in pages]
        if glue := _adhesive(snapshot, self._session.kinds) * spoilage.prints:
            needs.append(Need(ADHESIVE, Sort.ADHESIVE, "adhesive", glue))
        house = snapshot.settings.house
        found = tuple(bought(need, house) for need in needs)
        priced = [need.price for need in found if need.price is not None]
        return SuppliesReport(
            games=len(_unfitted(snapshot)),
            inserts=len(inserts),
            needs=found,
            planned=plan.sheets,
            proven=plan.proven,
            spoilage=spoilage,
            spoiled=spoilage.rate,
            ink=known,
            pace=self._pace(snapshot),
            cost=sum(priced) if priced else None,
            unpriced=tuple(n.name for n in found if n.missing and n.price is None),
            currency=house.currency,
            notes=(*((MODEL,) if known else ()), *(cautions.ADHESIVE if glue else ())),
        )

    def keep(
        self,
        have: Mapping[str, float] | None = None,
        packs: Mapping[str, Pack] | None = None,
        currency: str | None = None,
    ) -> House:
        """Note what is in the house, how things are sold and in what money; return all that is.

        Things go by the id of a case kind, a paper or an ink, or ``adhesive``; 0 in the house
        takes that back. Raises InputError for what is none of them.
        """
        with self._session.change():
            settings = self._session.snapshot.settings
            house = settings.house
            changed = {self._item(said): amount for said, amount in (have or {}).items()}
            for amount in changed.values():
                if not 0 <= amount <= 1_000_000:
                    raise InputError(f"{amount:g}", "is no amount", "Give 0 or more")
            kept = {key: one for key, one in {**house.have, **changed}.items() if one}
            sold = {self._item(said): pack for said, pack in (packs or {}).items()}
            later = House(
                have=kept,
                packs={**house.packs, **sold},
                currency=house.currency if currency is None else currency.strip()[:8],
            )
            self._session.keep(
                "noted supplies", settings=msgspec.structs.replace(settings, house=later)
            )
            return later

    def _item(self, said: str) -> str:
        wanted = said.strip().casefold()
        stocks = self._session.snapshot.settings.papers
        things = {
            **{f"case:{kind}": kind for kind in self._session.kinds},
            **{f"paper:{stock.id}": stock.id for stock in stocks},
            **{f"ink:{ink}": ink for ink in INKS},
            ADHESIVE: ADHESIVE,
        }
        for item, name in things.items():
            if wanted in {item, name.casefold()}:
                return item
        raise InputError(
            said, "is no supply", f"Give a case kind, a paper, {', '.join(INKS)} or {ADHESIVE}"
        )

    def _inked(
        self, snapshot: Snapshot, inserts: Sequence[str], sample: int, cancel: Cancel | None
    ) -> list[Inked]:
        """Return the ink of some inserts of each case kind."""
        kinds: dict[str, list[str]] = {}
        for key in inserts:
            kinds.setdefault(snapshot.casing.case_of(snapshot.games[key]), []).append(key)
        found = []
        for games in kinds.values():
            measured = []
            for game in evenly(games, sample):
                go_on(cancel)
                ink, size = self._ink.printed(snapshot, game)
                area = size.width * size.height
                measured.append({name: area * part / 100 for name, part in ink._asdict().items()})
            found.append(Inked(len(games), measured))
        return found


def _unfitted(snapshot: Snapshot) -> list[Game]:
    return [game for game in _unfinished(snapshot) if not game.labels]


def _unfinished(snapshot: Snapshot) -> list[Game]:
    """Return what is still to be fitted, dividers and labels too."""
    return [
        game
        for key, game in snapshot.games.items()
        if snapshot.standing[key].stage not in {Stage.FITTED, Stage.UNWANTED}
    ]


def _worked(snapshot: Snapshot) -> Iterator[datetime]:
    """Yield when anything was done."""
    for game in snapshot.games.values():
        accepted = game.accepted
        for at in (accepted.art_at, accepted.title_at, game.fitted and game.fitted.at):
            if at:
                yield at
    for sheet in snapshot.live_sheets:
        yield sheet.pressed_at
        if sheet.settled_at:
            yield sheet.settled_at


def _spoilage(snapshot: Snapshot) -> Spoilage:
    placed = [
        placement
        for sheet in snapshot.live_sheets
        if sheet.settled_at
        for placement in sheet.placements
        if not placement.spare
    ]
    return Spoilage(settled=len(placed), spoiled=sum(one.spoiled for one in placed))


def _cases(snapshot: Snapshot, kinds: Mapping[str, CaseKind]) -> Iterator[Need]:
    """Yield the cases that are needed: a game that is printed anew is in its case already."""
    housed = {
        (placed.game, placed.design): placed.case
        for sheet in snapshot.live_sheets
        for placed in sheet.placements
    }
    counts: Counter[str] = Counter()
    for game in _unfitted(snapshot):
        kind = snapshot.casing.case_of(game)
        if game.fitted is None or housed.get((game.id, game.fitted.design)) != kind:
            counts[kind] += 1
    for kind, count in sorted(counts.items()):
        yield Need(f"case:{kind}", Sort.CASE, kinds[kind].name, count)


def _adhesive(snapshot: Snapshot, kinds: Mapping[str, CaseKind]) -> float:
    """Return the backs of the inserts that are still to be stuck on, in cm2."""
    area = 0.0
    for game in _unfinished(snapshot):
        if kinds[snapshot.casing.case_of(game)].glued:
            panels = snapshot.casing.net_of(game).panels
            area += sum(panel.rect.width * panel.rect.height for panel in panels)
    return area / 100
