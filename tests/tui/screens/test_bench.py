"""Bench: what it shows of a batch, and what it leaves out."""

from __future__ import annotations

import asyncio

import pytest
from msgspec.structs import replace

from engine.model import Stage
from engine.model.errors import PictureError
from tests.tui.bench_stories import GAME
from tests.tui.conftest import AtWork
from tests.tui.driving import Hand
from tui.screens.bench import PROOF_LEAST
from tui.widgets.decisions import Decisions, Shown
from tui.widgets.proof import Proof


async def test_an_empty_batch_says_what_to_press(at_work: AtWork) -> None:
    async with at_work() as hand:
        assert "Enter brings the next games; 14 are left." in hand.reads("#game")


async def test_a_collection_without_games_says_how_to_begin(at_work: AtWork) -> None:
    async with at_work("empty") as hand:
        assert "S begins with a list." in hand.reads("Proof")
        await hand.do("accept")
        assert "No more games" in hand.notices()


async def test_the_decisions_show_figures_and_doubts(at_work: AtWork) -> None:
    async with at_work("second") as hand:
        shown = hand.reads("Decisions")
        assert "Harbour Parade listed, in doubt" in shown
        assert "c ○ Case Clear snap shell" in shown
        assert "132 ppi · harbour parades day.png · 67 % match" in shown
        assert "white ink, " in shown
        assert "is its picture is only 67% sure" in shown
        await hand.do("change_art")
        shown = hand.reads("Decisions")
        assert "a ✓ Art " in shown
        assert "match" not in shown, "a person's own choice needs no likelihood"


