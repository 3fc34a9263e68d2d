"""``spinery demo``: make the demo collection and open it."""

from __future__ import annotations

import sys
from argparse import ArgumentParser, Namespace
from pathlib import Path

from engine import RefusedError, holds_collection, remember
from tui.cli.answers import Answer, Command
from tui.cli.progress import standing
from tui.cli.showing import show
from tui.ending import say
from tui.terminal import is_terminal

DEMO_FOLDER = Path("harbour-street")
"""Where it is made if nothing else is said."""


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("folder", nargs="?", type=Path, default=DEMO_FOLDER)
    one.add_argument("--no-open", action="store_true", help="stop when it is made")


def run(asked: Namespace) -> Answer | None:
    """Make the collection, unless it is made already, and open it."""
    made = holds_collection(asked.folder)
    if made and asked.no_open:
        raise RefusedError(str(asked.folder), "holds a collection already", "Choose another folder")
    if not made:
        answer = make(asked.folder)
        if asked.no_open:
            return answer
    if code := show(asked.folder):
        raise SystemExit(code)
    return None


def make(folder: Path) -> Answer:
    """Make the collection, and say how it stands."""
    from engine.demo import make_demo

    if is_terminal(sys.stderr):
        say(f"Making the demo in {folder}.")
    workshop = make_demo(folder)
    answer = standing(workshop)
    workshop.close()
    remember(folder)
    return answer


COMMAND = Command("demo", "make the demo collection and open it", run, add)
