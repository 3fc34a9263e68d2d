"""``spinery history``: what was done, to the collection or to a game, and going back to it."""

from __future__ import annotations

from argparse import ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Sequence
from datetime import date
from itertools import chain

from engine import Day, InputError, RefusedError
from tui.aloud import Line
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.options import whole
from tui.cli.told import told
from tui.words import differ_lines, step_words, when


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("game", nargs="?", metavar="GAME", help="of this game only: its id or title")
    one.add_argument(
        "--to",
        type=whole,
        metavar="N",
        help="go back, or forth, to where things stood after change N of the list; 0: before all",
    )
    one.add_argument("--days", action="store_true", help="list the backups that can be gone to")
    one.add_argument(
        "--day",
        type=_day,
        metavar="YYYY-MM-DD",
        help="go back to how things stood at the last backup until the end of a day",
    )


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise ArgumentTypeError(f"{text} is no day: write it as 2026-03-01") from None


def run(asked: Namespace) -> Answer:
    """Tell it, or go there."""
    ways = [asked.to is not None, asked.day is not None, asked.days]
    if asked.game and any(ways):
        raise InputError(asked.game, "is only told of", "Leave the game out: all is gone back to")
    if sum(ways) > 1:
        raise InputError("--to, --day, --days", "are too much at a time", "Give one of them")
    with opened(asked) as shop:
        if asked.days:
            days = shop.history.days()
            names = [_event(when(one.at), one.name) for one in days]
            code = DONE if days else NOTHING
            return Answer(names or ["No backup is there."], {"days": told(days)}, code)
        if asked.day is not None:
            step = shop.history.go_to_day(_last_until(asked.day, shop.history.days()).name)
            words: Sequence[str] = [
                f"{step.words[0].upper()}{step.words[1:]}.",
                *differ_lines(step.differs),
            ]
            return Answer(words, {"went": told(step)})
        if asked.to is not None:
            step = shop.history.go_to(asked.to)
            words = [f"{step_words('Went', step)}.", *differ_lines(step.differs)]
            return Answer(words, {"went": told(step)})
        if asked.game:
            events = shop.history.of_game(asked.game)
            told_of = [_lines(_event(when(one.at), one.words), one.differs) for one in events]
            return Answer([*chain(*told_of)], {"events": told(events)}, DONE)
        changes = shop.history.lines()
    lines: list[str] = []
    for one in changes:
        undone = " (taken back)" if one.undone else ""
        at, words = when(one.at), f"{one.words}{undone}"
        head = Line(f"{one.number:>4}  {at}  {words}", f"Change {one.number}, {at}: {words}.")
        lines += _lines(head, one.differs)
    data = {"changes": told(changes)}
    return Answer(lines or ["Nothing was done yet."], data, DONE if changes else NOTHING)


def _last_until(day: date, days: Sequence[Day]) -> Day:
    """Return the last backup that was made until the end of a day, by this machine's clock."""
    for one in days:
        if one.at.astimezone().date() <= day:
            return one
    raise RefusedError(str(day), "no backup is as old", "spinery history --days lists them")


def _event(at: str, words: str) -> Line:
    return Line(f"{at}  {words}", f"{at}: {words}.")


def _lines(head: str, differs: Sequence[str]) -> list[str]:
    return [head, *(Line(f"        {one}", one.aloud) for one in differ_lines(differs))]


COMMAND = Command("history", "show what was done, and go back to a change", run, add)
