"""``spinery where``: find a game on the shelf by a few words of its title."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from engine import InputError
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.told import told
from tui.roomwords import found_words


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("words", nargs="+", metavar="TITLE", help="a title, or some of it")


def run(asked: Namespace) -> Answer:
    """Tell where the games are that are meant, the likeliest first."""
    words = " ".join(asked.words).strip()
    if not words:
        raise InputError("where", "no title is given", "Give one, or some of it")
    with opened(asked) as shop:
        found = shop.room.where(words)
    lines = [line for one in found for line in found_words(one)]
    return Answer(
        lines or [f"{words}: no title is like that."],
        {"games": [told(one) for one in found]},
        DONE if found else NOTHING,
    )


COMMAND = Command("where", "find a game on the shelf", run, add)
