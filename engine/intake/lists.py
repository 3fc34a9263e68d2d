"""Lists of games: tables with a header, or a title a line."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, Literal, NamedTuple

from engine.intake import exported
from engine.intake.columns import assign
from engine.intake.decoding import decode
from engine.intake.titles import title_key
from engine.model import Game, Value
from engine.model.errors import ListError
from engine.model.plain import LONGEST, plain


class ListRow(Value, frozen=True):
    """One game of a list, as it stands there."""

    title: str
    line: int
    """The line of the file on which it begins, from 1."""
    series: str = ""
    maker: str = ""
    genre: str = ""
    year: str = ""
    notes: str = ""
    case: str = ""
    extra: dict[str, str] = {}
    """Other columns by their header, where they are not empty."""
    known: Game | None = None
    """All that was known of it, in a list that an export wrote."""


class GameList(Value, frozen=True):
    """A list of games."""

    rows: tuple[ListRow, ...]
    notes: tuple[str, ...] = ()
    """Rows that could not be used, and guesses that were made, a sentence each."""


SIZE_LIMIT = 64 << 20
"""In bytes; a hundred thousand games take a tenth of it."""

MOST_COLUMNS = 1_000
"""Of a list; spreadsheets have some sixteen thousand at most, people some twenty."""

_TABLE_SUFFIXES = {".csv", ".tsv", ".tab"}
_DELIMITERS = ",;\t|"
_NO_DELIMITER = "\x1f"
"""For a single column, whose titles may hold commas: a control that no list contains."""
_MEND = "Name one of the columns 'title'"


def read_list(path: Path) -> GameList:
    """Return the games of the list at ``path``.

    Raises ListError if it cannot be read, holds no game, or is a table without titles.
    """
    text, guess = decode(_bytes_of(path), str(path))
    if not text.strip():
        raise ListError(str(path), "the list is empty", "Give it a title on each line")
    if exported.is_export(text):
        return _exported(text, path)
    table = _table(text, path)
    if table is None:
        rows, notes = _plain(text), list[str]()
    else:
        rows, notes = _rows(table, path)
    if not rows:
        raise ListError(str(path), "no line has a title", "Give each game a title")
    if guess:
        notes.insert(0, f"{path.name}: read as {guess}. If letters look wrong, save it as UTF-8.")
    return GameList(tuple(rows), (*notes, *_repeats(rows, path)))


def _exported(text: str, path: Path) -> GameList:
    games = exported.read_games(text, path)
    if not games:
        raise ListError(str(path), "no line has a title", "Give each game a title")
    rows = (ListRow(one.title, line, known=one) for line, one in enumerate(games, start=2))
    return GameList(tuple(rows))


def _bytes_of(path: Path) -> bytes:
    try:
        if path.is_dir():
            raise ListError(str(path), "this is a folder", "Name the list in it")
        if path.exists() and not path.is_file():
            raise ListError(str(path), "this is no file", "Name the list itself")
        if path.stat().st_size > SIZE_LIMIT:
            raise ListError(str(path), "this is too large for a list", "Name the list itself")
        return path.read_bytes()
    except FileNotFoundError as error:
        raise ListError(str(path), "there is no such file", "Check the name") from error
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        mend = "Give yourself the right to read it"
        raise ListError(str(path), f"it cannot be read ({reason})", mend) from error


class _ListTable(NamedTuple):
    headers: list[str]
    columns: dict[str, int]
    records: list[tuple[int, list[str]]]
    """Each with the line on which it begins."""


def _table(text: str, path: Path) -> _ListTable | None:
    """Return the list as a table, or None where it is a title a line."""
    found = [(delimiter, _headers(text, delimiter)) for delimiter in _DELIMITERS]
    delimiter, headers = max(found, key=lambda each: (len(assign(each[1])), len(each[1])))
    if len(headers) > MOST_COLUMNS:
        raise ListError(
            str(path), f"this has {len(headers)} columns", "Save those of the games only"
        )
    columns = assign(headers)
    if "title" in columns:
        records = _records(text, delimiter if len(headers) > 1 else _NO_DELIMITER, path)
        return _ListTable(headers, columns, records[1:])
    is_table = path.suffix.lower() in _TABLE_SUFFIXES and (columns or len(headers) > 1)
    if is_table or len(columns) > 1:
        named = ", ".join(header for header in headers if header)
        raise ListError(str(path), f"no column holds the titles (it has: {named})", _MEND)
    return None


def _headers(text: str, delimiter: str) -> list[str]:
    reader = csv.reader(_source(text), delimiter=delimiter)
    try:
        record = next((record for record in reader if _filled(record)), [])
    except csv.Error:
        return []
    return [cell.strip() for cell in record]


def _records(text: str, delimiter: str, path: Path) -> list[tuple[int, list[str]]]:
    """Return the records that are not blank, each with the line on which it begins."""
    try:
        return list(_parsed(text, delimiter, csv.QUOTE_MINIMAL))
    except _Quotes as fault:
        if delimiter in {"\t", _NO_DELIMITER}:  # there it is often a letter like any other
            return list(_parsed(text, delimiter, csv.QUOTE_NONE))
        raise ListError(
            f"{path}, line {fault.line}",
            "a quotation mark is opened here and not closed, or closed too early",
            "Write it twice where it belongs to the text",
        ) from fault


class _Quotes(Exception):  # noqa: N818 - a signal within this module, no error of its own
    def __init__(self, line: int) -> None:
        super().__init__(line)
        self.line = line


def _parsed(text: str, delimiter: str, quoting: Literal[0, 3]) -> Iterator[tuple[int, list[str]]]:
    source = _source(text)
    reader = csv.reader(source, delimiter=delimiter, quoting=quoting, strict=True)
    hinted = 1 if _HINT.match(text) else 0
    line = 1 + hinted
    try:
        for record in reader:
            if _filled(record):
                yield line, record
            line = reader.line_num + 1 + hinted
    except csv.Error as error:
        raise _Quotes(line) from error


_HINT = re.compile(r"sep=.\r?\n")
"""A first line by which some spreadsheets tell the delimiter."""


def _source(text: str) -> io.StringIO:
    hint = _HINT.match(text)
    return io.StringIO(text[hint.end() :] if hint else text, newline="")


def _filled(record: Sequence[str]) -> bool:
    return any(cell.strip() for cell in record)


def _rows(table: _ListTable, path: Path) -> tuple[list[ListRow], list[str]]:
    rows: list[ListRow] = []
    notes: list[str] = []
    for line, record in table.records:
        cells = dict(enumerate(cell.strip() for cell in record))
        fields: dict[str, Any] = {
            field: cells.get(column, "") for field, column in table.columns.items()
        }
        title = _one_line(fields.pop("title"))
        if not title:
            notes.append(f"{path.name}, line {line}: no title. Give one or delete the line.")
            continue
        if len(title) > LONGEST:
            said = f"the title has {len(title)} characters, of which {LONGEST} are kept"
            notes.append(f"{path.name}, line {line}: {said}.")
        rows.append(ListRow(title, line, **fields, extra=_extra(table, cells)))
    return rows, notes


def _extra(table: _ListTable, cells: dict[int, str]) -> dict[str, str]:
    used = set(table.columns.values())
    extra: dict[str, str] = {}
    for column, cell in cells.items():
        if cell and column not in used:
            header = table.headers[column] if column < len(table.headers) else ""
            name = header or f"column {column + 1}"
            extra[f"{name} (column {column + 1})" if name in extra else name] = cell
    return extra


_BULLET = re.compile(r"^[-*•]\s+")


def _plain(text: str) -> list[ListRow]:
    lines = enumerate(io.StringIO(text, newline=None), start=1)
    titles = ((line, _one_line(_BULLET.sub("", row.strip()))) for line, row in lines)
    return [ListRow(title, line) for line, title in titles if title]


def _one_line(text: str) -> str:
    return " ".join(plain(text).split())


def _repeats(rows: list[ListRow], path: Path) -> list[str]:
    """Return a sentence for each row whose title stands further up: it may be a slip."""
    first: dict[str, ListRow] = {}
    notes: list[str] = []
    for row in rows:
        earlier = first.setdefault(title_key(row.title), row)
        if earlier is not row:
            notes.append(
                f"{path.name}, line {row.line}: {row.title} stands on line {earlier.line} too. "
                "It counts as a second one; delete the line if it is not."
            )
    return notes
