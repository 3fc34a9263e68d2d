"""How many keys a game takes where many need a decision: python -m tests.bench.keys.

Goes through all listed games of the demo as a person would who trusts what is called sure and
looks at the rest: what is sure is accepted a batch at a time, each game in doubt is fitted another
way and then accepted, and the full sheets are pressed at the end.
"""

from __future__ import annotations

import asyncio
from pathlib import Path
from tempfile import TemporaryDirectory

from engine import Workshop
from engine.demo import make_demo
from engine.model import Stage
from tests.tui.driving import Hand, driven

MOST = 100
"""Batches after which something is wrong."""


def main() -> None:
    """Print the keys, the games and the share of them in doubt."""
    with TemporaryDirectory() as folder:
        workshop = make_demo(Path(folder) / "shelf")
        try:
            print(asyncio.run(gone_through(workshop)))
        finally:
            workshop.close()


async def gone_through(workshop: Workshop) -> str:
    """Return what it took."""
    games = [one for one in workshop.designs.proposals() if one.stage is not Stage.TITLE_SET]
    doubtful = sum(not one.sure for one in games)
    async with driven(workshop, (140, 40)) as hand:
        for _ in range(MOST):
            if not any(line.undecided for line in workshop.games.lines()):
                break
            await through_batch(hand)
        left = sum(line.undecided for line in workshop.games.lines())
        await hand.do("sheets", "press")
        keys = len(hand.pressed)
    return (
        f"{len(games)} games, {doubtful} in doubt ({doubtful / len(games):.0%}), {left} left: "
        f"{keys} keys, {keys / len(games):.2f} a game"
    )


async def through_batch(hand: Hand) -> None:
    """Accept what is sure, go through what is not, bring the next games."""
    await hand.do("accept_sure")
    for _ in range(hand.workshop.setup.settings().batch_size):
        game = hand.screen.game
        if game is None or not hand.screen.sure_targets():
            break
        await hand.do("change_art", "accept")
    await hand.do("next_batch")


if __name__ == "__main__":
    main()
