"""Files that are copied into a collection, named by what they hold."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from engine.collection.files import reason, write_in
from engine.model.errors import FontError, InputError, PictureError

DIGITS = 20
"""Hexadecimal digits of the SHA-256 that name a file: 80 bits, so that among a million files
two names meet by chance less than once in a million million times."""

_CHUNK = 1 << 20


class Sort(NamedTuple):
    """What is copied in: what it is called, and how a file that cannot be read is refused."""

    name: str
    refusal: type[InputError]


PICTURE = Sort("picture", PictureError)
FONT = Sort("font", FontError)


def is_whole(path: Path) -> bool:
    """Return whether a file is there and holds what its name says."""
    try:
        return _digest_of(path) == path.stem
    except OSError:
        return False


def content_name(path: Path, suffix: str = "") -> str:
    """Return the name of ``path`` in a collection: its content's digits, and a suffix.

    ``suffix`` is that of the true format; without one the file's own is taken. Raises OSError.
    """
    return f"{_digest_of(path)}{_tidy(suffix or path.suffix)}"


def copy_in(sort: Sort, path: Path, folder: Path, suffix: str = "") -> tuple[Path, bool]:
    """Copy a file into ``folder`` under its content's name; return where, and whether it is new.

    A file that lies there already is not copied again, unless it is damaged; it is not new.

    The copy is not yet forced to the disk. ``suffix`` is that of the true format; without one
    the file's own is taken. Raises the sort's refusal if ``path`` cannot be read,
    CollectionError if ``folder`` cannot be written.
    """
    own = f"Give the {sort.name}'s own path"
    if path.exists() and not path.is_file():
        raise sort.refusal(str(path), "this is no file", own)
    try:
        target = folder / content_name(path, suffix)
        is_new = not target.exists()
        if not is_new and is_whole(target):
            return target, False
        with path.open("rb") as source:
            write_in(target, iter(lambda: source.read(_CHUNK), b""), forced=False)
    except FileNotFoundError as error:
        raise sort.refusal(str(path), "there is no such file", own) from error
    except OSError as error:
        mend = "Give yourself the right to read it"
        raise sort.refusal(str(path), f"it cannot be read ({reason(error)})", mend) from error
    return target, is_new


def _digest_of(path: Path) -> str:
    """Return the hexadecimal digits that name the content of ``path``; raises OSError."""
    found = sha256()
    with path.open("rb") as file:
        while chunk := file.read(_CHUNK):
            found.update(chunk)
    return found.hexdigest()[:DIGITS]


def _tidy(suffix: str) -> str:
    bare = suffix.lower().lstrip(".")
    return f".{bare}" if bare else ""
