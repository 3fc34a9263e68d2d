"""``spinery fit``: note that inserts are in their cases."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli.answers import Answer, Command
from tui.cli.opening import opened
from tui.cli.options import add_games
from tui.cli.progress import standing


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    add_games(one, "+")


def run(asked: Namespace) -> Answer:
    """Note it."""
    with opened(asked) as shop:
        return standing(shop, shop.sheets.fit(asked.games))


COMMAND = Command("fit", "note that inserts are in their cases", run, add)
