"""How many keys a game takes where many need a decision, and the first sheet from nothing.

    python -m tests.bench.keys

Goes through all listed games of the demo as a person would who trusts what is called sure and
looks at the rest: what is sure is accepted a batch at a time, each game in doubt is fitted another
way and then accepted, and the full sheets are pressed at the end. Then counts what it takes from an
empty folder to the first pressed sheet, besides typed paths: what to open, the first steps with a
list and a folder of pictures, six games, the sheet.
"""

from __future__ import annotations

import asyncio
from contextlib import chdir, closing
from pathlib import Path
from tempfile import TemporaryDirectory

from engine import Workshop, open_workshop
from engine.demo import make_demo
from engine.model import Stage
from tests.conftest import draw_cover
from tests.tui.driving import Hand, driven
from tests.tui.shelf import FIRST
from tests.tui.start_stories import paste
from tui.welcome import Welcome

OPENING = ("down", "down", "enter", "enter")
"""The keys that choose a new collection and its folder."""

MOST_TO_BEGIN = 40
"""Keys that the project allows itself from an empty folder to the first pressed sheet."""

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
    with TemporaryDirectory() as folder:
        print(asyncio.run(begun(Path(folder))))


async def begun(folder: Path) -> str:
    """Return what the first sheet took, from an empty folder."""
    (folder / "covers").mkdir()
    titles = [f"{one} Bay" for one in FIRST]
    for title in titles:
        draw_cover(folder / "covers" / f"{title}.png", (90, 20, 20))
    (folder / "games.txt").write_text("\n".join(titles), encoding="utf-8")
    app = Welcome()
    with chdir(folder):
        async with app.run_test() as pilot:
            for key in OPENING:
                await pilot.press(key)
                await app.workers.wait_for_complete()
                await pilot.pause()
        assert app.return_value is not None
    with closing(open_workshop(app.return_value.folder)) as workshop:
        async with driven(workshop, leads=True) as hand:
            for path in ("games.txt", "covers"):
                await hand.do("choose")
                await paste(hand, str(folder / path))
                await hand.do("choose", "choose")
            for _ in ("case", "storage", "paper"):
                await hand.do("choose", "choose")
            await hand.do("choose", "choose", "leave", "choose")
            await hand.do(*["accept"] * len(titles), "sheets", "press")
            assert len(workshop.sheets.report().pressed) == 1, "the sheet is not pressed"
            keys = len(OPENING) + len(hand.pressed)
    assert keys <= MOST_TO_BEGIN, f"{keys} keys are more than {MOST_TO_BEGIN}"
    return f"From an empty folder to the first pressed sheet: {keys} keys besides typed paths"


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
