"""``spinery history``: what was done, to the collection or to a game, and going back to it."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Sequence

from engine import InputError
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.told import told
from tui.words import step_words, when


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("game", nargs="?", metavar="GAME", help="of this game only: its id or title")
    one.add_argument(
        "--to",
        type=int,
        metavar="N",
        help="go back, or forth, to where things stood after change N of the list; 0: before all",
    )


def run(asked: Namespace) -> Answer:
    """Tell it, or go there."""
    if asked.game and asked.to is not None:
        raise InputError("--to", "goes with no game", "Leave the game out: all is gone back to")
    with opened(asked) as shop:
        if asked.to is not None:
            step = shop.history.go_to(asked.to)
            words = [f"{step_words('Went', step)}.", *step.differs]
            return Answer(words, {"went": told(step)})
        if asked.game:
            events = shop.history.of_game(asked.game)
            lines = [
                line
                for one in events
                for line in _lines(f"{when(one.at)}  {one.words}", one.differs)
            ]
            return Answer(lines, {"events": told(events)}, DONE)
        changes = shop.history.lines()
    lines = []
    for one in changes:
        undone = " (taken back)" if one.undone else ""
        lines += _lines(f"{one.number:>4}  {when(one.at)}  {one.words}{undone}", one.differs)
    data = {"changes": told(changes)}
    return Answer(lines or ["Nothing was done yet."], data, DONE if changes else NOTHING)


def _lines(head: str, differs: Sequence[str]) -> list[str]:
    return [head, *(f"        {line}" for line in differs)]


COMMAND = Command("history", "show what was done, and go back to a change", run, add)
