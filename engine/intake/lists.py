"""Lists of games: tables with a header, or a title a line."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from itertools import islice
from pathlib import Path
from typing import Any, Literal, NamedTuple

import msgspec

from engine.intake import exported, spreadsheets
from engine.intake.columns import HEADER_DEPTH, TOTALS, assign, header_at
from engine.intake.decoding import decode
from engine.intake.spreadsheets import SpreadsheetPage
from engine.intake.titles import fold, title_key
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
    columns: dict[str, str] = {}
    """The header that each field was found under, by field; empty for a title a line."""
    encoding: str = ""
    """What the text was read as; empty for a spreadsheet."""
    sheet: str = ""
    """The sheet of a spreadsheet that it was read from."""


NO_GAMES = GameList(())
"""What comes where pictures are taken in alone."""


SIZE_LIMIT = 64 << 20
"""In bytes; a hundred thousand games take a tenth of it."""

MOST_COLUMNS = 1_000
"""Of a list; spreadsheets have some sixteen thousand at most, people some twenty."""

PASTED = "pasted titles"
"""What a list is called that came from no file."""

_TABLE_SUFFIXES = {".csv", ".tsv", ".tab"}
_DELIMITERS = ",;\t|"
_NO_DELIMITER = "\x1f"
"""For a single column, whose titles may hold commas: a control that no list contains."""
_OF_CELLS = 1
_OF_TEXT = 2
"""How many fields a header names that has something above it: in text, 'Game, The' may be a
title."""
_MEND = "Name one of the columns 'title'"


def read_list(path: Path, sheet: str = "") -> GameList:
    """Return the games of the list at ``path``; of a spreadsheet those of ``sheet``.

    Without a name the only sheet is read, or the only one with titles. Raises ListError if it
    cannot be read, holds no game, is a table without titles, or leaves open which sheet is meant.
    """
    data = _bytes_of(path)
    if spreadsheets.begins_like_one(data):
        return _of_page(_chosen(spreadsheets.read_pages(path), sheet, path), path)
    if sheet:
        raise ListError(str(path), "this is no spreadsheet", f"Leave the sheet {sheet} out")
    text, guess, encoding = decode(data, str(path))
    found = _of_text(text, path)
    said = f"{path.name}: read as {guess}. If letters look wrong, save it as UTF-8."
    notes = (said, *found.notes) if guess else found.notes
    return msgspec.structs.replace(found, encoding=encoding, notes=notes)


def read_titles(text: str) -> GameList:
    """Return the games of a list that was pasted: a title a line, or a table with its header.

    Raises ListError.
    """
    return _of_text(text, Path(PASTED))


def sheets_of(path: Path) -> tuple[str, ...]:
    """Return the sheets of a spreadsheet, those with titles first; none for a text.

    Raises ListError if it cannot be read.
    """
    if not spreadsheets.begins_like_one(_bytes_of(path)):
        return ()
    pages = spreadsheets.read_pages(path)
    return tuple(one.name for one in sorted(pages, key=lambda one: not _has_titles(one)))


def _of_text(text: str, path: Path) -> GameList:
    if not text.strip():
        raise ListError(str(path), "the list is empty", "Give it a title on each line")
    if exported.is_export(text):
        return _exported(text, path)
    table = _table(text, path)
    return _listed(_plain(text), path) if table is None else _listed_table(table, path)


def _chosen(pages: Sequence[SpreadsheetPage], sheet: str, path: Path) -> SpreadsheetPage:
    """Return the page of a spreadsheet that holds the list. Raises ListError."""
    if not pages:
        raise ListError(str(path), "the list is empty", "Give it a title on each line")
    listed = ", ".join(page.name for page in pages)
    if sheet:
        wanted = sheet.strip().casefold()
        found = [page for page in pages if page.name.strip().casefold() == wanted]
        if not found:
            raise ListError(str(path), f"has no sheet {sheet}", f"Its sheets: {listed}")
        return found[0]
    found = [page for page in pages if _has_titles(page)] if len(pages) > 1 else list(pages)
    if len(found) != 1:
        what = f"has {len(pages)} sheets: {listed}"
        raise ListError(str(path), what, "Say which holds the list: --sheet NAME")
    return found[0]


def _has_titles(page: SpreadsheetPage) -> bool:
    rows = list(islice(filter(_filled, page.rows), HEADER_DEPTH))
    return bool(rows) and "title" in assign(rows[header_at(rows, _OF_CELLS)])


def _of_page(page: SpreadsheetPage, path: Path) -> GameList:
    records = [(line, list(row)) for line, row in enumerate(page.rows, start=1) if _filled(row)]
    table = _under_header(records, _OF_CELLS)
    _refuse_width(table.headers, path)
    if "title" in table.columns:
        found = _listed_table(table, path)
    elif len({at for _, row in records for at, cell in enumerate(row) if cell.strip()}) == 1:
        titles = ((line, _one_line("".join(row))) for line, row in records)
        found = _listed([ListRow(title, line) for line, title in titles], path)
    else:
        raise _no_titles(table.headers, path)
    return msgspec.structs.replace(found, sheet=page.name)


def _refuse_width(headers: Sequence[str], path: Path) -> None:
    if len(headers) > MOST_COLUMNS:
        what = f"this has {len(headers)} columns"
        raise ListError(str(path), what, "Save those of the games only")


def _listed_table(table: _ListTable, path: Path) -> GameList:
    rows, notes = _rows(table, path)
    if table.line:
        said = f"the columns are named in line {table.line}; what stands above it is left out"
        notes.insert(0, f"{path.name}: {said}.")
    found = _listed(rows, path, notes)
    named = {field: table.headers[column] for field, column in table.columns.items()}
    return msgspec.structs.replace(found, columns=named)


def _listed(rows: list[ListRow], path: Path, notes: Sequence[str] = ()) -> GameList:
    if not rows:
        raise ListError(str(path), "no line has a title", "Give each game a title")
    games = rows[:-1] if _is_total(rows[-1], len(rows) - 1) else rows
    notes = (*notes, *_repeats(games, path))
    if games is not rows:
        said = f"{rows[-1].title} is taken for the total of the list and left out"
        notes = (*notes, f"{path.name}, line {rows[-1].line}: {said}.")
    return GameList(tuple(games), notes)


_SUMS = re.compile(r"(?P<word>\w+)\s*(?P<sign>[:=]?)(?P<sums>[\d\s.,]*)")


def _is_total(last: ListRow, games: int) -> bool:
    """Return whether the last row of a list sums up the ``games`` above it.

    Without a colon the word and a number may be a title: then one has to be how many there are.
    """
    fields = last.series, last.maker, last.genre, last.year, last.notes, last.case
    cells = last.title, *fields, *last.extra.values()
    found = _SUMS.fullmatch(" ".join(filter(None, cells)))
    if not games or found is None or fold(found["word"]) not in TOTALS:
        return False
    return bool(found["sign"]) or f"{games}" in found["sums"].split()


def _exported(text: str, path: Path) -> GameList:
    games = exported.read_games(text, path)
    if not games:
        raise ListError(str(path), "no line has a title", "Give each game a title")
    rows = (ListRow(one.title, line, known=one) for line, one in enumerate(games, start=2))
    return GameList(tuple(rows))


def _no_titles(headers: Iterable[str], path: Path) -> ListError:
    named = ", ".join(header for header in headers if header)
    return ListError(str(path), f"no column holds the titles (it has: {named})", _MEND)


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
    line: int
    """Of the header, where something stands above it; else 0."""


def _under_header(records: Sequence[tuple[int, list[str]]], fewest: int) -> _ListTable:
    at = header_at([row for _, row in records], fewest)
    line, row = records[at]
    headers = [cell.strip() for cell in row]
    return _ListTable(headers, assign(headers), [*records[at + 1 :]], line if at else 0)


def _table(text: str, path: Path) -> _ListTable | None:
    """Return the list as a table, or None where it is a title a line."""
    found = [(delimiter, _headers(text, delimiter)) for delimiter in _DELIMITERS]
    delimiter, headers = max(found, key=lambda each: (len(assign(each[1])), len(each[1])))
    _refuse_width(headers, path)
    columns = assign(headers)
    if "title" in columns:
        records = _records(text, delimiter if len(headers) > 1 else _NO_DELIMITER, path)
        table = _under_header(records, _OF_TEXT)
        if "title" not in table.columns:  # quotation marks taken for letters part rows otherwise
            raise _no_titles(table.headers, path)
        return table
    is_table = path.suffix.lower() in _TABLE_SUFFIXES and (columns or len(headers) > 1)
    if is_table or len(columns) > 1:
        raise _no_titles(headers, path)
    return None


def _headers(text: str, delimiter: str) -> list[str]:
    reader = csv.reader(_source(text), delimiter=delimiter)
    rows: list[list[str]] = []
    with suppress(csv.Error):  # what stands above the fault is kept
        rows.extend(islice(filter(_filled, reader), HEADER_DEPTH))
    return [cell.strip() for cell in rows[header_at(rows, _OF_TEXT)]] if rows else []


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
