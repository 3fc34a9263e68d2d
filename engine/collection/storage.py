"""Where the tables lie: one JSON file, written whole, read once, a row on each line.

The file is what TinyDB keeps: tables by name, rows by number. TinyDB opens it with
``AtomicStorage``, or with its own storage, which is not safe to write with.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any, TypeVar

import msgspec
from tinydb import Storage

from engine.collection.files import Mark, mark_of, not_written, reason, write_in
from engine.model.errors import CollectionError, UnconfirmedError

T = TypeVar("T")

Raw = dict[str, dict[str, Any]]
"""Tables by name, rows by number, as plain values."""
Texts = dict[str, dict[str, msgspec.Raw]]
"""Tables by name, rows by number, each row the JSON that stands in the file."""

_PLAIN = msgspec.json.Decoder(Raw)
_TEXTS = msgspec.json.Decoder(Texts)


class AtomicStorage(Storage):
    """One JSON file that is replaced as a whole."""

    def __init__(self, path: Path) -> None:
        """Keep the ``path``; nothing is opened until it is read or written."""
        self.path = path
        self._mark: Mark | None = None
        """Of the file as it was last read or written here."""

    def is_as_left(self) -> bool:
        """Return whether nothing else wrote the file since it was read or written here.

        Raises CollectionError where it is gone.
        """
        try:
            return mark_of(self.path) == self._mark
        except FileNotFoundError as error:
            if self._mark is None:
                return True
            raise not_written(self.path, error) from error
        except OSError as error:
            raise not_written(self.path, error) from error

    def read(self) -> Raw | None:
        """Return the tables, or None where there is no file.

        Raises CollectionError if the file is there and is not a JSON object of objects.
        """
        return self._read(_PLAIN)

    def read_texts(self) -> Texts | None:
        """Return what ``read`` does with the rows unread: it takes a tenth of the time.

        Raises what ``read`` raises.
        """
        return self._read(_TEXTS)

    def write(self, data: Mapping[str, Mapping[Any, Any]]) -> None:
        """Replace the file. Raises what ``write_lines`` raises."""
        tables = texts(data)
        self.write_lines(
            {
                name: [line(int(number), text) for number, text in rows.items()]
                for name, rows in tables.items()
            }
        )

    def write_lines(self, tables: Mapping[str, Iterable[bytes]]) -> None:
        """Replace the file by these tables, their rows as ``line`` gives them.

        Raises CollectionError; the file then holds what it held before, unless it is an
        UnconfirmedError.
        """
        try:
            write_in(self.path, _chunks(tables))
        except UnconfirmedError:
            self._remember()
            raise
        self._remember()

    def _remember(self) -> None:
        with suppress(OSError):  # gone already: the next writing tells of it
            self._mark = mark_of(self.path)

    def _read(self, decoder: msgspec.json.Decoder[T]) -> T | None:
        try:
            self._mark = mark_of(self.path)
            data = self.path.read_bytes()
        except FileNotFoundError:
            return None
        except OSError as error:
            what = f"it cannot be read ({reason(error)})"
            raise CollectionError(str(self.path), what) from error
        return _parsed(data, decoder, self.path)


def line(number: int, text: bytes | msgspec.Raw) -> bytes:
    """Return how a row stands in the file; ``text`` is its record as JSON."""
    return b'    "%d": %b' % (number, text)


def texts(tables: Mapping[str, Mapping[Any, Any]]) -> Texts:
    """Return tables with each row as JSON on one line."""
    return {
        name: {
            str(number): msgspec.Raw(in_a_line(msgspec.json.encode(row)))
            for number, row in rows.items()
        }
        for name, rows in tables.items()
    }


def in_a_line(json: bytes) -> bytes:
    """Return JSON on one line, with the spaces that a person reads it by."""
    return msgspec.json.format(json, indent=0)


def _chunks(tables: Mapping[str, Iterable[bytes]]) -> Iterator[bytes]:
    """Give the file in pieces of a table each, so that no more than one is held twice."""
    for place, (name, lines) in enumerate(tables.items()):
        yield b"%b\n  %b: {" % (b"," if place else b"{", msgspec.json.encode(name))
        if rows := b",\n".join(lines):
            yield from (b"\n", rows, b"\n  ")
        yield b"}"
    yield b"\n}\n"


def _parsed(data: bytes, decoder: msgspec.json.Decoder[T], path: Path) -> T:
    try:
        data.decode()  # a row that is not read yet is not looked into
        return decoder.decode(data)
    except msgspec.ValidationError as error:
        raise CollectionError(str(path), "the file is not a collection") from error
    except UnicodeDecodeError as error:
        raise _damaged(path, data, error.start) from error
    except msgspec.DecodeError as error:
        found = re.search(r"\(byte (\d+)\)", str(error))
        raise _damaged(path, data, int(found[1]) if found else len(data)) from error


def _damaged(path: Path, data: bytes, at: int) -> CollectionError:
    """Return the sentence for a file that is no JSON from its byte ``at`` on."""
    if not data.strip(b"\0 \t\r\n"):
        return CollectionError(str(path), "the file is empty")
    where = f"line {data.count(10, 0, at) + 1}, column {at - data.rfind(10, 0, at)}"
    return CollectionError(str(path), f"the file is damaged at {where}")
