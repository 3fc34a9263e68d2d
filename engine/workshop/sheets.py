"""Sheets, from ganging to settling, and inserts put into their cases."""

from __future__ import annotations

from collections.abc import Collection as AnyOf
from collections.abc import Sequence

import msgspec

from engine import (
    cautions,
    deciding,
    papers,
    press,
    sheetwork,
)
from engine.errors import RefusedError
from engine.ganging import Cancel
from engine.reports import (
    PlanReport,
    PressReport,
    Progress,
    SheetsReport,
)
from engine.stages import outdated
from engine.values import Fitted, Sheet, Stage
from engine.workshop.bench import Bench


class Sheets(Bench):
    """The life of a sheet."""

    def sheets(self, *, plan: bool = False) -> SheetsReport:
        """Return the sheets that are ready, open, pressed, and settled with offcuts to keep.

        With ``plan`` the plan for all that is left, too, which takes longer; see ``plan``.
        """
        whole = self.plan() if plan else None
        with self._lock:
            moment = self._moment
            ganged, standing = moment.ganged, moment.standing
            live = [sheet for sheet in moment.sheets.values() if sheet.withdrawn_at is None]
            return SheetsReport(
                ready=tuple(
                    sheetwork.proposed(*one, standing) for each in ganged for one in each.ready
                ),
                open=tuple(
                    sheetwork.proposed(*each.open, standing, each.lacks)
                    for each in ganged
                    if each.open
                ),
                pressed=tuple(
                    sheetwork.pressed(sheet, self._page(sheet.number))
                    for sheet in live
                    if sheet.settled_at is None
                ),
                plan=whole,
            )

    def plan(self, cancel: Cancel | None = None) -> PlanReport:
        """Return the fewest sheets for everything that is on none yet.

        This may take seconds, in which other methods answer. Raises Cancelled when ``cancel``
        says so.
        """
        with self._lock:
            every = self._moment.papers
        return papers.plan(every, cancel)

    def press(self, *, part_full: bool = False) -> PressReport:
        """Write the PDFs of the sheets that are ready, or of all that waits if ``part_full``.

        Raises RefusedError when there is none, CollectionError when it cannot be written.
        """
        with self._lock:
            moment = self._moment
            proposed = [
                sheet
                for paper, ganged in zip(moment.papers, moment.ganged, strict=True)
                for sheet in (papers.part_full(paper) if part_full else ganged.ready)
            ]
            if not proposed:
                raise sheetwork.nothing_to_press(sum(len(p.waiting) for p in moment.papers))
            first, now = max(moment.sheets, default=0) + 1, self._now()
            sheets = [
                Sheet(
                    number=number,
                    forme=forme,
                    placements=sheetwork.placements(layout, moment.standing),
                    pressed_at=now,
                )
                for number, (forme, layout) in enumerate(proposed, start=first)
            ]
            for sheet in sheets:
                self._print(sheet)
            left = [moment.paper_left(one, n) for n, one in enumerate(proposed, start=first)]
            words = deciding.named("pressed", [f"sheet {sheet.number}" for sheet in sheets])
            # What follows its group or the setup is kept as it goes on paper.
            on_paper = [moment.games[p.game] for sheet in sheets for p in sheet.placements]
            self._collection.record(words, sheets=sheets, games=on_paper)
            self._renew()
            return PressReport(
                sheets=tuple(sheetwork.pressed(s, self._page(s.number)) for s in sheets),
                notes=(*filter(None, left), *cautions.CUTTING),
            )

    def settle(self, number: int, spoiled: AnyOf[int] = ()) -> Progress:
        """Mark every placement of a sheet good, but for the ``spoiled`` (counted from 1).

        A sheet that was settled may be settled again to put a slip right. Raises InputError.
        """
        with self._lock:
            sheet = self._moment.sheet(number)
            settled = sheetwork.settle(sheet, spoiled, self._now())
            changed = outdated(sheet, self._moment.standing)
            self._collection.record(f"settled sheet {number}", sheets=(settled,))
            self._renew()
            return self.progress(
                [
                    f"{self._moment.games[p.game].title} was changed after sheet {number} was "
                    "pressed, so it waits in the queue again."
                    for p in changed
                    if p.game in self._moment.games
                ]
            )

    def withdraw(self, number: int) -> Progress:
        """Put everything on a pressed sheet back in the queue. Raises RefusedError."""
        with self._lock:
            gone = sheetwork.withdraw(self._moment.sheet(number), self._now())
            self._collection.record(f"withdrew sheet {number}", sheets=(gone,))
            self._renew()
            return self.progress()

    def fit(self, ids: Sequence[str]) -> Progress:
        """Note that printed inserts are in their cases. Raises InputError or RefusedError."""
        with self._lock:
            moment, now = self._moment, self._now()
            games = [moment.game(game) for game in ids]
            fitted = [
                msgspec.structs.replace(game, fitted=Fitted(design=one.design.fingerprint, at=now))
                for game in games
                if (one := moment.standing[game.id]).design and one.stage is Stage.PRINTED
            ]
            done = {game.id for game in fitted}
            others = [game.title for game in games if game.id not in done]
            if not fitted:
                raise RefusedError(
                    ", ".join(others),
                    "not printed as designed, or fitted already",
                    "Press and settle its sheet first",
                )
            self._keep("fitted", fitted)
            return self.progress(
                [f"{title} was not fitted: it is not printed." for title in others]
            )

    def sheet_proof(self, number: int, ppi: float = 100) -> bytes:
        """Return a PNG of a pressed sheet's page. Raises InputError or CollectionError."""
        return press.page_picture(self._collection.sheet_path(number), ppi)

    def _print(self, sheet: Sheet) -> None:
        """Write the page of a sheet."""
        games = [placement.game for placement in sheet.placements]
        press.write_sheet(
            self._collection.sheet_path(sheet.number),
            sheet,
            {game: self._insert(game) for game in games},
            {game: self._moment.games[game].title for game in games},
        )

    def _page(self, number: int) -> str:
        """Return where the page of a sheet lies."""
        return str(self._collection.sheet_path(number))
