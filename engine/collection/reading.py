"""The tables of a file become records, and everything that is wrong in them is told."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from operator import attrgetter
from typing import Any, NamedTuple, TypeVar

import msgspec

from engine.collection.faults import in_words
from engine.collection.history import History
from engine.collection.records import Change
from engine.collection.storage import Texts, line
from engine.collection.table import RecordTable, in_order, table
from engine.model import Game, Picture, Sheet, Value
from engine.model.settings import Settings

K = TypeVar("K")
V = TypeVar("V", bound=Value)

_NUMBER = re.compile("0|[1-9][0-9]*")


class Tables(NamedTuple):
    """All that a collection's file holds."""

    games: RecordTable[str, Game]
    sheets: RecordTable[int, Sheet]
    pictures: RecordTable[str, Picture]
    settings: RecordTable[str, Settings]
    """One row, or none where nothing was set."""
    history: History


def read_tables(file: Texts) -> tuple[Tables, list[str]]:
    """Return the tables of a file, and every fault that was found, a phrase each."""
    known = {*Tables._fields, "meta"}
    faults = [f"{name}: no such table" for name in file if name not in known]
    tables = Tables(
        games=_table("games", Game, attrgetter("id"), file, faults),
        sheets=_table("sheets", Sheet, attrgetter("number"), file, faults),
        pictures=_table("pictures", Picture, attrgetter("name"), file, faults),
        settings=_table("settings", Settings, lambda _: "settings", file, faults),
        history=History(*_rows("history", Change, file, faults)),
    )
    return tables, faults


def _table(
    name: str, record: type[V], key: Callable[[V], K], file: Texts, faults: list[str]
) -> RecordTable[K, V]:
    """Return one table; add what is wrong in it to ``faults``."""
    found = table(key, *_rows(name, record, file, faults))
    if len(found.numbers) < len(found.rows):
        first: dict[K, int] = {}
        for number, row in found.rows.items():
            if (at := first.setdefault(key(row), number)) != number:
                faults.append(f"{name}, row {number}: {key(row)} stands in row {at} already")
    return found


def _rows(
    name: str, record: type[V], file: Texts, faults: list[str]
) -> tuple[dict[int, V], dict[int, bytes]]:
    """Return the records of one table and their lines, in the order of their numbers."""
    rows: dict[int, V] = {}
    lines: dict[int, bytes] = {}
    decode = msgspec.json.Decoder(record).decode
    for number, text in file.get(name, {}).items():
        if not _NUMBER.fullmatch(number):
            faults.append(f"{name}, row {number}: rows are numbered")
            continue
        try:
            rows[int(number)] = decode(text)
            lines[int(number)] = line(int(number), text)
        except msgspec.ValidationError as error:
            faults.append(f"{name}, {_label(number, text)}{in_words(error)}")
    return in_order(rows), in_order(lines)


def _label(number: str, text: msgspec.Raw) -> str:
    row: Any = msgspec.json.decode(text)
    named: Mapping[str, object] = row if isinstance(row, dict) else {}
    name = next((named[key] for key in ("id", "number", "name") if key in named), None)
    return f"row {number}" if name is None else f"row {number} ({name})"
