"""A collection: what is recorded in a folder, and the changes that can be undone."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from datetime import date, datetime
from pathlib import Path
from threading import RLock
from time import perf_counter
from typing import Any, Self

from engine.collection import backups, folders, leavings
from engine.collection.check import Finding, check_collection
from engine.collection.edits import Edits, by_name, changed, rows_of, settings_edit
from engine.collection.files import not_written, write_in
from engine.collection.history import History, Past
from engine.collection.mending import put_away, settled
from engine.collection.newfiles import NewFiles
from engine.collection.opening import OpenFolder, open_folder, open_if_free, release
from engine.collection.pages import keep_pages
from engine.collection.paths import Paths
from engine.collection.records import Before, Change, Written, kept, whole_text
from engine.collection.storage import AtomicStorage
from engine.collection.store import Store
from engine.collection.table import Changed
from engine.model import Game, Picture, Sheet
from engine.model.errors import (
    ChangedError,
    CollectionError,
    ReadOnlyError,
    RefusedError,
)
from engine.model.settings import Settings

logging.getLogger("spinery").addHandler(logging.NullHandler())
_log = logging.getLogger("spinery.collection")


class Collection(Paths):
    """A folder that a person owns, opened. Every method may be called from any thread."""

    def __init__(self, folder: Path, opened: OpenFolder, now: Callable[[], datetime]) -> None:
        """Take what opening gave; use ``open``."""
        super().__init__(folder)
        self._now = now
        self._turn = RLock()
        self._day: date | None = None
        """Of the last change that was made here."""
        self._take(opened)

    def _take(self, opened: OpenFolder) -> None:
        how = "for reading" if opened.lock is None else "for writing"
        _log.info("opened %s %s %s", self.folder, how, " ".join(opened.notes))
        self.read_only = opened.lock is None
        self.notes = opened.notes
        self.may_go_on = opened.is_taken
        """Whether what keeps this program from writing may end; ``go_on`` tries it."""
        self._store = opened.store
        self._lock = opened.lock

    @classmethod
    def open(cls, folder: Path, *, now: Callable[[], datetime]) -> Self:
        """Make or open the collection in ``folder``; read-only if another program holds it.

        ``now`` gives the time of each change, with its zone. ``notes`` then says, a sentence
        each, what the person should know. Raises CollectionError, which names every fault
        of a damaged file and the backup to go back to; the file is left as it is.
        """
        folder = folder.expanduser().absolute()
        return cls(folder, open_folder(folder, now), now)

    @property
    def games(self) -> Mapping[str, Game]:
        """The games by id, in the order of the list; a mapping that never changes."""
        return self._store.tables.games.records

    @property
    def sheets(self) -> Mapping[int, Sheet]:
        """The sheets by number; a mapping that never changes."""
        return self._store.tables.sheets.records

    @property
    def pictures(self) -> Mapping[str, Picture]:
        """The pictures by name; a mapping that never changes."""
        return self._store.tables.pictures.records

    @property
    def settings(self) -> Settings:
        """What the person set."""
        return next(iter(self._store.tables.settings.records.values()), Settings())

    def record(  # noqa: PLR0913 - a change is one call, whatever it touches
        self,
        words: str,
        *,
        games: Iterable[Game] = (),
        sheets: Iterable[Sheet] = (),
        pictures: Iterable[Picture] = (),
        settings: Settings | None = None,
        forget_games: Iterable[str] = (),
        forget_sheets: Iterable[int] = (),
        forget_pictures: Iterable[str] = (),
        files: NewFiles | None = None,
    ) -> Edits | None:
        """Record one change: all of it is on the disk when this returns, or none of it.

        ``words`` say what was done ('pressed sheet 3'): undo shows them. Records replace
        those of the same id, number or name, or are added at the end. ``files`` that belong
        to the change stay in the folder from then on. What is as it was already makes no
        change: then None is returned. Raises InputError for a record that cannot be kept,
        ReadOnlyError, or CollectionError if the disk refuses; nothing has changed then. A
        ChangedError says that something else wrote the file meanwhile: then it is left, the
        collection as it would be is kept among the backups, and nothing more can be changed
        until ``go_on`` has read the file.
        """
        with self._turn:
            self._must_write()
            tables = self._store.tables
            asked: dict[str, Changed[Any]] = {
                "games": changed(tables.games, games, forget_games),
                "sheets": changed(tables.sheets, sheets, forget_sheets),
                "pictures": changed(tables.pictures, pictures, forget_pictures),
                "settings": changed(tables.settings, () if settings is None else (settings,)),
            }
            changes = {name: rows for name, rows in asked.items() if rows}
            if files is not None:
                files.force()
            if not changes:
                return None
            before: dict[str, Any] = {
                name: {number: getattr(tables, name).rows.get(number) for number in rows}
                for name, rows in changes.items()
            }
            change = Change(whole_text(words), self._now(), Before(**before))
            self._back_up_daily(change.at)
            # Whatever ends the program from here on, the record may name them: they are left, and
            # swept at the next opening if it does not.
            brought = files.keep() if files is not None else []
            try:
                return self._apply(change.words, changes, tables.history.after(change))
            except CollectionError as error:
                if files is not None and not isinstance(error, ChangedError):
                    files.give_up(brought)
                raise

    def note(self, *, games: Iterable[Game] = (), pictures: Iterable[Picture] = ()) -> Edits | None:
        """Record what was found out rather than done: undo passes it over.

        Otherwise as ``record``.
        """
        with self._turn:
            self._must_write()
            tables = self._store.tables
            asked: dict[str, Changed[Any]] = {
                "games": changed(tables.games, games),
                "pictures": changed(tables.pictures, pictures),
            }
            changes = {name: rows for name, rows in asked.items() if rows}
            return self._apply("", changes, tables.history) if changes else None

    def past(self) -> Iterator[tuple[Past, Edits]]:
        """Yield the changes that are kept, and what each of them made different.

        Those in force come first, the last one first, then those undone, the next one first.
        """
        tables = self._store.tables
        for one in tables.history.past(rows_of(tables)):
            games, sheets, pictures, settings = map(one.rows.__getitem__, Before.__struct_fields__)
            yield (
                one,
                Edits(
                    words=one.change.words,
                    games=by_name(tables.games, games),
                    sheets=by_name(tables.sheets, sheets),
                    pictures=by_name(tables.pictures, pictures),
                    settings=settings_edit(next(iter(settings.values()), None)),
                ),
            )

    @property
    def changes(self) -> Mapping[int, Change]:
        """The changes that are kept, by number, the last one last; see ``past`` for more."""
        return self._store.tables.history.changes

    def way_to(self, number: int) -> tuple[int, ...]:
        """Return the changes that ``go_to`` would undo, or do again, in that order."""
        return self._store.tables.history.way_to(number)

    def undo(self) -> Edits | None:
        """Take back the last change; return what that did, or None if there is none.

        Raises ReadOnlyError, or CollectionError if the disk refuses; nothing has changed then.
        """
        with self._turn:
            before_last = [0, *self._store.tables.history.done][-2:]
            return self.go_to(before_last[0])

    def redo(self) -> Edits | None:
        """Do again what was undone last; return what that did, or None if there is nothing.

        Raises as ``undo``.
        """
        with self._turn:
            undone = self._store.tables.history.undone
            return self.go_to(next(iter(undone))) if undone else None

    def go_to(self, number: int) -> Edits | None:
        """Undo all changes after ``number``, or do again those up to it, as one.

        0 stands before the first change that can be undone. Returns what that did, called by the
        change gone through last, or None where nothing lies between. Raises as ``undo``.
        """
        with self._turn:
            self._must_write()
            tables = self._store.tables
            way = tables.history.way_to(number)
            if not way:
                return None
            turned: dict[int, Change] = {}
            changes: dict[str, dict[int, Written[Any] | None]] = {}
            for one in tables.history.past(rows_of(tables)):
                if one.number in way:
                    turned[one.number] = one.turned()
                    for name, edits in one.rows.items():
                        for row, edit in edits.items():
                            aim = edit.new if one.change.undone else edit.old
                            changes.setdefault(name, {})[row] = aim and kept(aim)
            words = tables.history.changes[way[-1]].words
            done = self._apply(words, changes, tables.history.with_(turned))
            return self._with_files(done)

    def _with_files(self, edits: Edits) -> Edits:
        """Bring the files of pictures back, or put them away, where their records came or went."""
        if edits.pictures:
            leavings.put_away(self.folder, self._store.tables)
        return edits

    @property
    def copies(self) -> tuple[Path, ...]:
        """The backups of the file, the newest first; see ``backups``."""
        return tuple(backups.backups(self.folder))

    def become(self, copy: Path, words: str) -> Edits | None:
        """Record as one change that all is as one of ``copies`` holds it; undo takes that back.

        Games that are not there now come after all others. Returns None where nothing differs.
        Raises CollectionError where the copy cannot be read, and as ``record``.
        """
        with self._turn:
            self._must_write()
            then = Store(AtomicStorage(copy)).tables
            settings = next(iter(then.settings.records.values()), Settings())
            edits = self.record(
                words,
                games=then.games.records.values(),
                sheets=then.sheets.records.values(),
                pictures=then.pictures.records.values(),
                settings=None if settings == self.settings else settings,
                forget_games=self.games.keys() - then.games.records.keys(),
                forget_sheets=self.sheets.keys() - then.sheets.records.keys(),
                forget_pictures=self.pictures.keys() - then.pictures.records.keys(),
            )
            return edits and self._with_files(edits)

    def new_files(self) -> NewFiles:
        """Return what brings the files of a change into the folder, to be used in a ``with``.

        Other threads record nothing until it ends. Raises ReadOnlyError.
        """
        self._must_write()
        return NewFiles(self.folder, self._turn)

    def keep_kind(self, kind: str, text: str, *, replace: bool = False) -> Path:
        """Write the file of a person's own case kind; return where it lies.

        It is no change: undo leaves it alone, deleting the file takes it back. Raises
        RefusedError where there is one of that id, unless it may ``replace`` it, ReadOnlyError,
        or CollectionError where it cannot be written.
        """
        with self._turn:
            self._must_write()
            path = self.case_folder / f"{kind}.toml"
            if path.exists() and not replace:
                what = "the collection has a case kind of that name"
                raise RefusedError(kind, what, "Choose another")
            write_in(path, (text.encode(),))
            return path

    def keep_trial(self, kind: str, page: bytes) -> Path:
        """Write the page of a case kind's trial cut among the sheets; return where it lies.

        Raises ReadOnlyError, or CollectionError where it cannot be written.
        """
        return self._keep_page(folders.trial_page(kind), page)

    def keep_check_page(self, stock: str, page: bytes) -> Path:
        """Write the check page of a stock among the sheets; return where it lies.

        Raises as ``keep_trial``.
        """
        return self._keep_page(folders.check_page(stock), page)

    def _keep_page(self, name: str, page: bytes) -> Path:
        with self._turn:
            self._must_write()
            path = self.folder / folders.SHEETS / name
            write_in(path, (page,))
            return path

    def write_sheet(self, number: int, page: bytes) -> Path:
        """Write the page of a sheet that is recorded once more; return where it lies.

        Raises ReadOnlyError, or CollectionError where it cannot be written.
        """
        return self._keep_page(folders.sheet_page(number), page)

    def write_machine_file(self, number: int, form: str, file: bytes) -> Path:
        """Write what tells a machine how a sheet is cut once more; return where it lies.

        Raises as ``write_sheet``.
        """
        return self._keep_page(folders.machine_file(number, form), file)

    def check(self) -> tuple[Finding, ...]:
        """Return what is wrong in the folder, each with a mend; nothing is changed."""
        return tuple(check_collection(self.folder, self._store.tables))

    def mend(self, findings: Iterable[Finding]) -> tuple[tuple[str, ...], Edits | None]:
        """Mend those of the ``findings`` that can be; return a sentence each, and what changed.

        The file is copied to the backups first. Raises ReadOnlyError, or CollectionError where
        the disk refuses.
        """
        findings = tuple(findings)
        with self._turn:
            self._must_write()
            try:
                backups.keep(self.folder / folders.FILE, self._now())
            except OSError as error:
                raise not_written(self.folder / folders.BACKUPS, error) from error
            # Files first: a refusal among them leaves the records as whoever asks knows them.
            moved = tuple(put_away(self.folder, findings))
            games, settings, said = settled(self._store.tables, findings)
            edits = self.record("mended what was found", games=games, settings=settings)
            return (*said, *moved), edits

    def go_on(self) -> bool:
        """Return whether changes can be made, having tried to where they could not.

        They can once the other program that had the collection open has ended; what it wrote is
        read, so that every record may differ. Raises CollectionError as ``open`` does.
        """
        with self._turn:
            if self.may_go_on:
                self._let_go()
                opened = open_if_free(self.folder, self._now)
                if opened is not None:
                    self._take(opened)
            return not self.read_only

    def close(self) -> None:
        """Let other programs write. What was recorded is on the disk already."""
        with self._turn:
            self.read_only = True
            self.may_go_on = False
            self._let_go()

    def _let_go(self) -> None:
        if self._lock is not None:
            release(self._lock)
            self._lock = None

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def why_read_only(
        self,
        what: str = "the collection is open for reading only",
        mend: str = "Close it where it is open for writing, then open it again",
    ) -> ReadOnlyError:
        """Return what to raise where nothing may be changed: ``what`` if another program has it."""
        if self.may_go_on or not self.notes:
            return ReadOnlyError(str(self.folder), what, mend)
        return ReadOnlyError("", self.notes[0].removesuffix("."))

    def _must_write(self) -> None:
        if self.read_only:
            raise self.why_read_only()

    def _apply(self, words: str, changes: Mapping[str, Changed[Any]], history: History) -> Edits:
        """Change the tables as one; the pages of sheets follow."""
        self._must_be_as_left(changes, history)
        tables = self._store.tables
        settings = tables.settings.edits(changes.get("settings", {})).get("settings")
        edits = Edits(
            words=words,
            games=tables.games.edits(changes.get("games", {})),
            sheets=tables.sheets.edits(changes.get("sheets", {})),
            pictures=tables.pictures.edits(changes.get("pictures", {})),
            settings=settings_edit(settings),
        )
        begun = perf_counter()
        try:
            doubt = self._store.apply(changes, history)
        except CollectionError as error:
            _log.error("%s: not recorded: %s", words, error)
            raise
        took = (perf_counter() - begun) * 1000
        rows = sum(map(len, changes.values()))
        _log.info("%s (%d records, %.0f ms) %s", words or "noted", rows, took, doubt or "")
        if edits.sheets:
            keep_pages(self.folder, self.sheets.values())
        return edits._replace(doubt=doubt)

    def _back_up_daily(self, at: datetime) -> None:
        """Copy the file to the backups before the first change of a day, if it was open since."""
        if self._day is not None and at.date() > self._day:
            with suppress(OSError):  # the change itself says what is wrong with the disk
                backups.keep(self.folder / folders.FILE, at)
        self._day = at.date()

    def _must_be_as_left(self, changes: Mapping[str, Changed[Any]], history: History) -> None:
        """Raise ChangedError where something else wrote the file, with what is held here kept."""
        if self._store.is_as_left():
            return
        kept = backups.new_path(self.folder, backups.ASIDE, self._now())
        self._store.write_aside(kept, changes, history)
        self.read_only = self.may_go_on = True
        _log.warning("changed from outside; what is held is kept as %s", kept.name)
        raise ChangedError(
            str(self.folder / folders.FILE),
            "another program or another computer changed the file since it was read here, so it "
            f"was left; what is held here, this change included, is kept as {kept.name} "
            f"in {folders.BACKUPS}",
            f"Open the collection again; spinery restore {kept.name} goes back to what is kept",
        )
