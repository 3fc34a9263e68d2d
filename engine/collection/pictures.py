"""Pictures of the collection: copied in, named by what they hold."""

from __future__ import annotations

from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

from engine.collection.files import not_written, reason, write_whole
from engine.model.errors import PictureError

FOLDER = "pictures"
DIGITS = 20
"""Hexadecimal digits of the SHA-256 that name a picture: 80 bits, so that among a million
pictures two names meet by chance less than once in a million million times."""

_CHUNK = 1 << 20


def digest_of(path: Path) -> str:
    """Return the hexadecimal digits that name the content of ``path``; raises OSError."""
    found = sha256()
    for chunk in _chunks(path):
        found.update(chunk)
    return found.hexdigest()[:DIGITS]


def content_name(path: Path, suffix: str = "") -> str:
    """Return the name of ``path`` in a collection: its content's digits, and a suffix.

    ``suffix`` is that of the true format; without one the file's own is taken. Raises OSError.
    """
    return f"{digest_of(path)}{_tidy(suffix or path.suffix)}"


def copy_in(path: Path, folder: Path, suffix: str = "") -> str:
    """Copy the picture at ``path`` into ``folder`` under its content's name; return the name.

    ``suffix`` is as for ``content_name``. A picture that is there already is not copied
    again. Raises PictureError if ``path`` cannot be read, CollectionError if ``folder``
    cannot be written.
    """
    if path.exists() and not path.is_file():
        raise PictureError(str(path), "this is no file", "Give the picture's own path")
    try:
        size, name = path.stat().st_size, content_name(path, suffix)
    except OSError as error:
        raise _not_read(path, error) from error
    target = folder / name
    if not (target.is_file() and target.stat().st_size == size):
        _copy(path, target)
    return target.name


def _copy(path: Path, target: Path) -> None:
    try:
        source = path.open("rb")
    except OSError as error:
        raise _not_read(path, error) from error
    with source:
        try:
            write_whole(target, iter(lambda: source.read(_CHUNK), b""))
        except OSError as error:
            raise not_written(target, error) from error


def _chunks(path: Path) -> Iterator[bytes]:
    with path.open("rb") as file:
        while chunk := file.read(_CHUNK):
            yield chunk


def _tidy(suffix: str) -> str:
    bare = suffix.lower().lstrip(".")
    return f".{bare}" if bare else ""


def _not_read(path: Path, error: OSError) -> PictureError:
    if isinstance(error, FileNotFoundError):
        return PictureError(str(path), "there is no such file", "Give the picture's own path")
    mend = "Give yourself the right to read it"
    return PictureError(str(path), f"it cannot be read ({reason(error)})", mend)
