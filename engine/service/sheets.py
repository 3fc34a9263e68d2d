"""Sheets, from ganging to settling, and inserts put into their cases."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from collections.abc import Collection as AnyOf
from functools import cache

import msgspec

from engine import ganging, press
from engine.ganging import papers, sheetwork
from engine.ganging.papers import Paper, PaperSheets, Proposed
from engine.ganging.results import (
    CutsReport,
    PartFull,
    PlanReport,
    PressReport,
    SheetReport,
    SheetsReport,
)
from engine.model import Game, Machine, Reverse, Sheet, Stage, cautions
from engine.model.errors import RefusedError
from engine.model.stages import outdated
from engine.model.waiting import Cancel, go_on
from engine.service import deciding
from engine.service.fillers import Room
from engine.service.pages import Pages
from engine.service.pressing import Pressing
from engine.service.session import Session, named
from engine.service.writing import Wanted, written
from engine.state import Snapshot


class Sheets:
    """The life of a sheet."""

    def __init__(self, session: Session, pages: Pages) -> None:
        """Work in ``session``; have ``pages`` draw what is pressed."""
        self._session = session
        self._pages = pages

    def report(self, *, plan: bool = False, cancel: Cancel | None = None) -> SheetsReport:
        """Return the sheets that are ready, open and pressed.

        With ``plan`` the plan for all that is left, too; see ``plan``. Either may take seconds
        in a large collection, in which other methods answer. Raises Cancelled when ``cancel``
        says so.
        """
        whole = self.plan(cancel) if plan else None
        snapshot = self._session.snapshot
        ganged, standing = self._ganged(snapshot, cancel), snapshot.standing
        return SheetsReport(
            ready=tuple(
                sheetwork.proposed(*one.widened(snapshot.settings), standing)
                for each in ganged
                for one in each.ready
            ),
            open=tuple(
                sheetwork.proposed(*each.open, standing, each.lacks) for each in ganged if each.open
            ),
            pressed=tuple(
                self._pages.report(sheet)
                for sheet in snapshot.live_sheets
                if sheet.settled_at is None
            ),
            plan=whole,
            beyond=sum(map(_that_fit, snapshot.papers))
            - sum(len(one.layout.laid) for each in ganged for one in each.ready)
            - sum(len(each.open.layout.laid) for each in ganged if each.open),
        )

    def plan(self, cancel: Cancel | None = None) -> PlanReport:
        """Return the fewest sheets for everything that is on none yet.

        This may take seconds, in which other methods answer. Raises Cancelled when ``cancel``
        says so.
        """
        return papers.plan(self._session.snapshot.papers, cancel)

    def part_full(
        self,
        cancel: Cancel | None = None,
        found: Callable[[PartFull], None] = lambda _: None,
    ) -> tuple[PartFull, ...]:
        """Return what each sheet that would be pressed part-full wastes, and what could fill it.

        This may take a second for each sheet; ``found`` is told of one after the other. Raises
        Cancelled when ``cancel`` says so.
        """
        snapshot = self._session.snapshot
        room, reports = self._room(snapshot), []
        for sheet in _all_that_waits(snapshot, cancel):
            go_on(cancel)
            if _paper_left(snapshot, sheet, 0):
                with self._session.lock:
                    reports.append(room.report(sheet))
                found(reports[-1])
        return tuple(reports)

    def press(
        self,
        *,
        part_full: bool = False,
        fillers: AnyOf[str] = (),
        cut_page: bool = False,
        job: bool = False,
        reverse: Reverse | None = None,
        machine: Machine | None = None,
        cancel: Cancel | None = None,
    ) -> PressReport:
        """Write the PDFs of the sheets that are ready, or of all that waits if ``part_full``.

        ``fillers`` of ``part_full()``, by their ids, then use the room that is left. How to score
        and cut is written on a page beside a sheet where not every cut's number finds room on it,
        with ``cut_page`` beside each; with ``job``, one file of all sheets behind a job ticket as
        well. ``reverse`` and ``machine`` are as in the settings where they are not given. Raises
        RefusedError when there is none, InputError for an unknown filler, CollectionError
        when it cannot be written, and Cancelled when ``cancel`` says so: then nothing is
        pressed.
        """
        while True:
            snapshot = self._session.snapshot
            proposed = (
                _all_that_waits(snapshot, cancel)
                if part_full
                else [sheet for ganged in self._ganged(snapshot, cancel) for sheet in ganged.ready]
            )
            if not proposed:
                raise sheetwork.nothing_to_press(
                    sum(map(_that_fit, snapshot.papers)), snapshot.too_large
                )
            with self._session.lock:
                if snapshot is self._session.snapshot:
                    settings = snapshot.settings
                    wanted = Wanted(
                        cut_page,
                        job,
                        reverse or settings.reverse,
                        machine or settings.machine,
                    )
                    return self._press(
                        proposed, wanted, part_full=part_full, fillers=fillers, cancel=cancel
                    )

    def _press(
        self,
        proposed: Sequence[Proposed],
        wanted: Wanted,
        *,
        part_full: bool,
        fillers: AnyOf[str],
        cancel: Cancel | None,
    ) -> PressReport:
        snapshot = self._session.snapshot
        first = max(snapshot.sheets, default=0) + 1
        numbered = list(enumerate(proposed, start=first))
        with self._session.change():
            pressing = Pressing(
                self._room(snapshot),
                snapshot.standing,
                fillers,
                self._session.now(),
                snapshot.settings,
                cache(self._session.keep_font),
            )
            sheets = []
            for number, one in numbered:
                go_on(cancel)
                fill = part_full and bool(_paper_left(snapshot, one, number))
                sheet = pressing.sheet(number, one, fill=fill)
                if wanted.machine != "none" and not sheet.forme.has_both_strips:
                    raise sheetwork.no_room_for_marks(number, wanted.machine)
                calibration = snapshot.settings.calibration_on(one.forme.stock.id)
                sheets.append(
                    msgspec.structs.replace(
                        sheet,
                        calibration=calibration,
                        reverse=wanted.reverse,
                        machine=wanted.machine,
                    )
                )
            pressing.must_know_all()
            sheets, beside, ticket = written(
                self._session.files, self._pages, sheets, pressing.designs, wanted, cancel
            )
            self._session.keep(
                named("pressed", [f"sheet {sheet.number}" for sheet in sheets]),
                sheets=sheets,
                games=self._as_printed(sheets, pressing.finished),
            )
        left = [
            _paper_left(snapshot, Proposed(one.forme, pressing.layouts[n]), n)
            for n, one in numbered
        ]
        return PressReport(
            sheets=tuple(map(self._pages.report, sheets)),
            ticket=ticket,
            job=str(self._session.collection.job_path(sheets[0].number, sheets[-1].number))
            if wanted.job
            else None,
            notes=(
                *filter(None, left),
                *pressing.notes,
                *snapshot.too_large,
                *_allowed_for(sheets),
                *_fed(sheets),
                *_across_grain(sheets, snapshot),
                *([f"{named('The cut order is on a page beside', beside)}."] if beside else ()),
                *cautions.CUTTING,
            ),
        )

    def cuts(self, sheet: SheetReport) -> CutsReport:
        """Return what is scored on a sheet, proposed or pressed, and its cut order."""
        placed, pages = sheet.placements, self._pages
        return sheetwork.cuts(sheet, pages.scores(placed), pages.by_hand(placed))

    def sheet(self, number: int) -> SheetReport:
        """Return a sheet that is pressed or settled. Raises InputError."""
        with self._session.lock:
            return self._settled(self._session.snapshot.sheet(number))

    def settled(self, latest: int | None = 5) -> tuple[SheetReport, ...]:
        """Return settled sheets with inserts to fit or offcuts worth keeping.

        The ``latest`` few and all with kept offcuts; None is all of them.
        """
        with self._session.lock:
            live = self._session.snapshot.live_sheets
        done = [sheet for sheet in reversed(live) if sheet.settled_at]
        shown = [s for n, s in enumerate(done) if latest is None or n < latest or s.offcuts]
        reports = [self._settled(sheet) for sheet in shown]
        return tuple(report for report in reports if report.offcuts or report.to_fit)

    def keep_offcuts(self, number: int, offcuts: AnyOf[int]) -> SheetReport:
        """Keep these offcuts of a settled sheet, each as a stock of one, and no others of it.

        Raises InputError for an offcut it has not, RefusedError for a sheet not settled.
        """
        with self._session.lock:
            sheet = self._session.snapshot.sheet(number)
            kept = sheetwork.keep_offcuts(sheet, offcuts, self._stocks_used())
            if kept != sheet:
                words = f"changed what is kept of sheet {number}"
                self._session.keep(words, sheets=(kept,))
            return self._settled(kept)

    def _settled(self, sheet: Sheet) -> SheetReport:
        report = self._pages.report(sheet)
        if sheet.settled_at is None:
            return report
        standing = self._session.snapshot.standing
        good = sheetwork.good(sheet, standing)
        left = sum(standing[sheet.placements[n].game].stage is Stage.PRINTED for n in good)
        report = msgspec.structs.replace(report, to_fit=left)
        return sheetwork.with_offcuts(sheet, report, self._stocks_used())

    def _stocks_used(self) -> set[str]:
        return {sheet.forme.stock.id for sheet in self._session.snapshot.live_sheets}

    def _ganged(self, snapshot: Snapshot, cancel: Cancel | None) -> tuple[PaperSheets, ...]:
        """Return what waits, ganged onto full sheets and an open one of each stock."""
        patience = snapshot.settings.patience
        return tuple(papers.gang(paper, patience, cancel) for paper in snapshot.papers)

    def _room(self, snapshot: Snapshot) -> Room:
        return Room(
            snapshot.games,
            snapshot.standing,
            snapshot.casing,
            snapshot.live_sheets,
            snapshot.proposal,
        )

    def settle(self, number: int, spoiled: AnyOf[int] = ()) -> tuple[str, ...]:
        """Mark every placement of a sheet good, but for the ``spoiled`` (counted from 1).

        A sheet that was settled may be settled again to put a slip right. Returns what the
        person should know, a sentence each. Raises InputError.
        """
        with self._session.lock:
            snapshot = self._session.snapshot
            sheet = snapshot.sheet(number)
            settled = sheetwork.settle(sheet, spoiled, self._session.now())
            self._session.keep(f"settled sheet {number}", sheets=(settled,))
            return tuple(
                f"{snapshot.games[placement.game].title} was changed after sheet {number} was "
                "pressed, so it waits in the queue again."
                for placement in outdated(sheet, snapshot.standing)
                if placement.game in snapshot.games
            )

    def withdraw(self, number: int) -> None:
        """Put everything on a pressed sheet back in the queue. Raises RefusedError."""
        with self._session.lock:
            sheet = self._session.snapshot.sheet(number)
            gone = sheetwork.withdraw(sheet, self._session.now())
            self._session.keep(f"withdrew sheet {number}", sheets=(gone,))

    def fit(self, ids: Sequence[str]) -> tuple[str, ...]:
        """Note that printed inserts are in their cases.

        Returns what was not fitted, a sentence each. Raises InputError, or RefusedError where
        none can be.
        """
        with self._session.lock:
            snapshot, now = self._session.snapshot, self._session.now()
            games = [snapshot.game(game) for game in ids]
            fitted = [
                deciding.fit(game, snapshot.standing[game.id].design, now)
                for game in games
                if snapshot.standing[game.id].stage is Stage.PRINTED
            ]
            done = {game.id for game in fitted}
            others = [game.title for game in games if game.id not in done]
            if not fitted:
                raise RefusedError(
                    ", ".join(others),
                    "not printed as designed, or fitted already",
                    "Press and settle its sheet first",
                )
            self._session.keep_games("fitted", fitted)
            return tuple(f"{title} was not fitted: it is not printed." for title in others)

    def proof(self, number: int, ppi: float = 100) -> bytes:
        """Return a PNG of a pressed sheet's page. Raises InputError or CollectionError."""
        return press.page_picture(self._session.collection.sheet_path(number), ppi)

    def _as_printed(self, sheets: Sequence[Sheet], finished: Sequence[Game]) -> list[Game]:
        """Return the games on sheets as they are printed: they follow their groups no more.

        ``finished`` are those that were accepted by being chosen to fill a sheet.
        """
        games = {game.id: game for game in finished}
        for sheet in sheets:
            for placement in sheet.placements:
                key = placement.game
                games.setdefault(key, self._session.snapshot.games[key])
        return list(games.values())


