"""Which collection was opened last: the one thing kept outside a collection's folder."""

from __future__ import annotations

import os
from pathlib import Path

from engine.collection.backups import backups
from engine.collection.files import write_whole
from engine.collection.folders import FILE


def _note() -> Path:
    from platformdirs import user_state_path

    return user_state_path("spinery") / "last-opened"


def remember(folder: Path) -> None:
    """Note that this collection was opened. Fails in silence: it is a convenience."""
    note, folder = _note(), folder.resolve()
    if last_opened() == folder:
        return
    try:
        note.parent.mkdir(parents=True, exist_ok=True)
        write_whole(note, (os.fsencode(folder), b"\n"))
    except OSError:
        return


def last_opened() -> Path | None:
    """Return the collection last opened, or None if there is none or the note cannot be read."""
    try:
        said = _note().read_bytes().strip()
    except OSError:
        return None
    return Path(os.fsdecode(said)) if said else None


def holds_collection(folder: Path) -> bool:
    """Return whether a folder holds a collection, or what is left of one."""
    folder = folder.expanduser()
    return (folder / FILE).is_file() or bool(backups(folder))
