"""What a command is, what it answers, and its exit codes."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from tui.ending import say
from tui.terminal import is_terminal

DONE, NOTHING, BAD_INPUT = 0, 1, 2
STOPPED_WORDS = "Stopped. What was done before is kept."


class Answer(NamedTuple):
    """What a command has to say."""

    words: Sequence[str]
    """Lines for a person."""
    data: dict[str, Any]
    """The object that ``--json`` prints."""
    code: int = DONE


def _nothing(_: ArgumentParser) -> None:
    return


class Command(NamedTuple):
    """A command of the command line."""

    name: str
    summary: str
    """What it does, for the help."""
    run: Callable[[Namespace], Answer | None]
    """Does what was asked; None where that has nothing to say."""
    add: Callable[[ArgumentParser], None] = _nothing
    """Adds what it takes."""


def wrote(path: Path) -> Answer:
    """Return that a file was written."""
    return Answer([f"Wrote {path}."], {"file": str(path)})


TENTHS = 10
"""Lines that tell how far something has come where nothing is drawn over."""


def by_tenths(words: str, said: int = 0) -> Callable[[int, int], None]:
    """Return what says how far something has come, a line each tenth after those ``said``.

    ``words`` have two places: for how many are done, and of how many.
    """

    def tell(done: int, of: int) -> None:
        nonlocal said
        if (tenth := TENTHS * done // of) > said:
            said = tenth
            say(words.format(done, of))

    return tell


def counted(what: str, *, plain: bool) -> Callable[[int, int], None] | None:
    """Return a progress line on a terminal, lines where it is plain, nothing if no one watches."""
    if plain:
        return by_tenths(f"{what} {{}} of {{}}.")
    if not is_terminal(sys.stderr):
        return None

    def tell(done: int, of: int) -> None:
        end = "\n" if done == of else ""
        say(f"\r{what} {done} of {of}", end=end)

    return tell
