"""The index of a shelf: every title under its letter, with its place."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator, Sequence
from io import StringIO
from itertools import groupby
from typing import NamedTuple

from engine.intake.exported import neutral
from engine.model import Value

OTHER = "…"
"""The heading of what stands under no letter."""
COLUMNS = ("letter", "title", "place", "page")


class Entry(Value, frozen=True):
    """A title in the index."""

    game: str
    title: str
    letter: str
    """Under which it is filed."""
    place: str
    """In words; '' where it has none."""
    page: int = 1
    """On which it stands."""


class Letter(NamedTuple):
    """A letter and its titles."""

    name: str
    entries: tuple[Entry, ...]


Row = Letter | Entry
"""A line of the index: a letter's heading, or a title."""
Pages = Sequence[Sequence[Sequence[Row]]]
"""The rows of each column of each page."""


def letters(entries: Iterable[Entry]) -> tuple[Letter, ...]:
    """Return entries that are in order under their letters."""
    found = groupby(entries, key=lambda entry: entry.letter)
    return tuple(Letter(name or OTHER, tuple(group)) for name, group in found)


def paged(found: Sequence[Letter], lines: int, columns: int) -> Pages:
    """Return the rows of each page, column by column, so many lines to a column.

    A heading is never the last line of a column.
    """
    rows: list[Row] = []
    for letter in found:
        rows += [letter, *letter.entries]
    parts: list[tuple[Row, ...]] = []
    while rows:
        fits = min(lines, len(rows))
        if fits > 1 and isinstance(rows[fits - 1], Letter):
            fits -= 1
        parts.append(tuple(rows[:fits]))
        rows = rows[fits:]
    return tuple(tuple(parts[at : at + columns]) for at in range(0, len(parts), columns))


def pages_by_letter(pages: Pages) -> dict[str, int]:
    """Return the page on which each letter begins, from 1."""
    return {row.name: page for page, row in _rows(pages) if isinstance(row, Letter)}


def as_csv(entries: Iterable[Entry]) -> bytes:
    """Return the index as CSV (RFC 4180) in UTF-8, marked as that for spreadsheets."""
    out = StringIO()
    rows = csv.writer(out, lineterminator="\r\n")
    rows.writerow(COLUMNS)
    rows.writerows(
        (neutral(one.letter or OTHER), neutral(one.title), neutral(one.place), one.page)
        for one in entries
    )
    return out.getvalue().encode("utf-8-sig")


def numbered(pages: Pages) -> dict[str, int]:
    """Return the page of each title, by game."""
    return {row.game: page for page, row in _rows(pages) if isinstance(row, Entry)}


def _rows(pages: Pages) -> Iterator[tuple[int, Row]]:
    """Yield every row with its page, from 1."""
    for number, page in enumerate(pages, start=1):
        for column in page:
            for row in column:
                yield number, row
