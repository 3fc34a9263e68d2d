"""Opening a collection's folder: made on first use, locked, read, backed up."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from filelock import FileLock, Timeout

from engine.collection import backups
from engine.collection.files import discard, force_folder, not_made, reason, unfinished_in
from engine.collection.folders import BACKUPS, FILE, FOLDERS, LOCK, refuse_links
from engine.collection.pages import keep_pages
from engine.collection.storage import AtomicStorage
from engine.collection.store import Store
from engine.model import Picture
from engine.model.errors import CollectionError


class OpenFolder(NamedTuple):
    """A collection's folder, ready to be worked in."""

    store: Store
    lock: FileLock | None
    """None where this program may only read."""
    notes: tuple[str, ...]
    """What the person should know about this opening, a sentence each."""


def open_folder(folder: Path, now: Callable[[], datetime]) -> OpenFolder:
    """Make or open the collection in ``folder``.

    Raises CollectionError if it can be neither made nor read.
    """
    _make_folder(folder)
    refuse_links(folder)
    lock, notes = _lock(folder)
    try:
        store = _read(folder)
        if lock is not None:
            notes += _prepare(folder, store, now)
    except BaseException:
        if lock is not None:
            lock.release()
        raise
    return OpenFolder(store, lock, notes)


def known_pictures(folder: Path) -> tuple[Picture, ...]:
    """Return the pictures of the collection in ``folder``, none where there is no collection.

    Nothing is locked, made or written. Raises CollectionError where it cannot be read.
    """
    return tuple(_read(folder.expanduser()).tables.pictures.records.values())


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise not_made(folder, error) from error


def _lock(folder: Path) -> tuple[FileLock | None, tuple[str, ...]]:
    lock = FileLock(folder / LOCK, thread_local=False)
    try:
        lock.acquire(timeout=0)
    except Timeout:
        words = "open in another program, so nothing can be changed here. Close it there first."
        return None, (f"{folder}: {words}",)
    except OSError as error:
        if not (folder / FILE).exists():
            raise not_made(folder, error) from error
        return None, (f"{folder}: it may not be written, so nothing can be changed here.",)
    return lock, ()


def _read(folder: Path) -> Store:
    file = folder / FILE
    copies = backups.backups(folder)
    try:
        store = Store(AtomicStorage(file))
    except CollectionError as error:
        raise CollectionError(error.where, error.what, error.mend or _offer(copies)) from error
    if store.is_new and copies:
        raise CollectionError(str(file), "the file is gone", _offer(copies))
    return store


def _offer(copies: list[Path]) -> str:
    left = "It was left as it is"
    if not copies:
        return f"{left}; there is no backup"
    return f"{left}. To go back to the last backup, copy {copies[0]} over it"


def _prepare(folder: Path, store: Store, now: Callable[[], datetime]) -> tuple[str, ...]:
    """Make what is missing; keep a copy of what was there before anything changes."""
    notes: tuple[str, ...] = ()
    try:
        for name in FOLDERS:
            (folder / name).mkdir(exist_ok=True)
        force_folder(folder)
        for name in ("", *FOLDERS):
            for left in unfinished_in(folder / name):
                discard(left)
    except OSError as error:
        raise not_made(folder, error) from error
    if not store.is_new:
        notes = _back_up(folder / FILE, now())
    if store.is_new or store.is_outdated:
        store.save()
    keep_pages(folder, store.tables.sheets.records.values())
    return notes


def _back_up(file: Path, now: datetime) -> tuple[str, ...]:
    try:
        backups.keep(file, now)
    except OSError as error:
        return (f"{file.parent / BACKUPS}: no backup could be written ({reason(error)}).",)
    return ()
