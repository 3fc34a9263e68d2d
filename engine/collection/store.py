"""The tables of one file: read and validated once, changed all together or not at all."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import msgspec

from engine.collection import schema
from engine.collection.history import History
from engine.collection.reading import Tables, read_tables
from engine.collection.storage import AtomicStorage, Texts, in_a_line, line, texts
from engine.collection.table import Changed
from engine.model.errors import CollectionError

_FAULTS_SHOWN = 5


class Store:
    """``tables`` are what the file holds, and never more than that."""

    def __init__(self, storage: AtomicStorage) -> None:
        """Read and validate the file; one that is not there reads as empty tables.

        Raises CollectionError that names every fault, and leaves the file as it is.
        """
        self._storage = storage
        file = storage.read_texts()
        self.is_new = file is None
        self.is_outdated = file is not None and schema.is_outdated(_meta(file), storage.path)
        if self.is_outdated:
            file = texts(schema.migrate(storage.read() or {}, storage.path))
        self.tables, faults = read_tables(file or {})
        if faults:
            raise _unreadable(storage.path, faults)

    def apply(self, changes: Mapping[str, Changed[Any]], history: History) -> None:
        """Change rows of the tables, and the file with them; ``history`` takes the old one's place.

        Raises CollectionError if the file cannot be written; both then are as they were.
        """
        changed = {name: getattr(self.tables, name).changed(rows) for name, rows in changes.items()}
        tables = self.tables._replace(**changed, history=history)
        self._write(tables)
        self.tables = tables

    def save(self) -> None:
        """Write the file as it is held: the first time, and after a migration."""
        self._write(self.tables)

    def _write(self, tables: Tables) -> None:
        meta = line(1, in_a_line(msgspec.json.encode(schema.meta())))
        lines: dict[str, Iterable[bytes]] = {"meta": (meta,)}
        for name in Tables._fields:
            lines[name] = getattr(tables, name).lines.values()
        self._storage.write_lines(lines)


def _meta(file: Texts) -> dict[str, object]:
    return {number: msgspec.json.decode(text) for number, text in file.get("meta", {}).items()}


def _unreadable(path: Path, faults: list[str]) -> CollectionError:
    shown = "; ".join(faults[:_FAULTS_SHOWN])
    more = len(faults) - _FAULTS_SHOWN
    count = "a record" if len(faults) == 1 else f"{len(faults)} records"
    rest = f"; and {more} more" if more > 0 else ""
    return CollectionError(str(path), f"{count} cannot be read: {shown}{rest}")
