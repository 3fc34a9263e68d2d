"""``spinery proof``: write the picture of an insert."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli.answers import Answer, Command, wrote
from tui.cli.opening import opened
from tui.cli.options import add_out, number


def add(one: ArgumentParser) -> None:
    """Add what it takes."""
    one.add_argument("game", metavar="GAME", help="a game's id or title")
    add_out(one, "FILE.png", "where to write it", required=True)
    one.add_argument("--folded", action="store_true", help="as it looks in the case")
    one.add_argument("--ppi", type=number, default=150.0, help="pixels to the inch (150)")


def run(asked: Namespace) -> Answer:
    """Write it."""
    with opened(asked) as shop:
        shop.proofs.write(
            asked.game, asked.out, asked.ppi, folded=asked.folded, replace=asked.replace
        )
    return wrote(asked.out)


COMMAND = Command("proof", "write the picture of an insert", run, add)
