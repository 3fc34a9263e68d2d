"""Paths as a person types them: what they name, and what they may become."""

from __future__ import annotations

import os
from enum import StrEnum
from itertools import takewhile
from pathlib import Path
from urllib.parse import unquote, urlparse

from engine.model import Value
from engine.model.picturekinds import promises_picture

LIST_SUFFIXES = frozenset(
    {".csv", ".tsv", ".tab", ".txt", ".xlsx", ".xlsm", ".xlsb", ".xls", ".ods"}
)
"""How files end that may be lists."""

MOST_SHOWN = 500
"""Entries of a folder that are offered; letters typed narrow them down."""


class Sought(StrEnum):
    """What a path is to name."""

    LIST = "list"
    PICTURES = "pictures"
    """A folder of pictures."""
    PICTURE = "picture"
    COLLECTION = "collection"
    """A folder, be it there or not."""
    WRITTEN = "written"
    """A file to write, be it there or not, in a folder that is there."""
    EMPTY = "empty"
    """A folder to make, or one that holds nothing."""


class PathEntry(Value, frozen=True):
    """A file or folder that a path may become."""

    path: str
    """As it would be typed; a folder's ends with a separator."""
    name: str
    is_folder: bool


class PathLook(Value, frozen=True):
    """What a typed path names, and what it may become."""

    path: Path
    """Whole, the home folder written out."""
    is_there: bool
    """It names what is sought."""
    entries: tuple[PathEntry, ...]
    """Folders first, 2 before 10."""
    completed: str
    """The path with all that is the same for every entry."""
    is_taken: bool = False
    """A file of that name is there already."""


def look_at_path(typed: str, sought: Sought) -> PathLook:
    """Return what ``typed`` names, relative to the current folder; what cannot be read is empty.

    Quotes around it, ``file:`` and ``~`` are understood, as terminals paste what is dropped on
    them.
    """
    said = tidy(typed)
    head, tail = os.path.split(said)
    folder = Path(head or ".").expanduser()
    found = _entries(folder, tail, sought)[:MOST_SHOWN]
    entries = tuple(
        PathEntry(os.path.join(head, name) + (os.sep if is_folder else ""), name, is_folder)  # noqa: PTH118  as it is typed
        for name, is_folder in found
    )
    path = Path(said).expanduser()
    return PathLook(
        path.absolute(),
        bool(said) and _names(path, sought),
        entries,
        _completed(said, entries),
        is_taken=bool(said) and _names(path, Sought.LIST),
    )


def tidy(typed: str) -> str:
    """Return a path without the wrapping that it was pasted in."""
    said = typed.strip()
    if len(said) > 1 and said[0] == said[-1] and said[0] in "'\"":
        said = said[1:-1]
    if said.startswith("file://"):
        said = unquote(urlparse(said).path)
    return said


def _names(path: Path, sought: Sought) -> bool:
    try:
        match sought:
            case Sought.COLLECTION:
                return not path.exists() or path.is_dir()
            case Sought.PICTURES:
                return path.is_dir()
            case Sought.WRITTEN:
                return path.parent.is_dir() and not path.is_dir()
            case Sought.EMPTY:
                return not any(path.iterdir()) if path.exists() else path.parent.is_dir()
            case _:
                return path.is_file()
    except OSError:
        return False


def _entries(folder: Path, start: str, sought: Sought) -> list[tuple[str, bool]]:
    wanted = start.casefold()
    hidden = not start.startswith(".")
    try:
        found = [
            (one.name, one.is_dir())
            for one in os.scandir(folder)
            if one.name.casefold().startswith(wanted) and not (hidden and one.name[0] == ".")
        ]
    except OSError:
        return []
    from natsort import natsorted, ns

    kept = [one for one in found if one[1] or _is_sought(Path(one[0]), sought)]
    return natsorted(kept, key=lambda one: (not one[1], one[0]), alg=ns.IGNORECASE)


def _is_sought(path: Path, sought: Sought) -> bool:
    match sought:
        case Sought.LIST:
            return path.suffix.lower() in LIST_SUFFIXES
        case Sought.PICTURE:
            return promises_picture(path)
        case _:
            return False


def _completed(said: str, entries: tuple[PathEntry, ...]) -> str:
    """Return what is typed, as far on as all entries agree in it."""
    if not entries:
        return said
    if len(entries) == 1:
        return entries[0].path
    letters = zip(*(entry.path for entry in entries), strict=False)
    shared = list(takewhile(lambda column: len({*"".join(column).lower()}) == 1, letters))
    grown = entries[0].path[: len(shared)]
    return grown if len(grown) > len(said) else said
