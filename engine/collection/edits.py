"""What a change makes different: of records, and of the rows that hold them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple, TypeVar

from engine.collection.reading import Tables
from engine.collection.records import Before, Written, written
from engine.collection.table import Changed, Edit, RecordTable
from engine.model import Game, Picture, Sheet, Value
from engine.model.errors import UnconfirmedError
from engine.model.settings import Settings

K = TypeVar("K")
V = TypeVar("V", bound=Value)


class Edits(NamedTuple):
    """What one change did, or what undoing it did: the records that came out different."""

    words: str
    """What the change was called."""
    games: Mapping[str, Edit[Game]]
    """By id."""
    sheets: Mapping[int, Edit[Sheet]]
    """By number."""
    pictures: Mapping[str, Edit[Picture]]
    """By name."""
    settings: Edit[Settings] | None
    """None where they are as they were."""
    doubt: UnconfirmedError | None = None
    """What is to be said where all of it is written, but the disk did not confirm it."""


def rows_of(tables: Tables) -> dict[str, Mapping[int, Any]]:
    """Return the rows of each table that changes are made to."""
    return {name: getattr(tables, name).rows for name in Before.__struct_fields__}


def by_name(table: RecordTable[K, V], rows: Mapping[int, Edit[V]]) -> Mapping[K, Edit[V]]:
    """Return what became of rows by what names their records."""
    named = ((edit.new or edit.old, edit) for edit in rows.values())
    return {table.key(one): edit for one, edit in named if one is not None}


def settings_edit(edit: Edit[Settings] | None) -> Edit[Settings] | None:
    """Return what became of the settings; no row is what is set at first."""
    return edit and Edit(edit.old or Settings(), edit.new or Settings())


def changed(
    table: RecordTable[K, V], records: Iterable[V], forgotten: Iterable[K] = ()
) -> Changed[V]:
    """Return the rows of a table that come out different."""
    numbers = table.numbers
    new: dict[int, Written[V] | None] = {numbers[key]: None for key in forgotten if key in numbers}
    added: dict[K, int] = {}
    for row in map(written, records):
        key = table.key(row.record)
        number = numbers.get(key)
        if number is None:
            number = added.setdefault(key, table.next_number + len(added))
        new[number] = row
    return {
        number: row
        for number, row in new.items()
        if (row.record if row else None) != table.rows.get(number)
    }
