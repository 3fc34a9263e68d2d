"""``spinery ink``: how much ink inserts and sheets take."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.options import add_games
from tui.cli.told import told
from tui.roomwords import ink_lines


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    add_games(one, "*")


def run(asked: Namespace) -> Answer:
    """Tell the ink of some games, or of everything that waits for a sheet or lies on one."""
    with opened(asked) as shop:
        found = () if asked.games else shop.sheets.report()
        sheets = (*found.ready, *found.open, *found.pressed) if found else ()
        summary = shop.ink.report(asked.games, sheets)
    words = ink_lines(summary)
    if not summary.inserts:
        words.append("Name games to see theirs.")
    return Answer(words, told(summary), DONE if summary.inserts else NOTHING)


COMMAND = Command("ink", "tell how much ink inserts and sheets take", run, add)
