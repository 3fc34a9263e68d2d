"""A collection in the terminal program."""

from __future__ import annotations

import gc
import os
import sys
from contextlib import ExitStack
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from engine import DamagedError, InputError, collection_name, remember
from tui import log
from tui.cli.answers import DONE
from tui.cli.keyfile import own_keys
from tui.ending import FAILED, say, told_to
from tui.growing import growing
from tui.terminal import at_terminal, is_terminal, this_terminal

if TYPE_CHECKING:
    from engine import Workshop
    from tui.onscreen import OnScreen

T = TypeVar("T")

LINES_ONLY = frozenset({"", "dumb", "unknown", "vt52", "vt100", "vt102"})
"""Names (terminfo's) of terminals on which nothing can be drawn in colour and Unicode."""


def show(folder: Path) -> int:
    """Open a collection in the terminal program; return the exit code.

    One that is damaged goes back to its newest good backup if so answered. Raises InputError where
    it cannot be shown, and what opening it raises.
    """
    must_draw()
    try:
        return _shown(folder)
    except DamagedError as error:
        _go_back(folder, error)
        return _shown(folder)


def must_draw() -> None:
    """Raise InputError where the terminal program cannot be drawn."""
    name = os.environ.get("TERM", "dumb")
    if name in LINES_ONLY:
        raise InputError(
            f"TERM={name}", "this terminal shows lines of text only", "spinery --plain works in it"
        )
    if not at_terminal():
        raise InputError(
            "", "The terminal program needs a terminal", "spinery --help tells what works without"
        )


def run_on_screen(app: OnScreen[T]) -> tuple[T | None, int]:
    """Run an app; return what it gives back, and the exit code."""
    with told_to(app.end):
        given = app.run()
    if app.return_code == 1:  # Textual has shown the fault
        say(f"What was saved is unharmed. What to report stands in {log.path()}.")
        return given, FAILED
    return given, app.return_code or DONE


def _shown(folder: Path) -> int:
    keys = own_keys()
    # Textual takes a fifth of a second to import: a command that only prints goes without.
    with growing():
        from tui.app import SpineryApp

    with ExitStack() as ended:

        def opened() -> Workshop:
            from engine import open_workshop

            workshop = open_workshop(folder)
            ended.callback(workshop.close)
            remember(folder)
            gc.freeze()  # it stays until the program ends, and is not looked through after keys
            return workshop

        name = collection_name(folder)
        app = SpineryApp(opened, name=name, terminal=this_terminal(), keys=keys)
        _, code = run_on_screen(app)
        if app.failure:
            raise app.failure
        return code


def _go_back(folder: Path, error: DamagedError) -> None:
    """Go back to the newest good backup if so answered, else raise the error again."""
    from engine import copies, restore
    from tui.words import went_back

    good = next((one for one in copies(folder) if one.games is not None), None)
    if good is None or not is_terminal(sys.stdin):
        raise error
    say(error)
    if input("Go back to it now? The damaged file is kept. [y/N] ").strip().lower() != "y":
        raise error
    say(went_back(restore(folder)))
