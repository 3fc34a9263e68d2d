"""Copies of the collection's file from earlier openings, a rotating few."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from engine.collection.files import discard, write_whole
from engine.collection.folders import BACKUPS

NEWEST = 3
"""So many of the latest copies are kept, whatever their day."""
DAYS = 7
"""Of the latest days that have copies, the last copy is kept as well."""

_STAMP = "%Y%m%dT%H%M%SZ"


def backups(folder: Path) -> list[Path]:
    """Return the copies in a collection's ``folder``, newest first."""
    return sorted((folder / BACKUPS).glob("collection-*.json"), reverse=True)


def keep(file: Path, now: datetime) -> None:
    """Copy a collection's ``file``, unless the newest copy is the same; let old copies go.

    Raises OSError.
    """
    content = file.read_bytes()
    copies = backups(file.parent)
    if copies and copies[0].read_bytes() == content:
        return
    stamp = now.astimezone(UTC).strftime(_STAMP)
    copy = file.parent / BACKUPS / f"collection-{stamp}.json"
    copy.parent.mkdir(exist_ok=True)
    write_whole(copy, (content,))
    for old in _outdated(backups(file.parent)):
        discard(old)


def _outdated(copies: list[Path]) -> list[Path]:
    last_of_day: dict[str, Path] = {}
    for copy in copies:
        last_of_day.setdefault(copy.stem.partition("T")[0], copy)
    kept = {*copies[:NEWEST], *list(last_of_day.values())[:DAYS]}
    return [copy for copy in copies if copy not in kept]
