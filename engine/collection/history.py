"""The changes that can be undone and done again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from engine.collection.records import Before, Change, kept
from engine.collection.storage import line
from engine.collection.table import Edit

CHANGES_KEPT = 100
"""So many changes can be undone."""
RECORDS_KEPT = 5_000
"""Records kept for undoing, over all changes; the last can be undone whatever its size."""


class Past(NamedTuple):
    """A change of the history, and the rows that it made different."""

    number: int
    change: Change
    rows: Mapping[str, Mapping[int, Edit[Any]]]
    """By table and row number: as they were before it and after it, whether undone or not."""

    def turned(self) -> Change:
        """Return the change as it is kept once it is undone, or done again."""
        aims = "old" if self.change.undone else "new"
        before: dict[str, Any] = {
            name: {row: getattr(edit, aims) for row, edit in rows.items()}
            for name, rows in self.rows.items()
        }
        at, words = self.change.at, self.change.words
        return Change(words, at, Before(**before), undone=not self.change.undone)


class History(NamedTuple):
    """The changes by row number, the last one last, and their lines in the file.

    Those that were undone come after all others; they are there until something else is done.
    """

    changes: dict[int, Change]
    lines: dict[int, bytes]

    @property
    def done(self) -> dict[int, Change]:
        """The changes that are in force, the last one last."""
        return {number: one for number, one in self.changes.items() if not one.undone}

    @property
    def undone(self) -> dict[int, Change]:
        """The changes that can be done again, the next one first."""
        return {number: one for number, one in self.changes.items() if one.undone}

    def way_to(self, number: int) -> tuple[int, ...]:
        """Return the changes to undo, or to do again, so that ``number`` is the last in force.

        In the order in which they are to be gone through; 0 stands before all changes.
        """
        back = tuple(one for one in reversed(self.done) if one > number)
        return back or tuple(one for one in self.undone if one <= number)

    def past(self, tables: Mapping[str, Mapping[int, Any]]) -> Iterator[Past]:
        """Yield the changes in force, the last one first, then those undone, the next one first.

        ``tables`` are the rows that are there now, by table.
        """
        done = self.done
        for changes in ({number: done[number] for number in reversed(done)}, self.undone):
            there = {name: dict[int, Any]() for name in tables}
            for number, change in changes.items():
                rows: dict[str, dict[int, Edit[Any]]] = {}
                for name, moved in there.items():
                    aim = getattr(change.before, name)
                    edits = (
                        (row, aim[row], moved[row] if row in moved else tables[name].get(row))
                        for row in aim
                    )
                    rows[name] = {
                        row: Edit(here, to) if change.undone else Edit(to, here)
                        for row, to, here in edits
                    }
                    moved.update(aim)
                yield Past(number, change, rows)

    def after(self, change: Change) -> History:
        """Return the history with one more change, and without those that make room for it.

        What was undone cannot be done again from then on.
        """
        left = self.done
        number = next(reversed(left), 0) + 1
        changes = {**left, number: change}
        for old in _outdated(change, left):
            del changes[old]
        lines = {one: self.lines[one] for one in changes if one in left}
        return History(changes, {**lines, number: line(number, kept(change).text)})

    def with_(self, turned: Mapping[int, Change]) -> History:
        """Return the history with changes that were undone or done again.

        Of those undone, the ones farthest off go where too much would be kept; the next stays.
        """
        changes = {**self.changes, **turned}
        records = 0
        for place, number in enumerate(History(changes, {}).undone):
            records += changes[number].size
            if place and records > RECORDS_KEPT:
                del changes[number]
        lines = {number: self.lines[number] for number in changes}
        for number in turned.keys() & changes.keys():
            lines[number] = line(number, kept(changes[number]).text)
        return History(changes, lines)


def _outdated(change: Change, earlier: dict[int, Change]) -> list[int]:
    records, outdated = change.size, []
    for place, (number, old) in enumerate(reversed(earlier.items()), start=2):
        records += old.size
        if place > CHANGES_KEPT or records > RECORDS_KEPT:
            outdated.append(number)
    return outdated
