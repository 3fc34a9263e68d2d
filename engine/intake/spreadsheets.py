"""Spreadsheets as rows of text, read by a worker process: XLSX, ODS and older kinds."""

from __future__ import annotations

import os
from collections.abc import Iterable
from datetime import date, datetime, time
from functools import cache
from pathlib import Path

from engine.model import Value
from engine.model.errors import ListError
from engine.workers import Job, Pool, Reason
from engine.workers.limits import LISTING

_STARTS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")
"""How they begin: a ZIP archive (ISO/IEC 29500-2 and ODF 1.3, part 2), or a compound file
([MS-CFB])."""

_MIDNIGHT = time()


class SpreadsheetPage(Value, frozen=True):
    """A sheet of a spreadsheet that is not empty."""

    name: str
    rows: tuple[tuple[str, ...], ...]
    """From the first row on, blank ones too."""


def begins_like_one(start: bytes) -> bool:
    """Return whether a file that begins so may be a spreadsheet."""
    return start.startswith(_STARTS)


def read_pages(path: Path) -> tuple[SpreadsheetPage, ...]:
    """Return the sheets that are shown and not empty, in their order. Raises ListError."""
    return _reading().ask(str(path), os.fsencode(path.absolute()))


@cache
def _reading() -> Pool[tuple[SpreadsheetPage, ...], ListError]:
    gives = tuple[SpreadsheetPage, ...]
    return Pool(Job(f"{__name__}:read", gives, LISTING, ListError, _refusal), most=1)


def _refusal(name: str, reason: Reason) -> ListError:
    return ListError(name, f"cannot be opened: {reason}", "Save the list as CSV")


def read(path: bytes) -> tuple[SpreadsheetPage, ...]:
    """Do what ``read_pages`` does, but here. For workers. Raises ListError."""
    import python_calamine as calamine

    where = os.fsdecode(path)
    try:
        with calamine.load_workbook(where) as book:
            shown = [
                one.name
                for one in book.sheets_metadata
                if one.typ is calamine.SheetTypeEnum.WorkSheet
                and one.visible is calamine.SheetVisibleEnum.Visible
            ]
            pages = [
                (name, book.get_sheet_by_name(name).to_python(skip_empty_area=False))
                for name in shown
            ]
    except calamine.PasswordError as error:
        raise ListError(where, "it is locked by a password", "Save it without one") from error
    except (calamine.CalamineError, OSError, ValueError) as error:
        what = "this is no spreadsheet that can be read, and no text"
        raise ListError(where, what, "Save the list as XLSX, ODS or CSV") from error
    rows = [(name, tuple(_texts(row) for row in page)) for name, page in pages]
    return tuple(SpreadsheetPage(name, page) for name, page in rows if any(map(any, page)))


def _texts(row: Iterable[object]) -> tuple[str, ...]:
    return tuple(map(_text, row))


def _text(cell: object) -> str:
    """Return a cell as a person reads it: 1990 for 1990.0, a day without its midnight."""
    match cell:
        case bool():
            return "yes" if cell else "no"
        case float() if cell.is_integer():
            return str(int(cell))
        case datetime():
            return str(cell.date() if cell.time() == _MIDNIGHT else cell)
        case date() | time():
            return cell.isoformat()
        case _:
            return str(cell).strip()
