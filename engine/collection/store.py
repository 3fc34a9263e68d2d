"""The tables of a collection: validated, held in memory, changed all together or not at all."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from tinydb import TinyDB
from tinydb.table import Document

from engine.collection.records import Rows, plain, read_rows
from engine.collection.schema import migrate, stamp
from engine.collection.storage import AtomicStorage, Held
from engine.model import Value
from engine.model.errors import CollectionError

Changes = Mapping[str, Mapping[int, Value | None]]
"""What rows of each table become; None takes the row away."""

_FAULTS_SHOWN = 5


class Store:
    """The tables of one file. ``rows`` is what the file holds, and never more than that."""

    def __init__(self, storage: AtomicStorage) -> None:
        """Read and validate the file; one that is not there reads as empty tables.

        Raises CollectionError that names every fault, and leaves the file as it is.
        """
        raw = storage.read()
        self.is_new = raw is None
        raw = stamp({}) if raw is None else raw
        current = migrate(raw, storage.path)
        self.is_outdated = current is not raw
        rows, faults = read_rows(current)
        if faults:
            raise _damaged(storage.path, faults)
        self.rows: Mapping[str, Rows] = rows
        self._held = Held(storage, current)
        self._db = TinyDB(storage=lambda: self._held)

    def apply(self, changes: Changes) -> None:
        """Change the rows and the file together.

        Raises CollectionError if the file cannot be written; both then are as they were.
        """
        try:
            for name, images in changes.items():
                self._write(name, images)
            self._held.flush()
        finally:
            self._held.forget()
        self.rows = {
            name: _changed(rows, changes[name]) if changes.get(name) else rows
            for name, rows in self.rows.items()
        }

    def save(self) -> None:
        """Write the file as it is held: the first time, and after a migration."""
        self._held.write(self._held.read())
        self._held.flush()

    def _write(self, name: str, images: Mapping[int, Value | None]) -> None:
        table = self._db.table(name)
        if gone := [number for number in images if number in self.rows[name]]:
            table.remove(doc_ids=gone)
        table.insert_multiple(
            Document(plain(record), number)
            for number, record in images.items()
            if record is not None
        )


def next_number(rows: Rows) -> int:
    """Return the number of the row that comes after all others."""
    return max(rows, default=0) + 1


def _changed(rows: Rows, images: Mapping[int, Value | None]) -> Rows:
    new = {**rows, **images}
    return {number: record for number, record in sorted(new.items()) if record is not None}


def _damaged(path: Path, faults: list[str]) -> CollectionError:
    shown = "; ".join(faults[:_FAULTS_SHOWN])
    more = len(faults) - _FAULTS_SHOWN
    count = "a record" if len(faults) == 1 else f"{len(faults)} records"
    rest = f"; and {more} more" if more > 0 else ""
    return CollectionError(str(path), f"{count} cannot be read: {shown}{rest}")
