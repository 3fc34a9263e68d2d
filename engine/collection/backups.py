"""Copies of the collection's file from earlier openings, a rotating few, and going back to one."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

from engine.collection.files import discard, write_whole
from engine.collection.folders import BACKUPS
from engine.model.errors import CollectionError

NEWEST = 10
"""So many of the latest copies are kept, whatever their day."""
DAYS = 30
"""Of the latest days that have copies, the last copy is kept as well."""

_STAMP = "%Y%m%dT%H%M%SZ"
_COPY = "collection"
ASIDE = "set-aside"
"""What a file is called that was not overwritten; none of them is ever let go."""


def backups(folder: Path) -> list[Path]:
    """Return the copies in a collection's ``folder``, newest first."""
    return _named(folder, _COPY)


def asides(folder: Path) -> list[Path]:
    """Return what was set aside in a collection's ``folder``, newest first; none is overwritten."""
    return _named(folder, ASIDE)


def newest_good(folder: Path) -> Path | None:
    """Return the newest copy in a collection's ``folder`` that can be read, or None."""
    return next((copy for copy in backups(folder) if is_good(copy)), None)


def is_good(copy: Path) -> bool:
    """Return whether a copy can be read from end to end."""
    from engine.collection.storage import AtomicStorage
    from engine.collection.store import Store

    try:
        return not Store(AtomicStorage(copy)).is_new
    except CollectionError:
        return False


def keep(file: Path, now: datetime) -> None:
    """Copy a collection's ``file``, unless the newest copy is the same; let old copies go.

    Raises OSError: NotForced where the copy stands in its place.
    """
    content = file.read_bytes()
    copies = backups(file.parent)
    if copies and copies[0].read_bytes() == content:
        return
    copy = new_path(file.parent, _COPY, now)
    copy.parent.mkdir(exist_ok=True)
    try:
        write_whole(copy, (content,))
    finally:
        for old in _outdated(backups(file.parent)):
            discard(old)


def new_path(folder: Path, name: str, now: datetime) -> Path:
    """Return where a file of that name is kept among the backups: after all that are there.

    So it is whatever the clock says.
    """
    at = now.astimezone(UTC)
    latest = max(_times(_named(folder, name)), default=None)
    if latest is not None:
        at = max(at, latest + timedelta(seconds=1))
    return folder / BACKUPS / f"{name}-{at.strftime(_STAMP)}.json"


def time_of(copy: Path) -> datetime | None:
    """Return when a file among the backups was kept, as its name says."""
    try:
        return datetime.strptime(copy.stem[-16:], _STAMP).replace(tzinfo=UTC)
    except ValueError:
        return None


def _named(folder: Path, name: str) -> list[Path]:
    return sorted((folder / BACKUPS).glob(f"{name}-*.json"), reverse=True)


def _times(copies: list[Path]) -> Iterator[datetime]:
    yield from (at for at in map(time_of, copies) if at is not None)


def _outdated(copies: list[Path]) -> list[Path]:
    last_of_day: dict[str, Path] = {}
    for copy in copies:
        last_of_day.setdefault(copy.stem.partition("T")[0], copy)
    kept = {*copies[:NEWEST], *list(last_of_day.values())[:DAYS]}
    return [copy for copy in copies if copy not in kept]
