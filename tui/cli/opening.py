"""Finding a collection, and opening it for one command."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from engine import InputError, holds_collection, last_opened, remember
from tui.ending import say

if TYPE_CHECKING:
    from engine import Workshop


def folder_to_hand() -> Path | None:
    """Return the current folder if it holds a collection, else the one last opened, or None."""
    folders = (Path.cwd(), last_opened())
    return next((one for one in folders if one is not None and holds_collection(one)), None)


def usual_folder() -> Path:
    """Return the folder to work in where none was given. Raises InputError where there is none."""
    folder = folder_to_hand()
    if folder is None:
        raise InputError(
            "",
            "No collection is here, and none was opened before",
            "Give its folder: spinery FOLDER",
        )
    return folder


def folder_of(asked: Namespace) -> Path:
    """Return the folder that a command is for."""
    return asked.collection or usual_folder()


@contextmanager
def opened(asked: Namespace, *, make: bool = False) -> Iterator[Workshop]:
    """Open the collection that a command is for; where it is none yet, ``make`` it or refuse.

    One that the command is handed as its ``shop`` stays open.
    """
    if asked.shop is not None:
        yield asked.shop
        return
    folder = folder_of(asked)
    if not make and not holds_collection(folder):
        raise InputError(str(folder), "holds no collection", f"Open it once: spinery {folder}")
    from engine import open_workshop

    workshop = open_workshop(folder)
    for note in workshop.notes:
        say(note)
    try:
        yield workshop
    finally:
        workshop.close()
    remember(folder)
