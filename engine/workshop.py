"""The use cases: one method for each thing a person does with a collection.

A workshop holds one collection open. Every method may be called from any thread; one at a
time gets in. What a method changes is on the disk when it returns, as one deed that
``undo`` takes back.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from collections.abc import Collection as AnyOf
from datetime import UTC, datetime
from pathlib import Path
from threading import RLock

import msgspec

from engine import (
    accession,
    cases,
    cautions,
    deciding,
    ganging,
    intake,
    press,
    setting_up,
    sheetwork,
)
from engine.accession import Delivery, Progressing, unpack
from engine.cases import CaseKind, FlatNet
from engine.collection import Collection, Settings
from engine.collection.pages import keep_pages
from engine.errors import InputError, RefusedError
from engine.moment import Moment
from engine.outlet import write_out
from engine.press import Insert, netdrawing
from engine.reports import (
    AcceptReport,
    Finding,
    GameLine,
    Health,
    IntakeReport,
    KindLine,
    PressReport,
    Progress,
    Proposal,
    SheetsReport,
    Undecided,
)
from engine.stages import Place, outdated, stage_counts
from engine.values import Art, Decision, Fitted, Game, Sheet, Stage

ALL = frozenset(Decision)


def utc_now() -> datetime:
    """Return the present moment, to the second, in UTC."""
    return datetime.now(UTC).replace(microsecond=0)


def open_workshop(folder: Path, now: Callable[[], datetime] = utc_now) -> Workshop:
    """Open the collection in a folder, made on first use.

    It is read-only when another program holds it. Raises CollectionError or CaseError.
    """
    collection = Collection.open(folder, now=now)
    try:
        return Workshop(collection, cases.load_kinds(folder / "cases"), now)
    except BaseException:
        collection.close()
        raise


class Workshop:
    """A collection with the tools to work on it."""

    def __init__(
        self, collection: Collection, kinds: Mapping[str, CaseKind], now: Callable[[], datetime]
    ) -> None:
        """Work on ``collection`` with these case kinds, reading the time from ``now``."""
        self._collection = collection
        self._kinds = kinds
        self._now = now
        self._lock = RLock()
        self._moment = Moment(collection, kinds)

    @property
    def folder(self) -> Path:
        """The collection's folder."""
        return self._collection.folder

    @property
    def name(self) -> str:
        """What to call the collection: its folder's name."""
        return self.folder.resolve().name

    @property
    def read_only(self) -> bool:
        """Whether another program has the collection open."""
        return self._collection.read_only

    def close(self) -> None:
        """Let go of the collection."""
        with self._lock:
            self._collection.close()

    # --- Taking in ----------------------------------------------------------------------

    def intake(
        self,
        list_file: Path,
        pictures: Path | None = None,
        case: str = "",
        *,
        skip_broken: bool = False,
        progress: Progressing | None = None,
    ) -> IntakeReport:
        """Take in a list of games and a folder of pictures.

        Raises ListError, PictureError, CaseError, InputError or CollectionError.
        """
        delivery = unpack(list_file, pictures, skip_broken=skip_broken, progress=progress)
        return self.take_in(delivery, case)

    def take_in(self, delivery: Delivery, case: str = "") -> IntakeReport:
        """Take in a delivery that is unpacked already. Raises CaseError or CollectionError."""
        with self._lock:
            report = accession.take_in(self._collection, self._kinds, delivery, case, self._now())
            self._renew()
            return report

    # --- Looking ------------------------------------------------------------------------

    def progress(self, notes: Sequence[str] = ()) -> Progress:
        """Return how many games stand at each stage."""
        standing = self._moment.standing
        return Progress(
            games=len(standing),
            stages=stage_counts(standing),
            reprints=sum(one.reprint for one in standing.values()),
            notes=tuple(notes),
        )

    def games(self) -> tuple[GameLine, ...]:
        """Return all games in the order they were listed."""
        moment = self._moment
        batch = set(moment.settings.batch)
        return tuple(
            GameLine(
                id=game.id,
                title=game.title,
                series=game.series,
                maker=game.maker,
                genre=game.genre,
                year=game.year,
                notes=game.notes,
                case=moment.casing.case_of(game),
                stage=moment.standing[game.id].stage,
                sure=moment.proposer.art_is_sure(game),
                reprint=moment.standing[game.id].reprint,
                batch=game.id in batch,
            )
            for game in moment.games.values()
        )

    def proposal(self, game: str) -> Proposal:
        """Return a game's design as it would be printed now. Raises InputError."""
        with self._lock:
            return self._moment.proposal(self._moment.game(game).id)

    def proposals(self, ids: Sequence[str] | None = None) -> tuple[Proposal, ...]:
        """Return the designs of some games, or of all that are not finished."""
        wanted = self._moment.at(Place.BACKLOG) if ids is None else ids
        return tuple(self.proposal(game) for game in wanted)

    def arts(self, game: str) -> tuple[Art, ...]:
        """Return the ways to fit a game's picture, least loss first, plain last."""
        moment = self._moment
        return tuple(fitting.art for fitting in moment.proposer.fittings(moment.game(game)))

    def pictures(self, query: str = "") -> tuple[tuple[str, str], ...]:
        """Return pictures as (name, file name it came with), most like the query first."""
        sources = {name: p.source for name, p in self._collection.pictures.items()}
        return tuple((name, sources[name]) for name in intake.search(query, sources))

    def kinds(self) -> tuple[KindLine, ...]:
        """Return the case kinds, with how many games of the collection are in each."""
        moment = self._moment
        used = [moment.casing.case_of(game) for game in moment.games.values()]
        return tuple(
            KindLine(id=kind.id, name=kind.name, games=used.count(kind.id))
            for kind in self._kinds.values()
        )

    def kind(self, said: str) -> CaseKind:
        """Return a case kind by id or name. Raises CaseError."""
        return self._kinds[accession.known_kind(self._kinds, said)]

    def net(self, said: str) -> FlatNet:
        """Return the flat net of a case kind on the stock in use. Raises CaseError."""
        return self._moment.casing.net(self.kind(said).id)

    def check(self) -> Health:
        """Return what is wrong with the collection, with a mend for each."""
        with self._lock:
            found = self._collection.check()
            return Health(tuple(Finding(f.what, f.where, f.mend) for f in found))

    # --- Deciding -----------------------------------------------------------------------

    def accept(
        self, ids: Sequence[str], decisions: AnyOf[Decision] = ALL, *, sure_only: bool = False
    ) -> AcceptReport:
        """Accept what is proposed for some games; what was accepted before stays.

        With ``sure_only``, games with a doubt are left and told. Raises InputError.
        """
        with self._lock:
            proposals = self.proposals(ids)
            taken = [p for p in proposals if p.sure or not sure_only]
            now = self._now()
            self._keep(
                "accepted",
                [
                    deciding.accept(self._moment.games[p.game], p.design, decisions, now)
                    for p in taken
                ],
            )
            return AcceptReport(
                accepted=tuple(p.game for p in taken),
                left=tuple(
                    Undecided(game=p.game, title=p.title, doubts=p.doubts)
                    for p in proposals
                    if p not in taken
                ),
            )

    def reopen(self, ids: Sequence[str], decisions: AnyOf[Decision] = ALL) -> Progress:
        """Take acceptances back, so that these decisions are proposed again."""
        with self._lock:
            games = [self._moment.game(game) for game in ids]
            self._keep("reopened", [deciding.reopen(game, decisions) for game in games])
            return self.progress()

    def change_case(self, game: str, kind: str) -> Proposal:
        """Put a game in another case kind; its title is proposed anew for the new edges."""
        found = self.kind(kind).id
        with self._lock:
            return self._decide(deciding.change_case(self._moment.game(game), found))

    def change_panels(self, game: str, left_out: AnyOf[str]) -> Proposal:
        """Leave these panels out of a game's insert; its title is proposed anew.

        Raises CaseError for a panel the case kind does not have, or if none would be left.
        """
        with self._lock:
            found = self._moment.game(game)
            case = self._moment.casing.case_of(found)
            self._moment.casing.net(case, frozenset(left_out))
            return self._decide(deciding.change_panels(found, case, left_out))

    def change_art(self, game: str, art: Art) -> Proposal:
        """Take this art for a game, whatever was proposed. Raises InputError."""
        with self._lock:
            if art.picture is not None and art.picture not in self._collection.pictures:
                raise InputError(art.picture, "is not among the pictures", "Take it in first")
            found = self._moment.game(game)
            case = self._moment.casing.case_of(found)
            return self._decide(deciding.change_art(found, art, case, self._now()))

    def change_colour(self, game: str, base: str) -> Proposal:
        """Take this base colour, ``#rrggbb``; the ink follows from it. Raises InputError."""
        colours = deciding.colours(base)
        with self._lock:
            return self._decide(deciding.change_colours(self._moment.game(game), colours))

    def change_title(self, game: str, text: str) -> Proposal:
        """Set the title in these words on every edge, lines parted by newlines or ``/``.

        Raises InputError for an empty title.
        """
        lines = deciding.title_lines(text)
        with self._lock:
            found = self._moment.game(game)
            edges = self._moment.proposer.set_title(found, lines)
            design = self._moment.proposal(found.id).design
            return self._decide(deciding.change_title(found, design, edges, self._now()))

    # --- Today's batch ------------------------------------------------------------------

    def batch(self) -> tuple[str, ...]:
        """Return the games being worked on today."""
        return self._moment.settings.batch

    def set_batch(self, ids: Iterable[str]) -> tuple[str, ...]:
        """Work on these games. Returns the batch."""
        with self._lock:
            batch = tuple(dict.fromkeys(self._moment.game(game).id for game in ids))
            if batch != self.batch():
                settings = msgspec.structs.replace(self._moment.settings, batch=batch)
                self._collection.record("changed the batch", settings=settings)
                self._renew()
            return batch

    def add_to_batch(self, ids: Iterable[str]) -> tuple[str, ...]:
        """Bring games into the batch. Returns it."""
        return self.set_batch((*self.batch(), *ids))

    def drop_from_batch(self, ids: AnyOf[str]) -> tuple[str, ...]:
        """Take games out of the batch. Returns it."""
        return self.set_batch(game for game in self.batch() if game not in ids)

    def next_batch(self) -> tuple[str, ...]:
        """Bring the next games that are not finished into the batch, the finished ones out."""
        with self._lock:
            unfinished = self._moment.at(Place.BACKLOG)
            kept = [game for game in self.batch() if game in unfinished]
            fresh = [game for game in unfinished if game not in kept]
            room = max(self._moment.settings.batch_size - len(kept), 0)
            return self.set_batch((*kept, *fresh[:room]))

    # --- Sheets -------------------------------------------------------------------------

    def sheets(self) -> SheetsReport:
        """Return the sheets that are ready, open and pressed, and the plan for all that is left."""
        with self._lock:
            moment = self._moment
            ganged, standing = moment.ganged, moment.standing
            lay = sheetwork.proposed
            return SheetsReport(
                ready=tuple(lay(layout, moment.forme, standing) for layout in ganged.ready),
                open=(
                    (lay(ganged.open, moment.forme, standing, ganged.lacks),) if ganged.open else ()
                ),
                pressed=tuple(
                    sheetwork.pressed(sheet, self._page(sheet.number))
                    for sheet in moment.sheets.values()
                    if sheet.settled_at is None and sheet.withdrawn_at is None
                ),
                plan=moment.plan,
            )

    def press(self, *, part_full: bool = False) -> PressReport:
        """Write the PDFs of the sheets that are ready, or of all that waits if ``part_full``.

        Raises RefusedError when there is none, CollectionError when it cannot be written.
        """
        with self._lock:
            moment = self._moment
            layouts = moment.ganged.ready
            if part_full:
                layouts = ganging.gang_part_full(moment.waiting, moment.forme)
            if not layouts:
                raise sheetwork.nothing_to_press(waiting=len(moment.waiting))
            first, now = max(moment.sheets, default=0) + 1, self._now()
            sheets = [
                Sheet(
                    number=number,
                    forme=moment.forme,
                    placements=sheetwork.placements(layout, moment.standing),
                    pressed_at=now,
                )
                for number, layout in enumerate(layouts, start=first)
            ]
            for sheet in sheets:
                self._print(sheet)
            left = [
                moment.paper_left(layout, number)
                for number, layout in enumerate(layouts, start=first)
            ]
            words = deciding.named("pressed", [f"sheet {sheet.number}" for sheet in sheets])
            self._collection.record(words, sheets=sheets)
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

    def undo(self) -> str:
        """Take back the last thing done; return what it was. Raises RefusedError."""
        with self._lock:
            words = self._collection.undo()
            if words is None:
                raise RefusedError("", "There is nothing to take back")
            self._renew()
            return words

    # --- Setting up ---------------------------------------------------------------------

    def settings(self) -> Settings:
        """Return what was set for the whole collection."""
        return self._moment.settings

    def set_up(
        self, *, stock_id: str = "", margins: Sequence[float] | None = None, **fields: object
    ) -> Settings:
        """Change settings by name; see ``setting_up.changed``. Raises InputError or CaseError."""
        with self._lock:
            settings = setting_up.changed(
                self.settings(), self._kinds, stock_id=stock_id, margins=margins, **fields
            )
            if settings != self.settings():
                self._collection.record("changed the setup", settings=settings)
                self._renew()
            return settings

    # --- Case kinds -----------------------------------------------------------------------

    def draw_net(self, kind: str, path: Path) -> None:
        """Draw a kind's net as .svg, .dxf, .pdf or .png. Raises CaseError or InputError."""
        write_out(path, netdrawing.net_file(self.net(kind), path.suffix))

    # --- Proofs -------------------------------------------------------------------------

    def proof(self, game: str, ppi: float = 150) -> bytes:
        """Return a PNG of the page of one insert as it would be printed now."""
        with self._lock:
            insert = self._insert(self._moment.game(game).id)
        return press.proof(insert, ppi)

    def sheet_proof(self, number: int, ppi: float = 100) -> bytes:
        """Return a PNG of a pressed sheet's page. Raises InputError or CollectionError."""
        return press.page_picture(self._collection.sheet_path(number), ppi)

    def write_proof(self, game: str, path: Path, ppi: float = 150) -> None:
        """Write the proof of an insert as a PNG. Raises InputError."""
        if path.suffix.lower() != ".png":
            raise InputError(str(path), "a proof is a PNG", "Let the name end in .png")
        write_out(path, self.proof(game, ppi))

    # --- Within -------------------------------------------------------------------------

    def _renew(self) -> None:
        """Look at the collection anew after a deed."""
        self._moment = Moment(self._collection, self._kinds, before=self._moment)
        live = [s.number for s in self._moment.sheets.values() if s.withdrawn_at is None]
        keep_pages(self.folder, live)

    def _keep(self, verb: str, games: Sequence[Game]) -> None:
        """Record the games that changed as one deed."""
        changed = [game for game in games if self._moment.games[game.id] != game]
        if changed:
            words = deciding.named(verb, [game.title for game in changed])
            self._collection.record(words, games=changed)
            self._renew()

    def _decide(self, game: Game) -> Proposal:
        """Record one game's decision and return its design."""
        self._keep("changed", [game])
        return self.proposal(game.id)

    def _insert(self, game_id: str) -> Insert:
        """Compose the insert of a game as it would be printed now."""
        design = self._moment.proposal(game_id).design
        picture = design.art.picture
        return press.compose(
            design,
            self._moment.casing.net_for(design),
            self._collection.picture_path(picture) if picture else None,
            self._moment.proposer.font,
        )

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
