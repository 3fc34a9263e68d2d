"""One table of a collection, as it stands between two changes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from operator import itemgetter
from types import MappingProxyType
from typing import Generic, NamedTuple, TypeVar

from engine.collection.records import Written
from engine.collection.storage import line
from engine.model import Value

K = TypeVar("K")
T = TypeVar("T")
V = TypeVar("V", bound=Value)

Changed = Mapping[int, Written[V] | None]
"""What rows become, by their numbers; None takes the row away."""


class Edit(NamedTuple, Generic[V]):
    """A record before and after a change; None where there was none, or is none any more."""

    old: V | None
    new: V | None


class RecordTable(NamedTuple, Generic[K, V]):
    """The rows of one table. Nothing in it changes; ``changed`` returns another.

    The other copies what it shares with this one at the speed at which dicts are copied, and
    looks at no row but those that come out different.
    """

    key: Callable[[V], K]
    """What names a record within the table."""
    rows: dict[int, V]
    """The records by row number, in the order in which they came."""
    lines: dict[int, bytes]
    """The rows as they stand in the file."""
    numbers: dict[K, int]
    """The numbers of the rows by what names their records."""
    records: MappingProxyType[K, V]

    @property
    def next_number(self) -> int:
        """The number of the row that would come after all others."""
        return next(reversed(self.rows), 0) + 1

    def changed(self, changes: Changed[V]) -> RecordTable[K, V]:
        """Return the table with some rows changed."""
        ascending = sorted(changes.items(), key=itemgetter(0))
        rows, lines = dict(self.rows), dict(self.lines)
        for number, new in ascending:
            if new is None:
                rows.pop(number, None)
                lines.pop(number, None)
            else:
                rows[number], lines[number] = new.record, line(number, new.text)
        if not all(self._keeps_order(number, new) for number, new in changes.items()):
            return table(self.key, in_order(rows), in_order(lines))
        numbers, records = dict(self.numbers), self.records.copy()
        for number, new in ascending:
            if new is not None:
                key = self.key(new.record)
                numbers[key], records[key] = number, new.record
            elif number in self.rows:
                key = self.key(self.rows[number])
                del numbers[key], records[key]
        return RecordTable(self.key, rows, lines, numbers, MappingProxyType(records))

    def _keeps_order(self, number: int, new: Written[V] | None) -> bool:
        """Return whether a row goes, comes last, or still holds the record of the same name."""
        if new is None or number >= self.next_number:
            return True
        return number in self.rows and self.key(self.rows[number]) == self.key(new.record)

    def edits(self, changes: Changed[V]) -> Mapping[K, Edit[V]]:
        """Return what becomes of records when these rows change, by what names them."""
        old = {self.key(self.rows[n]): self.rows[n] for n in changes if n in self.rows}
        new = {self.key(row.record): row.record for row in changes.values() if row}
        return MappingProxyType(
            {key: Edit(old.get(key), new.get(key)) for key in dict.fromkeys((*old, *new))}
        )


def in_order(rows: dict[int, T]) -> dict[int, T]:
    """Return rows in the order of their numbers."""
    numbers = list(rows)
    ascending = sorted(numbers)
    return rows if numbers == ascending else {number: rows[number] for number in ascending}


def table(key: Callable[[V], K], rows: dict[int, V], lines: dict[int, bytes]) -> RecordTable[K, V]:
    """Return the table of these rows, which are in the order of their numbers."""
    numbers = {key(record): number for number, record in rows.items()}
    records = MappingProxyType({key(record): record for record in rows.values()})
    return RecordTable(key, rows, lines, numbers, records)
