"""Going back to a backup; the file that is there is set aside, never overwritten."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from engine.collection import backups
from engine.collection.files import not_written, write_in, write_whole
from engine.collection.folders import FILE
from engine.collection.opening import locked, release
from engine.collection.storage import AtomicStorage
from engine.collection.store import Store
from engine.model import Value
from engine.model.base import Instant
from engine.model.errors import CollectionError, InputError, RefusedError


class Copy(Value, frozen=True):
    """An earlier state of a collection's file, among its backups."""

    name: str
    at: Instant | None
    """When it was kept."""
    games: int | None
    """How many it holds; None where it cannot be read."""
    aside: bool = False
    """It was set aside, not copied at an opening."""


class Restored(Value, frozen=True):
    """A collection that went back to an earlier state."""

    backup: str
    games: int
    aside: str | None
    """What the file that was there is called now, among the backups; None where there was none."""


def copies(folder: Path) -> tuple[Copy, ...]:
    """Return the states that can be gone back to, the newest first. Each is read wholly."""
    found = [(path, False) for path in backups.backups(folder)]
    found += [(path, True) for path in backups.asides(folder)]
    return tuple(
        Copy(path.name, backups.time_of(path), _games_in(path), aside=aside)
        for path, aside in sorted(found, key=lambda one: one[0].stem[-16:], reverse=True)
    )


def restore(folder: Path, name: str, now: Callable[[], datetime]) -> Restored:
    """Put a copy in the place of the collection's file, which is set aside.

    ``name`` is that of a file among the backups; without one it is the newest that can be read.
    Raises InputError for another name or one that cannot be read, RefusedError where there is
    none, CollectionError where another program has the collection open or the disk refuses.
    """
    folder = folder.expanduser().absolute()
    there = {path.name: path for path in (*backups.backups(folder), *backups.asides(folder))}
    copy = there.get(name) if name else backups.newest_good(folder)
    if copy is None:
        if name:
            raise InputError(name, "no backup of that name", "spinery restore --list names them")
        raise RefusedError(str(folder), "no backup is there that can be read")
    games = _games_in(copy)
    if games is None:
        raise InputError(name, "this backup cannot be read", "Take another")
    lock = locked(folder)
    try:
        aside = _set_aside(folder, now())
        write_in(folder / FILE, (copy.read_bytes(),))
    finally:
        release(lock)
    return Restored(copy.name, games, aside.name if aside else None)


def _set_aside(folder: Path, now: datetime) -> Path | None:
    """Copy the file that is there, so that no instant is without one of the two."""
    try:
        content = (folder / FILE).read_bytes()
    except FileNotFoundError:
        return None
    aside = backups.new_path(folder, backups.ASIDE, now)
    try:
        write_whole(aside, (content,))
    except OSError as error:
        raise not_written(aside, error) from error
    return aside


def _games_in(copy: Path) -> int | None:
    try:
        return len(Store(AtomicStorage(copy)).tables.games.records)
    except CollectionError:
        return None
