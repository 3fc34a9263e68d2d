"""The pages of sheets: what they are drawn from, and drawing them anew as they were."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from hashlib import sha256

import msgspec

from engine import press
from engine.artwork import ArtRequest
from engine.cases import FlatNet
from engine.cases.casing import Casing
from engine.ganging import sheetwork
from engine.ganging.results import ScoreSetting, SheetReport
from engine.model import Design, Placement, Printed, Sheet
from engine.model.errors import CaseError, RefusedError
from engine.press import Insert, PdfDocument, WorkStep
from engine.service.proofs import Proofs
from engine.service.session import Session


class Pages:
    """Draws the pages of sheets."""

    def __init__(self, session: Session, proofs: Proofs) -> None:
        """Work in ``session``; print the inserts that ``proofs`` composes."""
        self._session = session
        self._proofs = proofs

    def art(self, sheet: Sheet, designs: Mapping[str, Design]) -> list[ArtRequest]:
        """Return the art that the page of a sheet will ask for."""
        inserts = self._inserts(sheet, designs).values()
        bleed = press.bleed_on(sheet.forme)
        return [art for insert in inserts for art in insert.requests(bleed)]

    def draw(
        self, sheet: Sheet, designs: Mapping[str, Design], job: PdfDocument | None = None
    ) -> tuple[bytes, bool, Sheet]:
        """Return the page of a sheet with its back, and the sheet as printed.

        Between them, whether each cut's number found room on the page. ``designs`` are by
        fingerprint. The page is added to ``job`` too, where there is one. Raises what drawing an
        insert raises.
        """
        games = self._session.snapshot.games
        titles = {one.game: games[one.game].title for one in sheet.placements}
        inserts = self._inserts(sheet, designs)
        document = press.PdfDocument(f"Sheet {sheet.number}")
        numbered = press.draw_sheet(document, sheet, inserts, titles)
        page = document.finish()
        if job is not None:
            press.draw_sheet(job, sheet, inserts, titles)
        kept = tuple(designs[key] for key in inserts)
        casing, settings = self._session.snapshot.casing, self._session.snapshot.settings
        printed = Printed(
            designs=kept,
            titles=titles,
            digest=sha256(page).hexdigest(),
            poses={kind: casing.pose(kind).value for kind in {one.case for one in kept}},
            spine=settings.spine,
        )
        return page, numbered, msgspec.structs.replace(sheet, printed=printed)

    def again(self, sheet: Sheet) -> bytes:
        """Return the very page that was written for a sheet.

        Raises RefusedError where it would be another now.
        """
        where = f"sheet {sheet.number}"
        printed = sheet.printed
        if printed is None:
            what = "was pressed before the program kept what sheets are printed with"
            raise RefusedError(where, what, "Print its file, or withdraw it and press again")
        page = press.sheet_page(sheet, self._as_printed(sheet, printed), printed.titles)
        if sha256(page).hexdigest() != printed.digest:
            what = "would be another: its case kind, a file it needs or the program has changed"
            raise RefusedError(where, what, "Withdraw it and press again")
        return page

    def report(self, sheet: Sheet) -> SheetReport:
        """Return what there is to say of a pressed sheet, and where its files lie."""
        number, found = sheet.number, self._session.collection
        machine = (
            None if sheet.machine == "none" else str(found.machine_path(number, sheet.machine))
        )
        return sheetwork.pressed(sheet, str(found.sheet_path(number)), machine)

    def cut_page(self, sheet: Sheet, designs: Mapping[str, Design]) -> bytes:
        """Return the page that tells how a sheet is scored and cut."""
        order = press.order_of(sheet.forme, sheet.placements, sheet.strip)
        inserts = self._inserts(sheet, designs)
        return press.cut_page(sheet, order, inserts, self.by_hand(sheet.placements))

    def machine_file(self, sheet: Sheet) -> bytes:
        """Return what tells a machine how a printed sheet is cut."""
        inserts = self._as_printed(sheet, sheet.printed) if sheet.printed else {}
        return press.machine_file(sheet, inserts)

    def ticket(self, sheets: list[Sheet], designs: Mapping[str, Design]) -> tuple[str, ...]:
        """Return the job ticket of some sheets, a paragraph each."""
        casing = self._session.snapshot.casing
        nets: dict[str, FlatNet] = {}
        for sheet in sheets:
            for placement in sheet.placements:
                design = designs.get(placement.design)
                if placement.case not in nets and design is not None:
                    try:
                        nets[placement.case] = casing.net_for(design)
                    except CaseError:
                        continue
        return press.ticket_lines(sheets, nets, self._names)

    def by_hand(self, placements: Sequence[Placement]) -> tuple[str, ...]:
        """Return what is cut by hand of a sheet's inserts once their rectangles are free."""
        nets = self.nets(placements)
        return tuple(one.words for one in sheetwork.by_hand(placements, nets, self._names))

    def scores(self, placements: Sequence[Placement]) -> tuple[ScoreSetting, ...]:
        """Return what is scored on a sheet with these inserts, in its order."""
        return press.score_settings(placements, self.nets(placements))

    def steps(self, sheet: SheetReport) -> tuple[WorkStep, ...]:
        """Return how a sheet is scored and cut, step by step."""
        nets = self.nets(sheet.placements)
        by_hand = sheetwork.by_hand(sheet.placements, nets, self._names)
        return press.work_steps(sheet, nets, by_hand)

    def nets(self, placements: Iterable[Placement]) -> dict[tuple[str, str], FlatNet]:
        """Return the nets of a sheet's inserts, by game and case kind, of kinds still in use."""
        snapshot, kinds = self._session.snapshot, self._session.kinds
        nets: dict[tuple[str, str], FlatNet] = {}
        for one in placements:
            game = snapshot.games.get(one.game)
            if one.case in kinds:
                own = game is not None and snapshot.casing.case_of(game) == one.case
                net = (
                    snapshot.casing.net_of(game) if own and game else snapshot.casing.net(one.case)
                )
                nets[one.game, one.case] = net
        return nets

    @property
    def _names(self) -> dict[str, str]:
        return {key: kind.name for key, kind in self._session.kinds.items()}

    def _as_printed(self, sheet: Sheet, printed: Printed) -> dict[str, Insert]:
        """Return the inserts of a sheet as it was printed, whatever was set up since."""
        designs = {design.fingerprint: design for design in printed.designs}
        if not printed.spine:
            return self._inserts(sheet, designs)
        settings = msgspec.structs.replace(
            self._session.snapshot.settings,
            stock=sheet.forme.stock,
            stocks={},
            poses=printed.poses,
            spine=printed.spine,
        )
        return self._inserts(sheet, designs, Casing(self._session.kinds, settings))

    def _inserts(
        self, sheet: Sheet, designs: Mapping[str, Design], casing: Casing | None = None
    ) -> dict[str, Insert]:
        """Return the inserts of a sheet by their designs' fingerprints, in the order they lie."""
        return {
            key: self._proofs.composed(designs[key], casing)
            for key in dict.fromkeys(placement.design for placement in sheet.placements)
        }
