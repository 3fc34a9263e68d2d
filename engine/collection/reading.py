"""The tables of a file become records, and everything that is wrong in them is told."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
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


def read_newer_tables(file: Texts) -> tuple[Tables, int]:
    """Return what can be read of the tables of a newer schema, and how many records cannot.

    Fields that this program does not know are passed over, so nothing of it may be written.
    """
    left_out = 0
    known: Texts = {}
    kinds: Mapping[str, type[Value]] = {
        "games": Game,
        "sheets": Sheet,
        "pictures": Picture,
        "settings": Settings,
    }
    for name, kind in kinds.items():
        rows = {number: _known_part(text, kind) for number, text in file.get(name, {}).items()}
        known[name] = {number: text for number, text in rows.items() if text is not None}
        left_out += len(rows) - len(known[name])
    tables, faults = read_tables(known)
    return tables, left_out + len(faults)


def _known_part(text: msgspec.Raw, kind: type[Value]) -> msgspec.Raw | None:
    """Return a row without the fields that are unknown; None where something else is wrong."""
    row = msgspec.json.decode(text)
    while True:
        try:
            msgspec.json.decode(msgspec.json.encode(row), type=kind)
        except msgspec.ValidationError as error:
            found = _UNKNOWN.match(str(error))
            if found is None or not _forget(row, _STEP.findall(found["path"] or ""), found["name"]):
                return None
        else:
            return msgspec.Raw(msgspec.json.encode(row))


_UNKNOWN = re.compile(
    r"Object contains unknown field `(?P<name>.*?)`(?: - at `\$(?P<path>.*)`)?$", re.DOTALL
)
_STEP = re.compile(r"\.([^.\[]+)|(\[\.\.\.\]|\[\d+\])")


def _forget(row: Any, path: Sequence[tuple[str, str]], name: str) -> bool:
    """Take a field out of a row wherever the path leads; return whether it was there."""
    if path:
        (key, _), *rest = path
        inner = [row.get(key)] if key and isinstance(row, dict) else _inside(row)
        return sum(_forget(one, rest, name) for one in inner) > 0
    if isinstance(row, dict) and name in row:
        del row[name]
        return True
    return False


def _inside(row: Any) -> Iterable[Any]:
    if isinstance(row, dict):
        return row.values()
    return row if isinstance(row, list) else ()


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
