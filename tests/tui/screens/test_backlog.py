"""Backlog: finding, marking and acting on what is marked."""

from __future__ import annotations

import pytest

from engine import Stage
from tests.tui.conftest import AtWork
from tui.screens.listing import SIGNS, Status


async def test_wide_screens_show_more_columns_and_the_decisions(at_work: AtWork) -> None:
    async with at_work(size=(80, 24)) as hand:
        await hand.do("backlog")
        assert "Maker" not in hand.sees()
        assert not hand.screen.query_one("Decisions").display


@pytest.mark.parametrize("width", [24, 40, 78, 79, 80, 100, 138])
def test_no_sign_is_parted_from_its_word_however_narrow_the_screen(width: int) -> None:
    status = Status()
    status.said = "14 of 14 · with the words lantern parade · by title · 12 marked"
    lines = [line.plain.rstrip() for line in status.lines(width)]
    assert max(map(len, lines)) <= width
    assert " ".join(" ".join(lines).split()) == " ".join([status.said, *SIGNS])
    assert all(any(sign in line for line in lines) for sign in SIGNS)


async def test_narrow_screens_leave_columns_out(at_work: AtWork) -> None:
    async with at_work(size=(140, 40), rests=True) as hand:
        await hand.do("backlog")
        assert "Maker" in hand.sees()
        assert "Quayworks" in hand.sees()
        await hand.press("down")
        assert "Harbour Bay" in hand.sees("Decisions")


async def test_marks_that_the_filter_hides_are_counted_and_acted_on(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.do("backlog", "mark", "filter")
        await hand.type("moss b")
        await hand.press("enter")
        await hand.do("mark")
        assert "2 marked, 1 of them not shown" in hand.sees("#status")
        await hand.do("bring")
        assert "Bring: 2 games" in hand.sees("#box")
        assert "1 of them not shown" in hand.sees("#box")
        await hand.do("leave")
        assert hand.workshop.batch.games() == ()
        await hand.do("bring", "choose")
        assert hand.workshop.batch.games() == ("lantern-bay", "moss-bay")


async def test_all_marked_are_put_in_another_case(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.do("backlog", "mark_all", "change_case")
        assert "Case of 14 games" in hand.sees()
        await hand.pick("jewel-front")
        assert {game.case for game in hand.workshop.games.lines()} == {"jewel-front"}


async def test_panels_of_marked_games_are_those_of_the_first_ones_kind(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.do("backlog", "mark_all", "panels")
        assert "12 games in Clear snap shell" in hand.sees("#box")
        await hand.go_to("long", "Table")
        await hand.press("space", "enter")
        left_out = [one.design.left_out for one in hand.workshop.designs.proposals()]
        assert left_out == [("long",)] * 12 + [()] * 2


async def test_while_words_are_typed_letters_are_words(at_work: AtWork) -> None:
    async with at_work() as hand:
        before = hand.saved
        await hand.do("backlog", "filter")
        await hand.type("my")
        assert hand.saved == before
        assert "mark_all" not in hand.offered
        await hand.do("clear")
        assert "14 of 14" in hand.sees("#status")
        assert not hand.screen.query_one("#filter").display


async def test_keys_pressed_as_the_backlog_opens_are_keys(at_work: AtWork) -> None:
    async with at_work() as hand:
        hand.send("2", "1")
        await hand.settle()
        assert hand.app.current_mode == "bench", "none of them is typed into the filter"


async def test_a_filter_that_finds_nothing_says_so(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.do("backlog", "filter")
        await hand.type("zzz")
        assert "No game is like that." in hand.sees()


async def test_the_cursor_stays_on_its_game_when_the_order_changes(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.do("backlog")
        await hand.press("down", "down")
        assert hand.current == "tin-bay"
        await hand.do("sort")
        assert hand.current == "tin-bay"


async def test_reopening_and_dropping_all_marked(at_work: AtWork) -> None:
    async with at_work("full") as hand:
        await hand.do("backlog", "mark", "mark", "drop", "choose", "reopen", "choose")
        assert hand.workshop.batch.games() == ("tin-bay", "paper-bay", "glass-bay", "moss-bay")
        assert hand.workshop.progress().stages[Stage.TITLE_SET] == 4


async def test_a_change_of_one_game_makes_its_row_anew_and_no_other(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        await hand.do("backlog")
        before = hand.screen.state.entries
        await hand.do("accept")
        after = hand.screen.state.entries
        assert {game for game in before if after[game] is not before[game]} == {"lantern-bay"}
        assert "✓▪ Lantern Bay" in hand.sees("Table")


async def test_marked_games_for_which_it_does_nothing_are_left(at_work: AtWork) -> None:
    async with at_work("full") as hand:
        await hand.do("backlog", "mark_all", "reopen")
        assert "Reopen: 6 games" in hand.sees("#box")
        assert "8 of them left as they are" in hand.sees("#box")
        await hand.do("choose")
        assert hand.workshop.progress().stages[Stage.LISTED] == 14


async def test_games_are_judged_only_where_that_is_asked_for(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.do("backlog", "only")
        await hand.type("soft")
        await hand.press("enter")
        assert "games.traits" not in hand.watch.calls
        await hand.do("only")
        await hand.type("low res")
        await hand.press("enter")
        assert "games.traits" in hand.watch.calls
        assert "of 14 · low resolution · Soft cassette case" in hand.reads("#status")
        shown = {row.id for row in hand.screen.query_one("Table").rows}
        games = hand.workshop.games.lines()
        soft = [game.id for game in games if game.case == "soft-cassette"]
        ppi = {one.game: one.art.ppi for one in hand.workshop.designs.proposals(soft)}
        assert shown == {game for game in soft if 0 < ppi[game] < 120}


async def test_judging_that_is_given_up_leaves_the_condition_out(at_work: AtWork) -> None:
    async with at_work() as hand:
        with hand.watch.holding("games.traits"):
            await hand.do("backlog", "only")
            await hand.type("unread")
            hand.send("enter")
            await hand.until(lambda: hand.app.work.can_stop)
            await hand.press("escape")
        await hand.settle()
        assert "14 of 14 · all games" in hand.reads("#status")


async def test_a_game_on_a_pressed_sheet_is_not_declared(at_work: AtWork) -> None:
    async with at_work("pressed") as hand:
        await hand.do("backlog", "declare")
        await hand.pick("not wanted")
        assert "Lantern Bay is on a pressed sheet" in hand.notices()
        assert hand.workshop.progress().stages[Stage.UNWANTED] == 0
