"""Where TinyDB keeps its tables: one JSON file, written whole, read once."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import orjson
from tinydb import Storage

from engine.collection.files import not_written, reason, write_whole
from engine.model.errors import CollectionError

Raw = dict[str, dict[str, Any]]
"""Tables by name, rows by number, as they stand in the file."""


class AtomicStorage(Storage):
    """One JSON file that is replaced as a whole."""

    def __init__(self, path: Path) -> None:
        """Keep the ``path``; nothing is opened until it is read or written."""
        self.path = path

    def read(self) -> Raw | None:
        """Return the tables, or None where there is no file.

        Raises CollectionError if the file is there and is not a JSON object of objects.
        """
        try:
            data = self.path.read_bytes()
        except FileNotFoundError:
            return None
        except OSError as error:
            what = f"it cannot be read ({reason(error)})"
            raise CollectionError(str(self.path), what) from error
        return parse(data, self.path)

    def write(self, data: Raw) -> None:
        """Replace the file.

        Raises CollectionError; the file then holds what it held before.
        """
        encoded = orjson.dumps(data, option=orjson.OPT_INDENT_2)
        try:
            write_whole(self.path, (encoded,))
        except OSError as error:
            raise not_written(self.path, error) from error


def parse(data: bytes, path: Path) -> Raw:
    """Return the tables in ``data``, which was read from ``path``.

    Raises CollectionError if they are not a JSON object of objects.
    """
    if not data.strip(b"\0 \t\r\n"):
        raise CollectionError(str(path), "the file is empty")
    try:
        tables = orjson.loads(data)
    except orjson.JSONDecodeError as error:
        where = f"line {error.lineno}, column {error.colno}"
        raise CollectionError(str(path), f"the file is damaged at {where}") from error
    if not isinstance(tables, dict) or not all(isinstance(rows, dict) for rows in tables.values()):
        raise CollectionError(str(path), "the file is not a collection")
    return tables


class Held(Storage):
    """The tables in memory, between what TinyDB changes and the file.

    TinyDB writes at each of its operations, and one deed takes several: they gather here
    and reach the file together at ``flush``, or not at all after ``forget``. TinyDB's own
    caching middleware would keep the half of a deed that failed.
    """

    def __init__(self, storage: AtomicStorage, tables: Raw) -> None:
        """Hold ``tables``, as they were read from ``storage``."""
        self._storage = storage
        self._saved = tables
        self._pending: Raw | None = None

    def read(self) -> Raw:
        """Return the tables; new ones may be put in the answer without touching what is held."""
        return dict(self._saved if self._pending is None else self._pending)

    def write(self, data: Raw) -> None:
        """Keep ``data`` until it is flushed or forgotten."""
        self._pending = data

    def flush(self) -> None:
        """Put what was written into the file; raises CollectionError as the storage does."""
        if self._pending is not None:
            self._storage.write(self._pending)
            self._saved, self._pending = self._pending, None

    def forget(self) -> None:
        """Go back to what the file holds."""
        self._pending = None
