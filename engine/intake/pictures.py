"""The pictures of a folder, by their file names."""

from __future__ import annotations

import os
from pathlib import Path

from engine.model.errors import InputError
from engine.model.picturekinds import promises_picture

_PASSED_OVER = frozenset({"__macosx"})


def find_pictures(folder: Path) -> tuple[Path, ...]:
    """Return the pictures in ``folder`` and the folders below it, 2 before 10.

    Hidden files and folders are passed over, and links to folders not followed. Raises
    InputError if ``folder`` is missing, is a file or cannot be read.
    """
    if not folder.exists():
        raise InputError(str(folder), "there is no such folder", "Name the folder of pictures")
    if not folder.is_dir():
        raise InputError(str(folder), "this is a file", "Name the folder that it lies in")
    from natsort import natsorted, ns

    found = [path for path in _walk(folder) if promises_picture(path) and path.is_file()]
    return tuple(
        natsorted(found, key=lambda path: path.relative_to(folder).parts, alg=ns.IGNORECASE)
    )


def _walk(folder: Path) -> list[Path]:
    found: list[Path] = []
    for here, folders, files in os.walk(folder, onerror=_refuse):
        folders[:] = [name for name in folders if _wanted(name)]
        found += [Path(here, name) for name in files if _wanted(name)]
    return found


def _wanted(name: str) -> bool:
    return not name.startswith(".") and name.lower() not in _PASSED_OVER


def _refuse(error: OSError) -> None:
    reason = (error.strerror or str(error)).lower()
    mend = "Give yourself the right to read it"
    raise InputError(str(error.filename), f"it cannot be read ({reason})", mend) from error
