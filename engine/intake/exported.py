"""The list that an export writes: a row a game with all that is known of it, read back as it was.

Columns of the list that a game came from stand under their own headers. What is more than a word
(the decisions taken, say) stands as JSON. A spreadsheet takes a cell that begins with =, +, -, @, a
tab or a carriage return for a formula (OWASP, 'CSV Injection'); such a cell gets an apostrophe, as
does one that begins with an apostrophe, and reading takes it off.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping
from pathlib import Path, PurePosixPath
from typing import Any

import msgspec

from engine.model import Game
from engine.model.errors import ListError

_BEGIN = ("id", "title", "series", "maker", "genre", "year", "notes", "case", "added_at")
"""What an export is known by, so that one of a Spinery with fewer fields is read too."""
WORDS = (*_BEGIN, "sort_title", "home", "labels")
"""Fields that are written as they are."""
PICTURE = "picture"
"""The file of its picture, to read; what counts is ``match``."""
RECORDS = tuple(name for name in Game.__struct_fields__ if name not in {*WORDS, "extra"})
"""Fields that are written as JSON: all that are more than a word."""
_FIRST = (*WORDS, PICTURE)
_EXTRA = "list: "
"""Before the header of a column of the list that is called as one of these."""

_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_PLAIN = "'"


def games_as_csv(games: Iterable[Game], files: Mapping[str, str]) -> str:
    """Return the list of ``games``; ``files`` are those of the pictures, by their names."""
    games = list(games)
    extra = list(dict.fromkeys(header for game in games for header in game.extra))
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([neutral(cell) for cell in (*_FIRST, *map(_header, extra), *RECORDS)])
    for game in games:
        row = msgspec.to_builtins(game, str_keys=True)
        cells = [
            *(row.get(field, "") for field in WORDS),
            files.get(game.match.picture, "") if game.match else "",
            *(game.extra.get(header, "") for header in extra),
            *(
                msgspec.json.encode(row[field]).decode() if field in row else ""
                for field in RECORDS
            ),
        ]
        writer.writerow([neutral(cell) for cell in cells])
    return out.getvalue()


def is_export(text: str) -> bool:
    """Return whether a list is one that an export wrote."""
    return _delimiter(text) is not None


def read_games(text: str, where: Path) -> tuple[Game, ...]:
    """Return the games of a list that an export wrote, all that is known of them included.

    Raises ListError for a row that was made unreadable.
    """
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text) or ",")
    try:
        headers = [plain(cell) for cell in next(rows, [])]
        return tuple(
            _game(dict(zip(headers, map(plain, cells), strict=False)), f"{where}, game {number}")
            for number, cells in enumerate(filter(any, rows), start=1)
        )
    except csv.Error as error:
        raise ListError(str(where), f"it is no table ({error})", "Export it again") from error


def neutral(cell: str) -> str:
    """Return a cell that no spreadsheet takes for a formula.

    One that begins with = + - @, a tab or a return has a quote set before it (OWASP, *CSV
    Injection*).
    """
    return _PLAIN + cell if cell.startswith((*_FORMULA, _PLAIN)) else cell


def plain(cell: str) -> str:
    """Return the cell that was made ``neutral``."""
    return cell.removeprefix(_PLAIN)


def file_names(sources: Mapping[str, str]) -> dict[str, str]:
    """Return a path for each picture, like the one it came with and safe on any system.

    ``sources`` and what is returned are by the pictures' names; no path leaves its folder, and no
    two differ by the case of letters only.
    """
    taken: set[str] = set()
    found: dict[str, str] = {}
    for name, source in sources.items():
        path = first = _safe(source, name)
        number = 1
        while str(path).casefold() in taken:
            number += 1
            path = first.with_name(f"{first.stem} ({number}){first.suffix}")
        taken.add(str(path).casefold())
        found[name] = str(path)
    return found


_PORTS = [f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10)]
_RESERVED = {"con", "prn", "aux", "nul", *_PORTS}
"""Names of devices on Windows (Microsoft, 'Naming Files, Paths, and Namespaces')."""
_LONGEST = 120
"""Bytes of a part of a path, well below what file systems take (255 is common)."""


def _safe(source: str, name: str) -> PurePosixPath:
    parts = [_safe_part(part) for part in source.replace("\\", "/").split("/")]
    path = PurePosixPath(*([part for part in parts if part] or [name]))
    own = PurePosixPath(name).suffix
    return path if path.suffix or not own else path.with_name(path.name + own)


def _safe_part(part: str) -> str:
    safe = "".join("_" if c in '<>:"|?*' or not c.isprintable() else c for c in part)
    safe = safe.strip().rstrip(". ")
    if PurePosixPath(safe).stem.casefold() in _RESERVED:
        safe = f"_{safe}"
    end = PurePosixPath(safe).suffix
    if len(safe.encode()) > _LONGEST and len(end.encode()) < _LONGEST:
        room = _LONGEST - len(end.encode())
        safe = safe.encode()[:room].decode(errors="ignore").rstrip(". ") + end
    return safe


def _header(column: str) -> str:
    own = (*_FIRST, *RECORDS)
    return f"{_EXTRA}{column}" if column in own or column.startswith(_EXTRA) else column


def _delimiter(text: str) -> str | None:
    start = text.removeprefix("\ufeff")
    quoted = ('"', "")
    for delimiter in ",;\t":
        for mark in quoted:
            if start.startswith(delimiter.join(f"{mark}{field}{mark}" for field in _BEGIN)):
                return delimiter
    return None


def _game(cells: Mapping[str, str], where: str) -> Game:
    fields: dict[str, Any] = {field: cells.get(field, "") for field in WORDS}
    try:
        for field in RECORDS:
            if said := cells.get(field, ""):
                fields[field] = msgspec.json.decode(said)
        fields["extra"] = {
            header.removeprefix(_EXTRA): said
            for header, said in cells.items()
            if said and header not in {*_FIRST, *RECORDS}
        }
        return msgspec.convert(fields, Game)
    except (msgspec.MsgspecError, RecursionError) as error:
        raise ListError(
            where, f"it is not as it was exported ({error})", "Export it again"
        ) from error
