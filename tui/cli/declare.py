"""``spinery declare``: say that games are printed or fitted already, or not wanted."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from engine import DECLARABLE, Stage
from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.cli.options import add_games
from tui.cli.progress import standing

NONE = "none"
"""The word that takes back what was declared."""


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument(
        "stage",
        choices=[*map(str, DECLARABLE), NONE],
        help=f"where they stand whatever the sheets say; {NONE} takes that back",
    )
    add_games(one, "+")


def run(asked: Namespace) -> Answer:
    """Say it."""
    stage = None if asked.stage == NONE else Stage(asked.stage)
    with opened(asked) as shop:
        return standing(shop, shop.declaring.declare(asked.games, stage).notes)


COMMAND = Command(
    "declare", "say that games are printed or fitted already, or not wanted", run, add
)
