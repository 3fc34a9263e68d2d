"""Backlog: finding, marking and acting on what is marked."""

from __future__ import annotations

from engine.model import Stage
from tests.tui.driving import at_work
from tests.tui.fake import FakeWorkshop


async def test_wide_screens_show_more_columns_and_the_decisions() -> None:
    async with at_work(size=(80, 24)) as hand:
        await hand.do("backlog")
        assert "Maker" not in hand.sees()
        assert not hand.screen.query_one("Decisions").display
    async with at_work(size=(140, 40)) as hand:
        await hand.do("backlog")
        assert "Maker" in hand.sees()
        assert "Quayworks" in hand.sees()
        await hand.press("down")
        assert "Harbour Bay" in hand.sees("Decisions")


async def test_marks_that_the_filter_hides_are_counted_and_acted_on() -> None:
    async with at_work() as hand:
        await hand.do("backlog", "mark", "filter")
        await hand.type("moss bay")
        await hand.press("enter")
        await hand.do("mark")
        assert "2 marked, 1 of them not shown" in hand.sees("#status")
        await hand.do("bring")
        assert hand.workshop.batch.games() == ("lantern-bay", "moss-bay")


async def test_all_marked_are_put_in_another_case() -> None:
    workshop = FakeWorkshop(8)
    async with at_work(workshop) as hand:
        await hand.do("backlog", "mark_all", "change_case")
        assert "Case of 8 games" in hand.sees()
        await hand.press("down", "enter")
        assert {game.case for game in workshop.games.lines()} == {"soft-cassette"}


async def test_while_words_are_typed_letters_are_words() -> None:
    async with at_work() as hand:
        await hand.do("backlog", "filter")
        await hand.type("my")
        assert not hand.workshop.calls
        assert "Mark all" not in hand.sees("KeyBar"), "the footer shows only what works now"
        await hand.do("clear")
        assert "60 of 60" in hand.sees("#status")
        assert not hand.screen.query_one("#filter").display


async def test_a_filter_that_finds_nothing_says_so() -> None:
    async with at_work() as hand:
        await hand.do("backlog", "filter")
        await hand.type("zzz")
        assert "No game is like that." in hand.sees()


async def test_the_cursor_stays_on_its_game_when_the_order_changes() -> None:
    async with at_work() as hand:
        await hand.do("backlog")
        await hand.press("down", "down")
        assert hand.current == "tin-bay"
        await hand.do("sort")
        assert hand.current == "tin-bay"


async def test_reopening_and_dropping_all_marked() -> None:
    workshop = FakeWorkshop()
    async with at_work(workshop) as hand:
        await hand.do("next_batch", "accept_sure", "backlog")
        await hand.do("mark", "mark", "drop", "reopen")
        assert workshop.batch.games() == ("tin-bay", "paper-bay", "glass-bay", "moss-bay")
        assert workshop.progress().stages[Stage.TITLE_SET] == 4
