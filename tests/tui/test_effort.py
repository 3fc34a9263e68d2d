"""Counts the keys from opening a collection of sixty games to all full sheets pressed."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from engine import Cancelled, Workshop, open_workshop
from tests.conftest import draw_cover
from tests.tui.driving import driven

pytestmark = pytest.mark.xdist_group("sixty games")  # taken in once

GAMES = 60
KEYS_A_GAME = 1.5
"""The most that the project allows itself."""


@pytest.fixture(scope="session")
def sixty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A collection of sixty games, the pictures of which were all found."""
    folder = tmp_path_factory.mktemp("sixty")
    (folder / "covers").mkdir()
    titles = [f"Lantern Bay {n}" for n in range(1, GAMES + 1)]
    for n, title in enumerate(titles):
        draw_cover(folder / "covers" / f"{title}.png", (4 * n, 90, 255 - 4 * n), (180, 156))
    (folder / "list.txt").write_text("\n".join(titles) + "\n", encoding="utf-8")
    shop = open_workshop(folder / "shelf")
    assert shop.games.intake(folder / "list.txt", folder / "covers", "snap-shell").matched == GAMES
    shop.close()
    return folder / "shelf"


@pytest.fixture
def sixty_games(sixty: Path, tmp_path: Path) -> Iterator[Workshop]:
    shop = open_workshop(Path(shutil.copytree(sixty, tmp_path / "shelf")))
    yield shop
    shop.close()


async def test_sure_games_a_batch_at_a_time_take_22_keys(sixty_games: Workshop) -> None:
    async with driven(sixty_games) as hand:
        for _ in range(10):
            await hand.do("accept", "accept_sure")
        assert len(sixty_games.sheets.report().ready) == 10
        with hand.watch.failing("sheets.press", Cancelled()):
            await hand.do("sheets", "press")
        assert hand.watch.calls.count("sheets.press") == 1
        assert len(hand.pressed) == 22


async def test_sixty_games_looked_at_one_by_one_take_72_keys(sixty_games: Workshop) -> None:
    """60 accepted, 10 batches brought, Sheets, Press."""
    async with driven(sixty_games) as hand:
        while any(game.undecided for game in sixty_games.games.lines()):
            await hand.do("accept")
            hand.send(*["enter"] * sixty_games.setup.settings().batch_size)
            await hand.settle()
            assert len(hand.pressed) <= GAMES * KEYS_A_GAME
        assert len(sixty_games.sheets.report().ready) == 10
        with hand.watch.failing("sheets.press", Cancelled()):
            await hand.do("sheets", "press")
        assert hand.watch.calls.count("sheets.press") == 1
        assert len(hand.pressed) == 72
