"""Opening a collection's folder: made on first use, locked, read, swept, backed up."""

from __future__ import annotations

import shlex
import warnings
from collections.abc import Callable
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from filelock import FileLock, Timeout

from engine.collection import backups, schema
from engine.collection.files import NotForced, force_folder, not_made, not_written, reason
from engine.collection.folders import BACKUPS, FILE, FOLDERS, LOCK, refuse_links
from engine.collection.leavings import sweep
from engine.collection.storage import AtomicStorage
from engine.collection.store import Store
from engine.model import Picture
from engine.model.errors import CollectionError, DamagedError, UnconfirmedError


class OpenFolder(NamedTuple):
    """A collection's folder, ready to be worked in."""

    store: Store
    lock: FileLock | None
    """None where this program may only read."""
    notes: tuple[str, ...] = ()
    """What the person should know about this opening, a sentence each."""
    is_taken: bool = False
    """Another program has it open for writing, which may end."""


def open_folder(folder: Path, now: Callable[[], datetime]) -> OpenFolder:
    """Make or open the collection in ``folder``.

    Raises CollectionError if it can be neither made nor read, DamagedError for its file.
    """
    _make_folder(folder)
    refuse_links(folder)
    try:
        lock = _lock(folder)
    except Timeout:
        words = "open in another program, so nothing can be changed here. Close it there first."
        return OpenFolder(_read(folder), None, (f"{folder}: {words}",), is_taken=True)
    except OSError as error:
        if not (folder / FILE).exists():
            raise not_made(folder, error) from error
        words = f"{not_made(folder, error).what}, so nothing can be changed here."
        return OpenFolder(_read(folder), None, (f"{folder}: {words}",))
    return _opened(folder, lock, now)


def open_if_free(folder: Path, now: Callable[[], datetime]) -> OpenFolder | None:
    """Open the collection in ``folder`` for writing, or return None where that cannot be done.

    Raises CollectionError as ``open_folder`` does.
    """
    try:
        lock = _lock(folder)
    except (Timeout, OSError):
        return None
    return _opened(folder, lock, now)


def known_pictures(folder: Path) -> tuple[Picture, ...]:
    """Return the pictures of the collection in ``folder``, none where there is no collection.

    Nothing is locked, made or written. Raises CollectionError where it cannot be read.
    """
    return tuple(_read(folder.expanduser()).tables.pictures.records.values())


def locked(folder: Path) -> FileLock:
    """Return the lock of a collection, taken. Raises CollectionError where it is taken."""
    try:
        return _lock(folder)
    except Timeout as error:
        raise CollectionError(str(folder), "open in another program", "Close it there") from error
    except OSError as error:
        raise not_made(folder, error) from error


def release(lock: FileLock) -> None:
    """Let other programs write; where the system refuses, they may as soon as this one ends."""
    with suppress(OSError):
        lock.release()


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise not_made(folder, error) from error


def _lock(folder: Path) -> FileLock:
    """Return the lock, taken. Raises Timeout where another has it, else OSError.

    It is the system's own, which ends with its program; where a file system has none, a file
    that names the program stands for it, and is passed over once that has ended.
    """
    lock = FileLock(folder / LOCK, thread_local=False)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        lock.acquire(timeout=0)
    return lock


def _opened(folder: Path, lock: FileLock, now: Callable[[], datetime]) -> OpenFolder:
    try:
        store = _read(folder)
        if store.unread is not None:
            release(lock)
            return OpenFolder(store, None, (_newer(folder, store.unread),))
        return OpenFolder(store, lock, _prepare(folder, store, now))
    except OSError as error:
        release(lock)
        raise not_made(folder, error) from error
    except BaseException:
        release(lock)
        raise


def _read(folder: Path) -> Store:
    file = folder / FILE
    try:
        store = Store(AtomicStorage(file))
    except CollectionError as error:
        raise DamagedError(error.where, error.what, error.mend or _offer(folder)) from error
    if store.is_new and backups.backups(folder):
        raise DamagedError(str(file), "the file is gone", _offer(folder))
    return store


def _offer(folder: Path) -> str:
    left = "It was left as it is"
    if not backups.backups(folder):
        return f"{left}; there is no backup"
    copy = backups.newest_good(folder)
    if copy is None:
        return f"{left}; no backup can be read"
    at = backups.time_of(copy)
    when = f" ({at:%Y-%m-%d %H:%M} UTC)" if at else ""
    back = f"spinery restore --collection {shlex.quote(str(folder))}"
    return f"{left}. {back} goes back to the newest good backup{when}"


def _newer(folder: Path, unread: int) -> str:
    lost = "" if not unread else f" Of its records this one cannot show {unread}."
    return (
        f"{folder}: written by a newer Spinery than this one (which writes schema "
        f"{schema.SCHEMA}), so nothing can be changed here.{lost} Install the newer program."
    )


def _prepare(folder: Path, store: Store, now: Callable[[], datetime]) -> tuple[str, ...]:
    """Make what is missing; keep a copy of what was there before anything changes."""
    notes: tuple[str, ...] = ()
    try:
        for name in FOLDERS:
            (folder / name).mkdir(exist_ok=True)
        force_folder(folder)
    except OSError as error:
        raise not_made(folder, error) from error
    if store.is_outdated:
        try:
            backups.keep(folder / FILE, now())
        except OSError as error:  # its old form is written over only once there is a copy of it
            raise not_written(folder / BACKUPS, error) from error
    elif not store.is_new:
        notes = _back_up(folder / FILE, now())
    if store.is_new or store.is_outdated:
        try:
            store.save()
        except UnconfirmedError as doubt:
            notes = (*notes, str(doubt))
    sweep(folder, store.tables)
    return notes


def _back_up(file: Path, now: datetime) -> tuple[str, ...]:
    try:
        backups.keep(file, now)
    except NotForced as error:
        return (f"{file.parent / BACKUPS}: the disk did not confirm a backup ({reason(error)}).",)
    except OSError as error:
        return (f"{file.parent / BACKUPS}: no backup could be written ({reason(error)}).",)
    return ()
