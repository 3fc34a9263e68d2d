"""Finding a collection and opening it: for one command, or in the terminal program."""

from __future__ import annotations

import gc
import os
import sys
from argparse import Namespace
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from engine import (
    DamagedError,
    InputError,
    Workshop,
    copies,
    holds_collection,
    last_opened,
    open_workshop,
    remember,
    restore,
)
from tui import log
from tui.cli.keyfile import own_keys
from tui.ending import FAILED, say, told_to
from tui.growing import growing
from tui.terminal import this_terminal
from tui.words import went_back

LINES_ONLY = frozenset({"", "dumb", "unknown", "vt52", "vt100", "vt102"})
"""Names (terminfo's) of terminals on which nothing can be drawn in colour and Unicode."""


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
    """Open the collection that a command is for; where it is none yet, ``make`` it or refuse."""
    folder = folder_of(asked)
    if not make and not holds_collection(folder):
        raise InputError(str(folder), "holds no collection", f"Open it once: spinery {folder}")
    workshop = open_workshop(folder)
    for note in workshop.notes:
        say(note)
    try:
        yield workshop
    finally:
        workshop.close()
    remember(folder)


def show(folder: Path) -> int:
    """Open a collection in the terminal program; return the exit code.

    Raises InputError where that cannot be shown.
    """
    name = os.environ.get("TERM", "dumb")
    if name in LINES_ONLY:
        raise InputError(
            f"TERM={name}", "this terminal shows lines of text only", "spinery --plain works in it"
        )
    if not sys.stdin.isatty() or not sys.stdout.isatty():
        raise InputError(
            "", "The terminal program needs a terminal", "spinery --plain works without one"
        )
    keys = own_keys()
    with growing():
        workshop = _opened_or_restored(folder)
    try:
        remember(folder)
        with growing():
            # Textual takes a fifth of a second to import: a command that only prints goes without.
            from tui.app import SpineryApp

        gc.freeze()  # it stays until the program ends, and is not looked through after keys
        app = SpineryApp(workshop, terminal=this_terminal(), keys=keys)
        with told_to(app.end):
            app.run()
        if app.return_code == 1:  # Textual has shown the fault
            say(f"What was saved is unharmed. What to report stands in {log.path()}.")
            return FAILED
        return app.return_code or 0
    finally:
        workshop.close()


def _opened_or_restored(folder: Path) -> Workshop:
    """Open a collection; one that is damaged goes back to its newest good backup if so answered."""
    try:
        return open_workshop(folder)
    except DamagedError as error:
        good = next((one for one in copies(folder) if one.games is not None), None)
        if good is None or not sys.stdin.isatty():
            raise
        say(error)
        if input("Go back to it now? The damaged file is kept. [y/N] ").strip().lower() != "y":
            raise
        say(went_back(restore(folder)))
        return open_workshop(folder)
