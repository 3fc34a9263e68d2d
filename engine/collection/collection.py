"""A collection: what is recorded in a folder, and the deeds that can be undone."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import datetime
from pathlib import Path
from threading import RLock
from types import MappingProxyType
from typing import Any, Self, cast

from engine.collection import fonts, pictures
from engine.collection.check import Contents, Fault, check_collection
from engine.collection.files import force_folder, not_written
from engine.collection.opening import SHEETS, Opened, open_folder
from engine.collection.records import Deed, Images, checked, key_of
from engine.collection.storage import AtomicStorage
from engine.collection.store import next_number
from engine.model import Game, Picture, Sheet, Value
from engine.model.errors import CollectionError, ReadOnlyError
from engine.model.settings import Settings

DEEDS_KEPT = 100
"""So many deeds can be undone."""
IMAGES_KEPT = 5_000
"""Records kept for undoing, over all deeds; the last deed can be undone whatever its size."""


class Collection:
    """A folder that a person owns, opened. Every method may be called from any thread."""

    def __init__(self, folder: Path, opened: Opened, now: Callable[[], datetime]) -> None:
        """Take what opening gave; use ``open``."""
        self.folder = folder
        self.read_only = opened.lock is None
        self.notes = opened.notes
        self._store = opened.store
        self._lock = opened.lock
        self._now = now
        self._turn = RLock()
        self._unforced = False
        self._publish()

    @classmethod
    def open(
        cls,
        folder: Path,
        *,
        now: Callable[[], datetime],
        storage: type[AtomicStorage] = AtomicStorage,
    ) -> Self:
        """Make or open the collection in ``folder``; read-only if another program holds it.

        ``now`` gives the time of each deed, with its zone. ``notes`` then says, a sentence
        each, what the person should know. Raises CollectionError, which names every fault
        of a damaged file and the backup to go back to; the file is left as it is.
        """
        folder = folder.expanduser().absolute()
        return cls(folder, open_folder(folder, now, storage), now)

    @property
    def games(self) -> Mapping[str, Game]:
        """The games by id, in the order of the list; a snapshot that never changes."""
        return self._games

    @property
    def sheets(self) -> Mapping[int, Sheet]:
        """The sheets by number; a snapshot that never changes."""
        return self._sheets

    @property
    def pictures(self) -> Mapping[str, Picture]:
        """The pictures by name; a snapshot that never changes."""
        return self._pictures

    @property
    def settings(self) -> Settings:
        """What the person set."""
        return self._settings

    @property
    def deeds(self) -> tuple[Deed, ...]:
        """What can be undone, the last deed last."""
        return self._deeds

    def record(  # noqa: PLR0913 - a deed is one call, whatever it touches
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
    ) -> None:
        """Record one deed: all of it is on the disk when this returns, or none of it.

        ``words`` say what was done ('pressed sheet 3'): undo shows them. Records replace
        those of the same id, number or name, or are added at the end. What is as it was
        already makes no deed. Raises ReadOnlyError, or CollectionError if the disk
        refuses; nothing has changed then.
        """
        with self._turn:
            self._must_write()
            asked = {
                "games": self._images("games", games, forget_games),
                "sheets": self._images("sheets", sheets, forget_sheets),
                "pictures": self._images("pictures", pictures, forget_pictures),
                "settings": self._images("settings", () if settings is None else (settings,)),
            }
            changes = {name: images for name, images in asked.items() if images}
            if not changes:
                return
            before: Any = {name: self._before(name, changes[name]) for name in changes}
            deed = Deed(words, self._now(), Images(**before))
            self._apply({**changes, "history": self._history_with(deed)})

    def undo(self) -> str | None:
        """Take back the last deed; return its words, or None if there is none.

        Raises as ``record`` does.
        """
        with self._turn:
            self._must_write()
            if not self._deeds:
                return None
            number, deed = next(reversed(self._store.rows["history"].items()))
            deed = cast("Deed", deed)
            tables: dict[str, Mapping[int, Value | None]] = {
                name: getattr(deed.before, name) for name in Images.__struct_fields__
            }
            self._apply({**tables, "history": {number: None}})
            return deed.words

    def picture_path(self, name: str) -> Path:
        """Return where the picture ``name`` lies; CollectionError if that is not a file name."""
        if Path(name).name != name or name in {"", ".."}:
            raise CollectionError(name, "this is no name of a picture", "Choose one of the list")
        return self.folder / pictures.FOLDER / name

    def sheet_path(self, number: int) -> Path:
        """Return where the PDF of sheet ``number`` lies or will lie."""
        return self.folder / SHEETS / f"sheet-{number:04d}.pdf"

    def add_picture(self, path: Path, suffix: str = "") -> str:
        """Copy a picture in, named by its content; return the name.

        ``suffix`` is that of its true format; without one the file's own is taken. The
        copy is whole or not there; its record is for the caller to ``record``. Raises
        PictureError if ``path`` cannot be read, CollectionError if it cannot be copied.
        """
        with self._turn:
            self._must_write()
            self._unforced = True
            return pictures.copy_in(path, self.folder / pictures.FOLDER, suffix)

    @property
    def font_folder(self) -> Path:
        """Where the fonts of titles lie."""
        return self.folder / fonts.FOLDER

    def add_font(self, path: Path) -> str:
        """Copy a font file in, named by its content; return the name.

        Raises FontError if ``path`` cannot be read, CollectionError if it cannot be copied.
        """
        with self._turn:
            self._must_write()
            return fonts.copy_in(path, self.font_folder)

    def check(self) -> tuple[Fault, ...]:
        """Return what is wrong in the folder, each with a mend; nothing is changed."""
        with self._turn:
            before = [deed.before.pictures.values() for deed in self._deeds]
            contents = Contents(
                folder=self.folder,
                sheet_folder=self.folder / SHEETS,
                games=self._games,
                sheets=self._sheets,
                pictures=self._pictures,
                settings=self._settings,
                sheet_files={number: self.sheet_path(number) for number in self._sheets},
                recallable=frozenset(p.name for images in before for p in images if p),
            )
        return tuple(check_collection(contents))

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

    def _images(
        self, name: str, records: Iterable[Value], forgotten: Iterable[object] = ()
    ) -> dict[int, Value | None]:
        """Return the rows of a table that come out different."""
        rows = self._store.rows[name]
        number_of = {key_of(name, record): number for number, record in rows.items()}
        new: dict[int, Value | None] = {
            number_of[key]: None for key in forgotten if key in number_of
        }
        following = next_number(rows)
        for record in checked(records):
            number = number_of.setdefault(key_of(name, record), following)
            following += number == following
            new[number] = record
        return {number: record for number, record in new.items() if record != rows.get(number)}

    def _before(self, name: str, images: Mapping[int, object]) -> dict[int, Value | None]:
        rows = self._store.rows[name]
        return {number: rows.get(number) for number in images}

    def _history_with(self, deed: Deed) -> dict[int, Value | None]:
        """Return the new deed's row, and the rows of old deeds that make room for it."""
        rows = self._store.rows["history"]
        changes: dict[int, Value | None] = {next_number(rows): deed}
        kept, images = 1, _images_in(deed)
        for number, old in reversed(rows.items()):
            kept, images = kept + 1, images + _images_in(cast("Deed", old))
            if kept > DEEDS_KEPT or images > IMAGES_KEPT:
                changes[number] = None
        return changes

    def _apply(self, changes: Mapping[str, Mapping[int, Value | None]]) -> None:
        if self._unforced:
            folder = self.folder / pictures.FOLDER
            try:
                force_folder(folder)
            except OSError as error:
                raise not_written(folder, error) from error
            self._unforced = False
        self._store.apply(changes)
        self._publish()

    def _publish(self) -> None:
        self._games = cast("Mapping[str, Game]", self._snapshot("games"))
        self._sheets = cast("Mapping[int, Sheet]", self._snapshot("sheets"))
        self._pictures = cast("Mapping[str, Picture]", self._snapshot("pictures"))
        set_down = self._snapshot("settings").values()
        self._settings = cast("Settings", next(iter(set_down), Settings()))
        self._deeds = tuple(cast("list[Deed]", list(self._store.rows["history"].values())))

    def _snapshot(self, name: str) -> Mapping[Any, Value]:
        rows = self._store.rows[name]
        return MappingProxyType({key_of(name, record): record for record in rows.values()})


def _images_in(deed: Deed) -> int:
    """Return how many records a deed keeps; that there was none costs nothing."""
    kept = (getattr(deed.before, name).values() for name in Images.__struct_fields__)
    return sum(record is not None for images in kept for record in images)
