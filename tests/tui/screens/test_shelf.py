"""The Shelf: going from game to game by key and by mouse."""

from __future__ import annotations

from tests.tui.conftest import AtWork
from tui.widgets.shelf import ShelfPicture


async def test_the_arrow_keys_go_along_the_shelf(at_work: AtWork) -> None:
    async with at_work(rests=True) as hand:
        await hand.do("shelf")
        games = hand.workshop.shelf.order()
        await hand.press("right", "right", "left")
        assert hand.screen.current_game == games[1]
        await hand.press("pagedown")
        assert hand.screen.current_game == games[11]
        await hand.press("end", "right", "home", "left", "down")
        assert hand.screen.current_game == games[0], "one row is all there is"


async def test_slash_finds_a_game_by_a_few_letters(at_work: AtWork) -> None:
    async with at_work("batch", rests=True) as hand:
        await hand.do("shelf", "filter")
        await hand.type("mos par")
        await hand.do("choose")
        assert hand.screen.current_game == "moss-parade", "the Bench was at another"
        await hand.do("to_bench")
        assert hand.current == "moss-parade"
        await hand.press("up")
        at = hand.current
        await hand.do("shelf")
        assert hand.screen.current_game == at


async def test_a_click_looks_at_a_game(at_work: AtWork) -> None:
    async with at_work(rests=True) as hand:
        await hand.do("shelf")
        picture = hand.screen.query_one(ShelfPicture)
        game = hand.workshop.shelf.order()[5]
        spot, shown = picture.spots[game], picture.picture.region
        x = shown.x - picture.region.x + int((spot.x + spot.width / 2) * shown.width)
        y = shown.y - picture.region.y + int((spot.y + spot.height / 2) * shown.height)
        await hand.click(picture, x, y)
        assert hand.screen.current_game == game


async def test_an_empty_collection_has_an_empty_shelf(at_work: AtWork) -> None:
    async with at_work("empty") as hand:
        await hand.do("shelf")
        assert "No games yet." in hand.sees("ShelfPicture")
        assert "Next clash" not in hand.sees("KeyBar")
