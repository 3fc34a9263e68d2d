"""What a killed program left behind, swept when the collection is next opened for writing.

A file that is still being written has no name that anyone was given: it is removed. A picture,
a font or a page that is whole could be wanted; it goes to the backups, and comes back from there
as soon as a record names it, as one does after going back to an earlier state and forth again.
"""

from __future__ import annotations

import os
import re
from contextlib import suppress
from itertools import count
from pathlib import Path

from engine.collection.files import discard, unfinished_in
from engine.collection.folders import BACKUPS, FOLDERS, FONTS, PICTURES
from engine.collection.pages import keep_pages
from engine.collection.reading import Tables

_OURS = re.compile(r"[0-9a-f]{20}(?:\.\w+)?", re.ASCII)
"""What ``copying.content_name`` gives; what a person put there under another name is theirs."""
_NAMED = re.compile(_OURS.pattern.encode())


def sweep(folder: Path, tables: Tables) -> None:
    """Clear a collection's ``folder`` of what no record knows, and bring back what one does.

    What cannot be moved stays: the health check tells of it.
    """
    for name in ("", *FOLDERS):
        with suppress(OSError):
            for left in unfinished_in(folder / name):
                discard(left)
    keep_pages(folder, tables.sheets.records.values())
    put_away(folder, tables)


def put_away(folder: Path, tables: Tables) -> None:
    """Move pictures and fonts that no record knows to the backups, and back those that one does."""
    for name in (PICTURES, FONTS):
        with suppress(OSError):
            _sweep(folder / name, folder / BACKUPS / name, tables)


def set_aside(path: Path, shelf: Path) -> Path:
    """Move a file that no record knows to a folder among the backups; return where it lies.

    The folder is made on first use; another file of that name stays. Raises OSError.
    """
    shelf.mkdir(exist_ok=True)
    target = shelf / path.name
    numbers = count(2)
    while target.exists():
        target = shelf / f"{path.stem}-{next(numbers)}{path.suffix}"
    path.replace(target)
    return target


def _sweep(shown: Path, kept: Path, tables: Tables) -> None:
    here, there = _names(shown), _names(kept)
    unknown = (here | there) - tables.pictures.records.keys()
    known = (here | there) - (unknown - _mentioned(unknown, tables))
    for name in sorted(here - known):
        if _OURS.fullmatch(name):
            with suppress(OSError):
                kept.mkdir(exist_ok=True)
                (shown / name).replace(kept / name)  # of one name, of one content
    for name in sorted((there & known) - here):
        with suppress(OSError):
            (kept / name).replace(shown / name)


def _names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()} if folder.is_dir() else set()


def _mentioned(names: set[str], tables: Tables) -> set[str]:
    """Return those of the ``names`` that stand anywhere in the file, in whatever field."""
    found: set[bytes] = set()
    if names:
        for table in tables:
            for line in table.lines.values():
                found.update(_NAMED.findall(line))
    return {name for name in names if os.fsencode(name) in found}
