"""``spinery batch``: today's batch, and the games to finish next."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from engine import InputError
from tui.aloud import Line
from tui.cli.answers import DONE, NOTHING, Answer, Command
from tui.cli.opening import opened
from tui.cli.options import add_games
from tui.cli.told import told
from tui.words import outlook_words


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    add_games(one, "*")
    one.add_argument(
        "--next",
        action="store_true",
        help="bring the games to finish next so that sheets fill, of GAME... if any are named",
    )


def run(asked: Namespace) -> Answer:
    """Show the batch, or bring the next, and say what comes of it."""
    if asked.games and not asked.next:
        raise InputError(asked.games[0], "is only brought in", "Add --next")
    with opened(asked) as shop:
        games = shop.batch.bring_next(asked.games or None) if asked.next else shop.batch.games()
        outlook = shop.batch.outlook()
        titles = shop.games.titles()
    data = {"games": list(games), **told(outlook)}
    return Answer(
        [*(Line(game, titles[game]) for game in games), outlook_words(outlook)],
        data,
        DONE if games else NOTHING,
    )


COMMAND = Command("batch", "show today's batch, or bring the games to finish next", run, add)