def _paper_left(snapshot: Snapshot, sheet: Proposed, number: int) -> str:
    """Return a sentence if more of any kind of the collection would fit on a sheet, else ''."""
    stock, casing = sheet.forme.stock.id, snapshot.casing
    same = (g for g in snapshot.games.values() if casing.stock_of(casing.case_of(g)).id == stock)
    return sheetwork.paper_left(sheet.layout, number, sheet.forme, papers.footprints(same, casing))


def _allowed_for(sheets: Sequence[Sheet]) -> tuple[str, ...]:
    """Return what is undone of the printer on these sheets, a sentence for each stock."""
    found = {s.forme.stock.name: s.calibration for s in sheets if s.calibration}
    return tuple(f"The printer is allowed for on {p}: {c.words}." for p, c in found.items())


def _fed(sheets: Sequence[Sheet]) -> tuple[str, ...]:
    """Return how the papers of these sheets are laid into the printer, a sentence each."""
    stocks = dict.fromkeys(sheet.forme.stock for sheet in sheets if sheet.forme.stock.feed)
    return tuple(f"Feed {stock.name} {stock.feed}." for stock in stocks)


def _across_grain(sheets: Sequence[Sheet], snapshot: Snapshot) -> Iterator[str]:
    """Yield a sentence for each sheet on which scores cross the grain of the paper."""
    for sheet in sheets:
        stock = sheet.forme.stock
        across = [
            place
            for place in sheet.placements
            if any(
                stock.crosses(upright=score.upright is not place.rotated)
                for score in snapshot.casing.net(place.case).scores
            )
        ]
        if across:
            inserts = "one insert" if len(across) == 1 else f"{len(across)} inserts"
            yield (
                f"Sheet {sheet.number}: scores of {inserts} cross the grain of {stock.name}, where "
                "card cracks: score well before you fold, or take paper of the other grain."
            )


def _that_fit(paper: Paper) -> int:
    """Return how many inserts wait that fit a sheet of their paper at all."""
    return sum(ganging.fits(item, paper.forme) for item in paper.waiting)


def _all_that_waits(snapshot: Snapshot, cancel: Cancel | None) -> list[Proposed]:
    """Return the fewest sheets that print all that waits, full or not."""
    return [sheet for paper in snapshot.papers for sheet in papers.part_full(paper, cancel)]
