"""A collection: what is recorded in a folder, and the changes that can be undone."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import datetime
from pathlib import Path
from threading import RLock
from typing import Any, NamedTuple, Self, TypeVar

from engine.collection import backups, folders
from engine.collection.check import Finding, check_collection
from engine.collection.files import write_in
from engine.collection.history import History, Past
from engine.collection.newfiles import NewFiles
from engine.collection.opening import OpenFolder, open_folder
from engine.collection.pages import keep_pages
from engine.collection.reading import Tables
from engine.collection.records import Before, Change, Written, kept, whole_text, written
from engine.collection.storage import AtomicStorage
from engine.collection.store import Store
from engine.collection.table import Changed, Edit, RecordTable
from engine.model import Game, Picture, Sheet, Value
from engine.model.errors import CollectionError, ReadOnlyError, RefusedError
from engine.model.settings import Settings

K = TypeVar("K")
V = TypeVar("V", bound=Value)


class Edits(NamedTuple):
    """What one change did, or what undoing it did: the records that came out different."""

    words: str
    """What the change was called."""
    games: Mapping[str, Edit[Game]]
    """By id."""
    sheets: Mapping[int, Edit[Sheet]]
    """By number."""
    pictures: Mapping[str, Edit[Picture]]
    """By name."""
    settings: Edit[Settings] | None
    """None where they are as they were."""


class Collection:
    """A folder that a person owns, opened. Every method may be called from any thread."""

    def __init__(self, folder: Path, opened: OpenFolder, now: Callable[[], datetime]) -> None:
        """Take what opening gave; use ``open``."""
        self.folder = folder
        self.read_only = opened.lock is None
        self.notes = opened.notes
        self._store = opened.store
        self._lock = opened.lock
        self._now = now
        self._turn = RLock()

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
        ReadOnlyError, or CollectionError if the disk refuses; nothing has changed then.
        """
        with self._turn:
            self._must_write()
            tables = self._store.tables
            asked: dict[str, Changed[Any]] = {
                "games": _changed(tables.games, games, forget_games),
                "sheets": _changed(tables.sheets, sheets, forget_sheets),
                "pictures": _changed(tables.pictures, pictures, forget_pictures),
                "settings": _changed(tables.settings, () if settings is None else (settings,)),
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
            edits = self._apply(change.words, changes, tables.history.after(change))
            if files is not None:
                files.keep()
            return edits

    def note(self, *, games: Iterable[Game] = (), pictures: Iterable[Picture] = ()) -> Edits | None:
        """Record what was found out rather than done: undo passes it over.

        Otherwise as ``record``.
        """
        with self._turn:
            self._must_write()
            tables = self._store.tables
            asked: dict[str, Changed[Any]] = {
                "games": _changed(tables.games, games),
                "pictures": _changed(tables.pictures, pictures),
            }
            changes = {name: rows for name, rows in asked.items() if rows}
            return self._apply("", changes, tables.history) if changes else None

    def past(self) -> Iterator[tuple[Past, Edits]]:
        """Yield the changes that are kept, and what each of them made different.

        Those in force come first, the last one first, then those undone, the next one first.
        """
        tables = self._store.tables
        for one in tables.history.past(_rows(tables)):
            games, sheets, pictures, settings = map(one.rows.__getitem__, Before.__struct_fields__)
            yield (
                one,
                Edits(
                    words=one.change.words,
                    games=_by_name(tables.games, games),
                    sheets=_by_name(tables.sheets, sheets),
                    pictures=_by_name(tables.pictures, pictures),
                    settings=_settings(next(iter(settings.values()), None)),
                ),
            )

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
            for one in tables.history.past(_rows(tables)):
                if one.number in way:
                    turned[one.number] = one.turned()
                    for name, edits in one.rows.items():
                        for row, edit in edits.items():
                            aim = edit.new if one.change.undone else edit.old
                            changes.setdefault(name, {})[row] = aim and kept(aim)
            words = tables.history.changes[way[-1]].words
            return self._apply(words, changes, tables.history.with_(turned))

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
            return self.record(
                words,
                games=then.games.records.values(),
                sheets=then.sheets.records.values(),
                pictures=then.pictures.records.values(),
                settings=None if settings == self.settings else settings,
                forget_games=self.games.keys() - then.games.records.keys(),
                forget_sheets=self.sheets.keys() - then.sheets.records.keys(),
                forget_pictures=self.pictures.keys() - then.pictures.records.keys(),
            )

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

    def machine_path(self, number: int, form: str) -> Path:
        """Return where the svg or dxf for the machine that cuts a sheet lies or will lie."""
        return self.folder / folders.SHEETS / folders.machine_file(number, form)

    def job_path(self, first: int, last: int) -> Path:
        """Return where the PDF of a pressing of these sheets lies or will lie."""
        return self.folder / folders.SHEETS / folders.job_page(first, last)

    def picture_path(self, name: str) -> Path:
        """Return where the picture ``name`` lies; CollectionError if that is not a file name."""
        if Path(name).name != name or name in {"", ".."}:
            raise CollectionError(name, "this is no name of a picture", "Choose one of the list")
        return self.folder / folders.PICTURES / name

    def sheet_path(self, number: int) -> Path:
        """Return where the PDF of sheet ``number`` lies or will lie."""
        return self.folder / folders.SHEETS / folders.sheet_page(number)

    @property
    def font_folder(self) -> Path:
        """Where the fonts of titles lie."""
        return self.folder / folders.FONTS

    @property
    def case_folder(self) -> Path:
        """Where the person's own case kinds lie."""
        return self.folder / folders.CASES

    def check(self) -> tuple[Finding, ...]:
        """Return what is wrong in the folder, each with a mend; nothing is changed."""
        return tuple(check_collection(self.folder, self._store.tables))

    def close(self) -> None:
        """Let other programs write. What was recorded is on the disk already."""
        with self._turn:
            self.read_only = True
            if self._lock is not None:
                self._lock.release()
                self._lock = None

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def _must_write(self) -> None:
        if self.read_only:
            raise ReadOnlyError(
                str(self.folder),
                "the collection is open for reading only",
                "Close it where it is open for writing, then open it again",
            )

    def _apply(self, words: str, changes: Mapping[str, Changed[Any]], history: History) -> Edits:
        """Change the tables as one; the pages of sheets follow."""
        tables = self._store.tables
        settings = tables.settings.edits(changes.get("settings", {})).get("settings")
        edits = Edits(
            words=words,
            games=tables.games.edits(changes.get("games", {})),
            sheets=tables.sheets.edits(changes.get("sheets", {})),
            pictures=tables.pictures.edits(changes.get("pictures", {})),
            settings=_settings(settings),
        )
        self._store.apply(changes, history)
        if edits.sheets:
            keep_pages(self.folder, self.sheets.values())
        return edits


def _rows(tables: Tables) -> dict[str, Mapping[int, Any]]:
    """Return the rows of each table that changes are made to."""
    return {name: getattr(tables, name).rows for name in Before.__struct_fields__}


def _by_name(table: RecordTable[K, V], rows: Mapping[int, Edit[V]]) -> Mapping[K, Edit[V]]:
    """Return what became of rows by what names their records."""
    named = ((edit.new or edit.old, edit) for edit in rows.values())
    return {table.key(one): edit for one, edit in named if one is not None}


def _settings(edit: Edit[Settings] | None) -> Edit[Settings] | None:
    """Return what became of the settings; no row is what is set at first."""
    return edit and Edit(edit.old or Settings(), edit.new or Settings())


def _changed(
    table: RecordTable[K, V], records: Iterable[V], forgotten: Iterable[K] = ()
) -> Changed[V]:
    """Return the rows of a table that come out different."""
    numbers = table.numbers
    new: dict[int, Written[V] | None] = {numbers[key]: None for key in forgotten if key in numbers}
    added: dict[K, int] = {}
    for row in map(written, records):
        key = table.key(row.record)
        number = numbers.get(key)
        if number is None:
            number = added.setdefault(key, table.next_number + len(added))
        new[number] = row
    return {
        number: row
        for number, row in new.items()
        if (row.record if row else None) != table.rows.get(number)
    }
