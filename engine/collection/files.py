"""Writing to disk so that a death at any moment leaves the old file or the new one.

The new content goes to a file beside the old one, is forced to the disk, and takes the
old one's name in one step (POSIX rename replaces atomically); then the folder itself is
forced, since a name that only stands in memory would be lost with the power.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Iterable
from pathlib import Path

from engine.model.errors import CollectionError

UNFINISHED = ".new"
"""The suffix of a file that is still being written; a death's leftover goes at the next opening."""


def unfinished(path: Path) -> Path:
    """Return the name under which ``path`` is written until it is whole."""
    return path.with_name(f".{path.name}{UNFINISHED}")


def unfinished_in(folder: Path) -> list[Path]:
    """Return what a death left unfinished in ``folder``: no name of it was ever given out."""
    return list(folder.glob(f".*{UNFINISHED}"))


def write_whole(path: Path, chunks: Iterable[bytes]) -> None:
    """Write ``chunks`` as ``path``, forced to the disk, or leave what was there.

    Raises OSError as the system gives it; the unfinished file is then removed.
    """
    new = unfinished(path)
    try:
        with new.open("wb") as file:
            for chunk in chunks:
                file.write(chunk)
            file.flush()
            os.fsync(file.fileno())
        new.replace(path)
    except OSError:
        discard(new)
        raise
    force_folder(path.parent)


def discard(path: Path) -> None:
    """Remove a file if it is there and can be removed."""
    try:
        path.unlink(missing_ok=True)
    except OSError:
        return


def force_folder(folder: Path) -> None:
    """Force the names in ``folder`` to the disk, where the system lets a program do so."""
    if os.name == "nt":  # Windows opens no folders and orders its renames itself
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


_ROOM = "Free some space and do it again"
_RIGHT = "Give yourself the right to write there"
_SAID = {
    errno.ENOSPC: ("the disk is full", _ROOM),
    errno.EDQUOT: ("your share of the disk is used up", _ROOM),
    errno.EFBIG: ("the file may not grow this large here", _ROOM),
    errno.EACCES: ("it may not be written", _RIGHT),
    errno.EPERM: ("it may not be written", _RIGHT),
    errno.EROFS: ("the disk may only be read", "Copy the folder to one that can be written"),
    errno.ENOTDIR: ("a part of this path is a file", "Name a folder"),
    errno.EEXIST: ("this is a file", "Name a folder"),
}


def not_made(path: Path, error: OSError) -> CollectionError:
    """Return the sentence for a folder or a lock that could not be made."""
    what, mend = _SAID.get(error.errno or 0, (_cannot(error), "See to the disk and do it again"))
    return CollectionError(str(path), what, mend)


def not_written(path: Path, error: OSError) -> CollectionError:
    """Return the sentence for a write that failed; it says that nothing saved was lost."""
    said = not_made(path, error)
    return CollectionError(said.where, said.what, f"{said.mend}; what was saved is unharmed")


def reason(error: OSError) -> str:
    """Return what the system says, to stand in brackets."""
    return (error.strerror or str(error)).lower()


def _cannot(error: OSError) -> str:
    return f"it could not be written ({reason(error)})"
