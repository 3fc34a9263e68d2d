"""What the rows of a collection's file hold, checked as they are written."""

from __future__ import annotations

from functools import cached_property
from typing import Any, Generic, NamedTuple, TypeVar

import msgspec

from engine.collection.faults import in_words
from engine.collection.storage import in_a_line
from engine.model import Game, Instant, Picture, Sheet, Value
from engine.model.errors import InputError
from engine.model.settings import Settings

V = TypeVar("V", bound=Value)


class Before(Value, frozen=True):
    """Rows as they were before a change, by their numbers; None where there was no such row."""

    games: dict[int, Game | None] = msgspec.field(default_factory=dict)
    sheets: dict[int, Sheet | None] = msgspec.field(default_factory=dict)
    pictures: dict[int, Picture | None] = msgspec.field(default_factory=dict)
    settings: dict[int, Settings | None] = msgspec.field(default_factory=dict)


class Change(Value, frozen=True, dict=True):
    """One change that was recorded, and what it takes to undo it, or to do it again."""

    words: str
    at: Instant
    before: Before
    """Rows as they were before it; where it was undone, as they were before that."""
    undone: bool = False

    @cached_property
    def size(self) -> int:
        """How many records it keeps; that there was none costs nothing."""
        tables = (getattr(self.before, name).values() for name in Before.__struct_fields__)
        return sum(record is not None for rows in tables for record in rows)


class Written(NamedTuple, Generic[V]):
    """A record and how it stands in the file."""

    record: V
    text: bytes


def kept(record: V) -> Written[V]:
    """Return a record that was kept before, to be written again."""
    return Written(record, in_a_line(msgspec.json.encode(record)))


def written(record: V) -> Written[V]:
    """Return the record as it will be read again, so that nothing unreadable is written.

    Halves of characters, which file names of another system can bring, become U+FFFD.
    Raises InputError for a record that does not hold what its type says.
    """
    kind = type(record)
    try:
        text = msgspec.json.encode(record)
        return Written(msgspec.json.decode(text, type=kind), in_a_line(text))
    except UnicodeEncodeError:
        plain = msgspec.to_builtins(record, str_keys=True)
        return written(msgspec.convert(whole_text(plain), kind, str_keys=True))
    except msgspec.ValidationError as error:
        where, _, what = f"{kind.__name__.lower()}{in_words(error)}".partition(": ")
        raise InputError(where, what, "Give another value") from error


def whole_text(value: Any) -> Any:
    """Return JSON types without halves of characters: each becomes U+FFFD."""
    if isinstance(value, str):
        return value.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    if isinstance(value, dict):
        return {whole_text(key): whole_text(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [whole_text(item) for item in value]
    return value
