"""The changes that can be undone."""

from __future__ import annotations

from itertools import islice
from typing import NamedTuple

from engine.collection.records import Change, kept
from engine.collection.storage import line

CHANGES_KEPT = 100
"""So many changes can be undone."""
RECORDS_KEPT = 5_000
"""Records kept for undoing, over all changes; the last can be undone whatever its size."""


class History(NamedTuple):
    """The changes by row number, the last one last, and their lines in the file."""

    changes: dict[int, Change]
    lines: dict[int, bytes]

    @property
    def last(self) -> Change | None:
        """The change that would be undone."""
        return next(reversed(self.changes.values()), None)

    def after(self, change: Change) -> History:
        """Return the history with one more change, and without those that make room for it."""
        number = next(reversed(self.changes), 0) + 1
        changes = {**self.changes, number: change}
        lines = {**self.lines, number: line(number, kept(change).text)}
        for old in self._outdated(change):
            del changes[old], lines[old]
        return History(changes, lines)

    def before_last(self) -> History:
        """Return the history without its last change."""
        left = len(self.changes) - 1
        return History(
            dict(islice(self.changes.items(), left)), dict(islice(self.lines.items(), left))
        )

    def _outdated(self, change: Change) -> list[int]:
        records, outdated = change.size, []
        for place, (number, old) in enumerate(reversed(self.changes.items()), start=2):
            records += old.size
            if place > CHANGES_KEPT or records > RECORDS_KEPT:
                outdated.append(number)
        return outdated