async def test_the_decisions_tell_steps_and_what_falls_short(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        one = hand.workshop.designs.proposal(GAME)
        step = "subtitle: Moss: A Game became Moss"
        edge = replace(one.edges[0], steps=(step,), reaches=False)
        hand.screen.query_one(Decisions).shown = Shown(replace(one, edges=(edge,)), "a case")
        await hand.settle()
        shown = hand.reads("Decisions")
        assert "cm, falls short" in shown
        assert f"W {step}" in shown


async def test_accepting_goes_round_to_the_games_passed_over(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        await hand.press("down", "down")
        await hand.do("accept", "accept", "accept", "accept")
        assert hand.current == "lantern-bay"
        await hand.do("accept", "accept")
        assert "All 6 done." in hand.sees("#hint")
        assert hand.watch.calls.count("designs.accept") == 6


async def test_a_batch_that_is_left_open_keeps_its_games_when_more_are_brought(
    at_work: AtWork,
) -> None:
    async with at_work("batch") as hand:
        await hand.do("accept", "next_batch")
        assert hand.workshop.batch.games()[:2] == ("harbour-bay", "tin-bay")
        assert hand.current == hand.workshop.batch.games()[-1], "the cursor is on the one that came"


async def test_a_batch_that_is_full_says_what_comes_of_it(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        await hand.do("next_batch")
        assert "With this batch 1 sheet is full" in hand.notices()
        assert len(hand.workshop.batch.games()) == 6


async def test_after_the_last_game_it_points_to_the_sheets(at_work: AtWork) -> None:
    async with at_work() as hand:
        hand.workshop.designs.accept([game.id for game in hand.workshop.games.lines()[1:]])
        await hand.do("accept", "accept")
        assert "Every game is decided. 3 shows" in hand.reads("#hint")
        await hand.do("accept")
        assert "No more games" in hand.notices()


async def test_only_what_the_game_allows_is_offered(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        await hand.do("change_art")
        assert "hjkl Crop" in hand.sees("KeyBar")
        assert "reopen" in hand.offered
        await hand.do("reopen")
        assert "Crop" not in hand.sees("KeyBar"), "it is stretched again"
        assert not {"crop_left", "reopen"} & hand.offered


async def test_one_panel_has_to_be_kept(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        await hand.do("panels")
        await hand.press("space", "down", "space", "down", "space")
        assert "Keep at least one." in hand.sees("#box")
        await hand.press("enter")
        assert "Keep at least one." in hand.sees("#box")
        await hand.press("space", "enter")
        assert hand.workshop.designs.proposal(GAME).design.left_out == ("back", "long")
        await hand.do("panels")
        assert hand.sees("#box").count("left out") == 2


async def test_cautions_show_where_a_kind_is_chosen(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        await hand.do("change_case")
        assert "hubs" not in hand.sees("#box")
        await hand.go_to("soft-cassette", "Table")
        assert "eye protection" in hand.reads("#box")
        assert "Enter Choose  Esc Leave" in hand.sees("Dialog Run")


async def test_a_colour_that_is_none_is_told_at_once(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        await hand.do("change_colour")
        await hand.type("#12")
        assert "Six hex digits" in hand.sees("#patch")
        await hand.press("enter")
        assert "#12: is no colour." in hand.notices()


async def test_the_sheet_that_fills_is_watched_from_the_bench(at_work: AtWork) -> None:
    async with at_work("batch", size=(140, 40)) as hand:
        await hand.do("accept", "accept")
        assert "□ open, lacks" in hand.sees("#hint")
        assert "│Harbour" in hand.sees("SheetMap")
        await hand.do("accept_sure")
        assert "All 6 done" in hand.sees("#hint")
        assert "│Moss" in hand.sees("SheetMap"), "the full one, until the next is begun"


# --- proofs -----------------------------------------------------------------------------


async def test_a_proof_is_drawn_for_the_game_on_which_the_cursor_rests(at_work: AtWork) -> None:
    async with at_work("batch", rests=True) as hand:
        rested = asyncio.Event()

        async def rest(_: float) -> None:
            await rested.wait()

        hand.app.work.rest = rest
        hand.watch.calls.clear()
        hand.send("down", "down", "down", "down", "down")
        await hand.until(lambda: hand.current == "moss-bay")
        await hand.until(lambda: "Drawing the proof…" in hand.sees("Proof"))
        rested.set()
        await hand.settle()
        drawn = hand.watch.calls.count("proofs.proof")
        assert drawn == 1, "those passed by quickly are not drawn"
        assert hand.picture("Proof") == hand.workshop.proofs.proof("moss-bay")
        await hand.press("up", "down")
        assert hand.watch.calls.count("proofs.proof") == 2, "a proof is kept"


async def test_a_proof_that_comes_late_is_dropped(at_work: AtWork) -> None:
    async with at_work(rests=True) as hand:
        with hand.watch.holding("proofs.proof"):
            hand.send("g")
            await hand.until(lambda: hand.watch.calls.count("proofs.proof") == 1)
            hand.send("down")
            await hand.until(lambda: hand.watch.calls.count("proofs.proof") == 2)
        await hand.settle()
        assert hand.screen.query_one("Proof").of == "harbour-bay"
        kept = hand.screen._proofs
        assert kept.get(hand.workshop.designs.proposal("harbour-bay"))
        assert kept.get(hand.workshop.designs.proposal("lantern-bay")) is None


async def test_a_change_shows_a_new_proof(at_work: AtWork) -> None:
    async with at_work("batch", rests=True) as hand:
        before = hand.picture("Proof")
        await hand.do("go_plain")
        assert hand.picture("Proof") == hand.workshop.proofs.proof(GAME) != before


async def test_a_proof_that_cannot_be_drawn_says_so_and_the_rest_goes_on(at_work: AtWork) -> None:
    async with at_work(rests=True) as hand:
        error = PictureError("lantern_bay.png", "is gone", "Take it in again")
        with hand.watch.failing("proofs.proof", error):
            await hand.do("next_batch")
            assert "lantern_bay.png: is gone." in hand.notices()
            assert "No proof can be drawn." in hand.sees("Proof")
        await hand.do("accept")
        assert "✓ Lantern Bay" in hand.sees()


async def test_a_proof_that_fails_leaves_what_is_being_accepted_alone(at_work: AtWork) -> None:
    async with at_work("batch", rests=True) as hand:
        error = PictureError("harbour_bay.png", "is gone", "Take it in again")
        failing = hand.watch.failing("proofs.proof", error)
        with hand.watch.holding("designs.accept"), failing:
            hand.send("enter")
            await hand.until(lambda: "is gone" in hand.notices())
            await hand.pilot.pause(0)
            assert "… Lantern Bay" in hand.sees()
            assert "1 of 6 done" in hand.sees("#hint")
            hand.send("up", "enter")
            await hand.until(lambda: hand.current == "harbour-bay")
        await hand.settle()
        assert hand.watch.calls.count("designs.accept") == 1, "it is accepted once"
        assert hand.workshop.progress().stages[Stage.TITLE_SET] == 1


# --- another screen in its place --------------------------------------------------------


async def test_what_was_read_late_begins_no_work_on_a_screen_that_was_left(
    at_work: AtWork,
) -> None:
    async with at_work("batch") as hand:
        with hand.watch.holding("batch.games"):
            await hand.do("backlog")
            hand.send("1")
            await hand.until(lambda: hand.watch.calls.count("batch.games") == 2)
            hand.watch.calls.clear()
            hand.send("2")
            await hand.until(lambda: hand.app.current_mode == "backlog")
        await hand.settle()
        assert "games.lines" in hand.watch.calls, "the Backlog is read"
        assert "sheets.report" not in hand.watch.calls, "the Bench gangs nothing out of sight"


async def test_a_proof_that_was_on_its_way_when_the_screen_was_left_comes_in_the_end(
    at_work: AtWork,
) -> None:
    async with at_work("batch", rests=True) as hand:
        with hand.watch.holding("proofs.proof"):
            hand.send("down")
            await hand.until(lambda: hand.watch.calls.count("proofs.proof") == 2)
            hand.send("2")
            await hand.until(lambda: hand.app.current_mode == "backlog")
        await hand.do("bench")
        assert hand.picture("Proof") == hand.workshop.proofs.proof("harbour-bay")


async def test_what_is_in_doubt_stands_first_and_stays_there(at_work: AtWork) -> None:
    async with at_work("second") as hand:
        first = [row.id for row in hand.screen.query_one("#batch Table").rows][:3]
        assert first == ["harbour-parade", "tin-parade", "lantern-parade"]
        await hand.do("accept")
        assert [row.id for row in hand.screen.query_one("#batch Table").rows][:3] == first


async def doubt_found(hand: Hand, game: str) -> list[str]:
    """Let a game turn out to be in doubt beside the person's work; return the batch as shown."""
    hand.workshop.games.edit(game, title="Tin Bay and Some Others")
    assert not hand.workshop.designs.proposal(game).sure
    hand.screen.follow()
    await hand.settle()
    return [row.id for row in hand.screen.query_one("#batch Table").rows]


async def test_the_cursor_is_on_what_turns_out_in_doubt_until_a_key_is_pressed(
    at_work: AtWork,
) -> None:
    async with at_work("batch") as hand:
        await hand.do("backlog", "bench")
        assert hand.current == "lantern-bay"
        assert (await doubt_found(hand, "tin-bay"))[:2] == ["tin-bay", "lantern-bay"]
        assert hand.current == "tin-bay"


@pytest.mark.parametrize(("keys", "at"), [(("down",), "harbour-bay"), (("a",), "lantern-bay")])
async def test_the_cursor_stays_on_its_game_when_another_moves_up(
    at_work: AtWork, keys: tuple[str, ...], at: str
) -> None:
    async with at_work("batch") as hand:
        await hand.press(*keys)
        assert (await doubt_found(hand, "tin-bay"))[0] == "tin-bay"
        assert hand.current == at


async def test_what_a_person_puts_in_doubt_stays_where_it_is(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        hand.workshop.games.edit("tin-bay", title="Tin Bay and Some Others")
        hand.screen.reload()
        await hand.settle()
        assert hand.screen.query_one("#batch Table").rows[2].id == "tin-bay"
        assert hand.current == "lantern-bay"


async def test_the_proof_keeps_its_room_however_much_is_in_doubt(at_work: AtWork) -> None:
    async with at_work("second", rests=True) as hand:
        assert hand.notices().count("half blocks") == 1
        one = hand.workshop.designs.proposal("harbour-parade")
        many = tuple(f"Doubt {n}: something may be wrong with this game." for n in range(5))
        hand.screen.query_one(Decisions).shown = Shown(replace(one, doubts=many), "a case")
        await hand.settle()
        assert hand.screen.query_one(Proof).size.height >= PROOF_LEAST
        assert "▀" in hand.sees("Proof")
        assert "Doubt 4" in hand.sees("Decisions")
        assert "t ○ Title" in hand.sees("Decisions"), "each decision has its line"
        await hand.press("down")
        assert hand.notices().count("half blocks") == 1, "it is said once"
