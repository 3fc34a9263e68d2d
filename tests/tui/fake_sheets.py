"""What the workshop in memory knows of plans, cuts, fillers and offcuts."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass, field, replace
from threading import Event
from typing import Any

from msgspec.structs import replace as altered

from engine import (
    CutsReport,
    Filler,
    OffcutReport,
    Outlook,
    PartFull,
    PlanReport,
    SheetReport,
    SheetsReport,
    SheetState,
)
from engine.ganging import Why, sheetwork
from engine.model import Size, Stage
from engine.model.waiting import Cancel, Cancelled
from tests.tui.made_up import A_SHEETFUL, State

PATIENCE = 30.0
"""How long a closed gate is waited at, in seconds, lest a failing test hangs."""


def opened() -> Event:
    """Return a gate that stands open."""
    gate = Event()
    gate.set()
    return gate


def with_offcut(sheet: SheetReport) -> SheetReport:
    """Return the sheet settled, with one offcut."""
    return altered(
        sheet,
        state=SheetState.SETTLED,
        offcuts=(OffcutReport(number=1, size=Size(96.0, 190.0), kept=False),),
    )


@dataclass(kw_only=True)
class FakeSheets:
    """What takes long waits while its gate is closed, and sees whether it is given up."""

    plan_gate: Event = field(default_factory=opened)
    given_up: int = 0
    """Works that were not waited for."""
    _state: Any = field(init=False)

    def _deed(self, words: str, change: Callable[[State], State]) -> None:
        raise NotImplementedError

    def sheets(self, *, cancel: Cancel | None = None) -> SheetsReport:
        raise NotImplementedError

    def wait(self, gate: Event, cancel: Cancel | None) -> None:
        """Wait at a gate until it opens or the person has given up."""
        for _ in range(int(PATIENCE / 0.005)):
            if gate.wait(0.005):
                return
            if cancel is not None and cancel():
                self.given_up += 1
                raise Cancelled

    def plan(self, cancel: Cancel | None = None) -> PlanReport:
        self.wait(self.plan_gate, cancel)
        games = self._state.games.values()
        left = sum(g.stage not in {Stage.PRINTED, Stage.FITTED} for g in games)
        sheets = -(-left // A_SHEETFUL)
        return PlanReport(sheets=sheets, bound=sheets, proven=True)

    def outlook(self, cancel: Cancel | None = None) -> Outlook:
        self.wait(self.plan_gate, cancel)
        games = [self._state.games[key] for key in self._state.batch]
        open_ones = sum(g.stage in {Stage.LISTED, Stage.ART_CHOSEN} for g in games)
        waiting = sum(g.stage is Stage.TITLE_SET for g in self._state.games.values())
        full, waits = divmod(waiting + open_ones, A_SHEETFUL)
        return Outlook(games=open_ones, sheets=full, waits=waits)

    def cuts(self, sheet: SheetReport) -> CutsReport:
        return sheetwork.cuts(sheet)

    def part_full(
        self,
        cancel: Cancel | None = None,
        found: Callable[[PartFull], None] = lambda _: None,
    ) -> tuple[PartFull, ...]:
        sheets = self._part_full()
        for sheet in sheets:
            found(sheet)
            self.wait(self.plan_gate, cancel)
        return sheets

    def _part_full(self) -> tuple[PartFull, ...]:
        return tuple(
            PartFull(
                stock=sheet.forme.stock,
                inserts=len(sheet.placements),
                wasted=1 - sheet.used,
                filled=0.3,
                fillers=(
                    *(
                        Filler(f"spare:{p.game}", Why.SPARE, f"spare of {p.game}", fits=True)
                        for p in sheet.placements
                    ),
                    Filler("strip", Why.STRIP, "strip of the check page", fits=False),
                ),
            )
            for sheet in self.sheets().open
            if sheet.placements
        )

    def settled(self, latest: int = 5) -> tuple[SheetReport, ...]:
        return tuple(self._state.settled[-latest:][::-1])

    def keep_offcuts(self, number: int, offcuts: Collection[int]) -> SheetReport:
        def kept(sheet: SheetReport) -> SheetReport:
            if sheet.number != number:
                return sheet
            new = tuple(altered(one, kept=one.number in offcuts) for one in sheet.offcuts)
            return altered(sheet, offcuts=new)

        self._deed(
            f"kept {sorted(offcuts)} of sheet {number}",
            lambda s: replace(s, settled=tuple(map(kept, s.settled))),
        )
        return next(sheet for sheet in self.settled() if sheet.number == number)
