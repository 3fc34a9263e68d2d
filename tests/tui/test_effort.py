"""Counts the keys from opening a collection of sixty games to all full sheets pressed."""

from __future__ import annotations

from pathlib import Path

from PIL import Image

from engine import open_workshop
from tests.tui.driving import at_work
from tests.tui.fake import FakeWorkshop
from tests.tui.made_up import FIRST, SECOND
from tui.screens.games import is_unfinished

GAMES = 60
KEYS_A_GAME = 1.5
"""The most that the project allows itself."""


async def test_sure_games_a_batch_at_a_time_take_22_keys() -> None:
    workshop = FakeWorkshop(GAMES)
    async with at_work(workshop) as hand:
        for _ in range(10):
            await hand.do("accept", "accept_sure")
        await hand.do("sheets", "press")
        assert len(hand.pressed) == 22
    assert len(workshop.sheets.report().pressed) == 10


async def test_sixty_games_looked_at_one_by_one_take_72_keys(tmp_path: Path) -> None:
    """On a real collection: 60 accepted, 10 batches brought, Sheets, Press."""
    titles = [f"{FIRST[n % 10]} {SECOND[n // 10]}" for n in range(GAMES)]
    listed = tmp_path / "list.txt"
    listed.write_text("\n".join(titles) + "\n")
    pictures = tmp_path / "pictures"
    pictures.mkdir()
    for n, title in enumerate(titles):
        Image.new("RGB", (180, 156), (4 * n, 90, 255 - 4 * n)).save(pictures / f"{title}.jpg")
    workshop = open_workshop(tmp_path / "shelf")
    try:
        assert workshop.games.intake(listed, pictures, "snap-shell").matched == GAMES
        async with at_work(workshop) as hand:
            while any(is_unfinished(game) for game in workshop.games.lines()):
                await hand.do("accept")
                assert len(hand.pressed) <= GAMES * KEYS_A_GAME
            await hand.do("sheets", "press")
            assert len(hand.pressed) == 72
            report = workshop.sheets.report()
            assert report.pressed
            assert not report.ready
            assert all(Path(sheet.file).is_file() for sheet in report.pressed)
            assert (
                sum(len(sheet.placements) for sheet in report.pressed)
                + sum(len(sheet.placements) for sheet in report.open)
                == GAMES
            )
    finally:
        workshop.close()
