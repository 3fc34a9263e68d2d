"""The tables of one file: read and validated once, changed all together or not at all."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import msgspec

from engine.collection import schema
from engine.collection.history import History
from engine.collection.reading import Tables, read_newer_tables, read_tables
from engine.collection.storage import AtomicStorage, Texts, in_a_line, line, texts
from engine.collection.table import Changed
from engine.model.errors import CollectionError, UnconfirmedError

_FAULTS_SHOWN = 5


class Store:
    """``tables`` are what the file holds, and never more than that."""

    def __init__(self, storage: AtomicStorage) -> None:
        """Read and validate the file; one that is not there reads as empty tables.

        Raises CollectionError that names every fault, and leaves the file as it is.
        """
        self._storage = storage
        try:
            self._read()
        except RecursionError as error:
            what = "it is nested more deeply than any collection"
            raise CollectionError(str(storage.path), what) from error

    def _read(self) -> None:
        storage = self._storage
        file = storage.read_texts()
        number = schema.SCHEMA if file is None else schema.number_of(_meta(file), storage.path)
        self.is_new = file is None
        self.is_outdated = number < schema.SCHEMA
        self.unread: int | None = None
        """Of a file of a newer schema, how many records this program cannot read; else None."""
        if self.is_outdated:
            file = texts(schema.migrate(storage.read() or {}, storage.path))
        if number > schema.SCHEMA:
            self.tables, self.unread = read_newer_tables(file or {})
            return
        self.tables, faults = read_tables(file or {})
        if faults:
            raise _unreadable(storage.path, faults)

    def apply(
        self, changes: Mapping[str, Changed[Any]], history: History
    ) -> UnconfirmedError | None:
        """Change rows of the tables, and the file with them; ``history`` takes the old one's place.

        Returns what is to be said where the disk did not confirm it. Raises CollectionError if
        the file cannot be written; both then are as they were.
        """
        tables = self._after(changes, history)
        try:
            self._write(self._storage, tables)
        except UnconfirmedError as doubt:
            self.tables = tables
            return doubt
        self.tables = tables
        return None

    def save(self) -> None:
        """Write the file as it is held: the first time, and after a migration."""
        self._write(self._storage, self.tables)

    def is_as_left(self) -> bool:
        """Return whether the file still holds what it held when it was read or written here.

        Raises CollectionError where it is gone.
        """
        if self._storage.is_as_left():
            return True
        try:
            there = Store(AtomicStorage(self._storage.path))
        except CollectionError:
            return False
        if there.unread is not None:  # of a newer schema, not all of which is read
            return False
        # Copied or touched, with the same records: as good as left alone.
        return all(
            getattr(there.tables, name)[1] == getattr(self.tables, name)[1]
            for name in Tables._fields
        )

    def write_aside(
        self, path: Path, changes: Mapping[str, Changed[Any]], history: History
    ) -> None:
        """Write the tables, with these changes, as another file. Raises CollectionError."""
        self._write(AtomicStorage(path), self._after(changes, history))

    def _after(self, changes: Mapping[str, Changed[Any]], history: History) -> Tables:
        changed = {name: getattr(self.tables, name).changed(rows) for name, rows in changes.items()}
        return self.tables._replace(**changed, history=history)

    def _write(self, storage: AtomicStorage, tables: Tables) -> None:
        meta = line(1, in_a_line(msgspec.json.encode(schema.meta())))
        lines: dict[str, Iterable[bytes]] = {"meta": (meta,)}
        for name in Tables._fields:
            lines[name] = getattr(tables, name).lines.values()
        storage.write_lines(lines)


def _meta(file: Texts) -> dict[str, object]:
    return {number: msgspec.json.decode(text) for number, text in file.get("meta", {}).items()}


def _unreadable(path: Path, faults: list[str]) -> CollectionError:
    shown = "; ".join(faults[:_FAULTS_SHOWN])
    more = len(faults) - _FAULTS_SHOWN
    count = "a record" if len(faults) == 1 else f"{len(faults)} records"
    rest = f"; and {more} more" if more > 0 else ""
    return CollectionError(str(path), f"{count} cannot be read: {shown}{rest}")
