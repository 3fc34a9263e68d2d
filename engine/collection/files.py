"""Everything that is written goes to the disk here, whole or not at all.

The new content goes to a file beside the old one, is forced to the disk, and takes the
old one's name in one step (POSIX rename replaces atomically); then the folder itself is
forced, since a name that only stands in memory would be lost with the power. A death at
any instant leaves the old file or the new one.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Collection, Iterable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import NamedTuple

from engine.model.errors import CollectionError, InputError, UnconfirmedError
from engine.model.maker import bears_mark

UNFINISHED = ".new"
"""The suffix of a file that is still being written; a death's leftover goes at the next opening."""

_AT_ONCE = 8
"""So many files are forced side by side: the disk takes several in one step."""


class NotForced(OSError):  # noqa: N818 - what was asked is done
    """The file stands in its place, but its name was not forced to the disk."""


def unfinished(path: Path) -> Path:
    """Return the name under which ``path`` is written until it is whole."""
    return path.with_name(f".{path.name}{UNFINISHED}")


def unfinished_in(folder: Path) -> list[Path]:
    """Return what a death left unfinished in ``folder``: no name of it was ever given out."""
    return list(folder.glob(f".*{UNFINISHED}"))


def write_whole(path: Path, chunks: Iterable[bytes], *, forced: bool = True) -> None:
    """Write ``chunks`` as ``path``, forced to the disk, or leave what was there.

    Whoever writes many files may leave the forcing out and call ``force`` with all of them
    before any is relied on. Raises OSError as the system gives it: NotForced where the new
    file is in place, else the unfinished file is removed and what was there still is.
    """
    new = unfinished(path)
    try:
        with new.open("wb") as file:
            for chunk in chunks:
                file.write(chunk)
            if forced:
                file.flush()
                os.fsync(file.fileno())
        new.replace(path)
    except (OSError, KeyboardInterrupt):
        discard(new)
        raise
    if forced:
        try:
            force_folder(path.parent)
        except OSError as error:
            raise NotForced(*error.args) from error


def write_in(path: Path, chunks: Iterable[bytes], *, forced: bool = True) -> None:
    """Write a file of a collection as ``write_whole`` does, in a folder that may be gone.

    Raises CollectionError where it cannot be written, UnconfirmedError where it is written all
    the same.
    """
    try:
        if not path.parent.exists():
            path.parent.mkdir()
        write_whole(path, chunks, forced=forced)
    except NotForced as error:
        raise not_confirmed(path, error) from error
    except OSError as error:
        raise not_written(path, error) from error


def write_out(path: Path, data: bytes, *, replace: bool = False) -> None:
    """Write a file that a person asks for outside their collection.

    What is there already is written over if Spinery made it, or if the person says ``replace``.
    Raises InputError where it cannot be written, UnconfirmedError as ``write_in`` does.
    """
    if path.exists() and not path.is_file():
        what = "is a folder" if path.is_dir() else "is no file"
        raise InputError(str(path), what, "Give the name of a file")
    if path.exists() and not replace and not _is_ours(path):
        what = "is there already, and Spinery did not make it"
        raise InputError(str(path), what, "Give another name, or --replace to write over it")
    try:
        write_whole(path, (data,))
    except NotForced as error:
        raise not_confirmed(path, error) from error
    except OSError as error:
        what = f"cannot be written ({reason(error)})"
        raise InputError(str(path), what, "Give a folder that may be written") from error


def _is_ours(path: Path) -> bool:
    try:
        return path.stat().st_size == 0 or bears_mark(path.read_bytes())
    except OSError:
        return False


def force(paths: Collection[Path]) -> None:
    """Force files that were written unforced, and their names, to the disk.

    Raises CollectionError that names the one that could not be.
    """
    if not paths:
        return
    folders = sorted({path.parent for path in paths})
    with ThreadPoolExecutor(_AT_ONCE) as pool:
        list(pool.map(_force_file, paths))
    for folder in folders:
        try:
            force_folder(folder)
        except OSError as error:
            raise not_written(folder, error) from error


def _force_file(path: Path) -> None:
    try:
        handle = os.open(path, os.O_RDWR)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
    except OSError as error:
        raise not_written(path, error) from error


def discard(path: Path) -> None:
    """Remove a file if it is there and can be removed."""
    try:
        path.unlink(missing_ok=True)
    except OSError:
        return


class Mark(NamedTuple):
    """What tells a file that was written since from one that was not."""

    number: int
    """Of its inode: each writing makes a new one."""
    size: int
    at: int
    """When it was last written, in ns."""


def mark_of(path: Path) -> Mark:
    """Return the mark of a file. Raises OSError."""
    found = path.stat()
    return Mark(found.st_ino, found.st_size, found.st_mtime_ns)


def force_folder(folder: Path) -> None:
    """Force the names in ``folder`` to the disk, where the system lets a program do so."""
    if os.name == "nt":  # Windows opens no folders and orders its renames itself
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno not in _NO_FOLDERS:
            raise
    finally:
        os.close(handle)


_NO_FOLDERS = {errno.EINVAL, errno.ENOTSUP, errno.ENOSYS}
"""What file systems answer that force no folders (Linux, fsync(2): 'fd is bound to a special file
which does not support synchronization')."""


_ROOM = "Free some space and do it again"
_RIGHT = "Give yourself the right to write there"
_BACK = "Bring it back and do it again"
_SAID = {
    errno.ENOSPC: ("the disk is full", _ROOM),
    errno.EDQUOT: ("your share of the disk is used up", _ROOM),
    errno.EFBIG: ("the file may not grow this large here", _ROOM),
    errno.EACCES: ("it may not be written", _RIGHT),
    errno.EPERM: ("it may not be written", _RIGHT),
    errno.EROFS: ("the disk may only be read", "Copy the folder to one that can be written"),
    errno.ENOENT: ("it is gone, or its folder is", _BACK),
    errno.ENODEV: ("its disk is gone", _BACK),
    errno.ENXIO: ("its disk is gone", _BACK),
    errno.ENOTCONN: ("its disk is gone", _BACK),
    errno.ESTALE: ("its folder is gone", _BACK),
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


def not_confirmed(path: Path, error: OSError) -> UnconfirmedError:
    """Return the sentence for a file that is written, of which the disk did not say that it stays.

    Whether it would outlast a loss of power nobody knows then.
    """
    what = f"this is done and written, but the disk did not confirm it ({reason(error)})"
    return UnconfirmedError(str(path), what, "Copy the collection's folder to another disk")


def reason(error: OSError) -> str:
    """Return what the system says, to stand in brackets."""
    return (error.strerror or str(error)).lower()


def _cannot(error: OSError) -> str:
    return f"it could not be written ({reason(error)})"
