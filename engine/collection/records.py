"""The records of a collection, checked as they are read and as they are written."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any, TypeVar

import msgspec

from engine.model import Game, Instant, Picture, Sheet, Value
from engine.model.errors import InputError
from engine.model.settings import Settings

V = TypeVar("V", bound=Value)


class Images(Value, frozen=True):
    """Rows of every table as they were, by row number; None where there was no such row."""

    games: dict[int, Game | None] = msgspec.field(default_factory=dict)
    sheets: dict[int, Sheet | None] = msgspec.field(default_factory=dict)
    pictures: dict[int, Picture | None] = msgspec.field(default_factory=dict)
    settings: dict[int, Settings | None] = msgspec.field(default_factory=dict)


class Deed(Value, frozen=True):
    """Something that was done, and what it takes to undo it."""

    words: str
    at: Instant
    before: Images


RECORDS: Mapping[str, type[Value]] = {
    "games": Game,
    "sheets": Sheet,
    "pictures": Picture,
    "settings": Settings,
    "history": Deed,
}
"""The tables, and what a row of each holds."""

_KEYS: Mapping[str, Callable[[Any], object]] = {
    "games": lambda game: game.id,
    "sheets": lambda sheet: sheet.number,
    "pictures": lambda picture: picture.name,
}


def key_of(table: str, record: Value) -> object:
    """Return what names ``record`` within its table."""
    key = _KEYS.get(table)
    return table if key is None else key(record)


Rows = dict[int, Value]
"""The records of one table by row number, in the order in which they came."""


def read_rows(raw: Mapping[str, Mapping[str, Any]]) -> tuple[dict[str, Rows], list[str]]:
    """Return the records of every table, and every fault that was found, a phrase each."""
    faults = [f"{name}: no such table" for name in raw if name not in RECORDS and name != "meta"]
    tables: dict[str, Rows] = {}
    for name, record in RECORDS.items():
        tables[name], found = _read_table(name, record, raw.get(name, {}))
        faults += found
    return tables, faults


def _read_table(name: str, record: type[Value], raw: Mapping[str, Any]) -> tuple[Rows, list[str]]:
    rows: Rows = {}
    faults: list[str] = []
    named: dict[object, str] = {}
    for number, row in sorted(raw.items(), key=lambda item: (len(item[0]), item[0])):
        try:
            value = msgspec.convert(row, record, str_keys=True)
            key = key_of(name, value)
            if name in _KEYS and named.setdefault(key, number) != number:
                faults.append(f"{name}, row {number}: {key} stands in row {named[key]} already")
            rows[int(number)] = value
        except msgspec.ValidationError as error:
            faults.append(f"{name}, {_label(number, row)}{_in_words(error)}")
        except ValueError:
            faults.append(f"{name}, row {number}: rows are numbered")
    return rows, faults


def _label(number: str, row: object) -> str:
    named = row if isinstance(row, dict) else {}
    name = next((named[key] for key in ("id", "number", "name") if key in named), None)
    return f"row {number}" if name is None else f"row {number} ({name})"


_FOUND = re.compile(r"^(?P<what>.*?)(?: - at `\$\.?(?P<path>.*)`)?$", re.DOTALL)
_FIELD = re.compile(
    r"^Object (?P<what>missing|contains unknown) (?:required )?field `(?P<name>.*)`"
)
_WORDS = {
    "str": "text",
    "int": "a whole number",
    "float": "a number",
    "bool": "true or false",
    "array": "a list",
    "object": "a record",
    "null": "nothing",
    "datetime": "a time",
}


def _in_words(error: msgspec.ValidationError) -> str:
    """Return ', field title: expected text, got a whole number'; no field, only ': ...'."""
    found = _FOUND.match(str(error))
    what, path = (found["what"], found["path"] or "") if found else (str(error), "")
    field = _FIELD.match(what)
    if field:
        path = f"{path}.{field['name']}" if path else field["name"]
        what = "missing" if field["what"] == "missing" else "unknown"
    what = what.replace("Invalid RFC3339 encoded datetime", "no time as ISO 8601 writes it")
    what = what.replace("`datetime` with a timezone component", "a time with its zone")
    what = re.sub(r"`(\w+)`", lambda word: _WORDS.get(word[1], word[1]), what)
    what = what[:1].lower() + what[1:]
    return f", field {path}: {what}" if path else f": {what}"


def checked(records: Iterable[V]) -> list[V]:
    """Return the records as they will be read again, so that nothing unreadable is written.

    Halves of characters, which file names of another system can bring, become U+FFFD.
    Raises InputError for a record that does not hold what its type says.
    """
    return [_again(record) for record in records]


def _again(record: V) -> V:
    kind = type(record)
    try:
        return msgspec.json.decode(msgspec.json.encode(record), type=kind)
    except UnicodeEncodeError:
        return msgspec.convert(_whole_text(plain(record)), kind, str_keys=True)
    except msgspec.ValidationError as error:
        where, _, what = f"{kind.__name__.lower()}{_in_words(error)}".partition(": ")
        raise InputError(where, what, "Give another value") from error


def _whole_text(value: Any) -> Any:
    if isinstance(value, str):
        return value.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    if isinstance(value, dict):
        return {_whole_text(key): _whole_text(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_whole_text(item) for item in value]
    return value


def plain(record: Value) -> Any:
    """Return the record as JSON types."""
    return msgspec.to_builtins(record, str_keys=True)
