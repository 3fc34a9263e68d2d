"""Fonts of the collection, copied in and named by what they hold.

So it prints the same wherever its folder is taken.
"""

from __future__ import annotations

from pathlib import Path

from engine.collection import pictures
from engine.model.errors import FontError, PictureError

FOLDER = "fonts"


def copy_in(path: Path, folder: Path) -> str:
    """Copy a font file into ``folder`` under its content's name; return the name.

    Raises FontError if it cannot be read, CollectionError if the folder cannot be written.
    """
    try:
        return pictures.copy_in(path, folder)
    except PictureError as error:
        raise FontError(error.where, error.what, "Give the font file's own path") from error
