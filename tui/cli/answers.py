"""What a command is, what it answers, and its exit codes."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

from tui.ending import say
from tui.terminal import is_terminal

DONE, NOTHING, BAD_INPUT = 0, 1, 2
STOPPED_WORDS = "Stopped. What was done before is kept."


class Answer(NamedTuple):
    """What a command has to say."""

    words: list[str]
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


def counted(what: str) -> Callable[[int, int], None] | None:
    """Return a progress line on a terminal, nothing where no one watches."""
    if not is_terminal(sys.stderr):
        return None

    def tell(done: int, of: int) -> None:
        end = "\n" if done == of else ""
        say(f"\r{what} {done} of {of}", end=end)

    return tell
