"""Bench: what it shows of a batch, and what it leaves out."""

from __future__ import annotations

from engine.model.errors import PictureError
from tests.tui.driving import at_work
from tests.tui.fake import FakeWorkshop


async def test_an_empty_batch_says_what_to_press() -> None:
    async with at_work() as hand:
        assert "Enter brings the next games; 60 are left." in hand.sees("#game")


async def test_a_collection_without_games_says_how_to_begin() -> None:
    async with at_work(FakeWorkshop(0)) as hand:
        assert "spinery intake LIST" in " ".join(hand.sees("Proof").split())
        await hand.do("accept")
        assert "No more games" in hand.notices()


async def test_the_decisions_show_figures_and_doubts() -> None:
    async with at_work(doubtful=(0,)) as hand:
        await hand.do("next_batch")
        shown = " ".join(hand.sees("Decisions").split())
        assert "c ○ Case Clear snap shell" in shown
        assert "crops 11 % left and right · 312 ppi · lantern_bay.png · 62 % match" in shown
        assert "white ink, 8.3:1" in shown
        assert "Lantern Bay · 11.5 pt, 2.8 mm high, reads at 49 cm" in shown
        assert "in doubt" in shown
        await hand.do("change_art")
        shown = " ".join(hand.sees("Decisions").split())
        assert "a ✓ Art stretched 6 % taller" in shown
        assert "match" not in shown, "a person's own choice needs no likelihood"


async def test_accepting_goes_round_to_the_games_passed_over() -> None:
    async with at_work() as hand:
        await hand.do("next_batch")
        await hand.press("down", "down")
        await hand.do("accept", "accept", "accept", "accept")
        assert hand.current == "lantern-bay"
        await hand.do("accept", "accept")
        assert len(hand.workshop.calls) == 7
        assert "All 6 done." in hand.sees("#hint")


async def test_a_batch_that_is_left_open_keeps_its_games_when_more_are_brought() -> None:
    async with at_work() as hand:
        await hand.do("next_batch", "accept", "next_batch")
        assert hand.workshop.batch.games()[:2] == ("harbour-bay", "tin-bay")
        assert hand.current == "copper-bay", "the cursor is on the one that came"


async def test_a_batch_that_is_full_says_what_comes_of_it() -> None:
    async with at_work() as hand:
        await hand.do("next_batch", "next_batch")
        assert "With this batch 1 sheet is full" in hand.notices()
        assert len(hand.workshop.batch.games()) == 6


async def test_after_the_last_game_it_points_to_the_sheets() -> None:
    async with at_work(FakeWorkshop(3)) as hand:
        await hand.do("accept", "accept", "accept", "accept")
        assert "Every game is decided. 3 shows" in " ".join(hand.sees("#hint").split())
        await hand.do("accept")
        assert "No more games" in hand.notices()


async def test_only_what_the_game_allows_is_offered() -> None:
    async with at_work() as hand:
        await hand.do("next_batch")
        assert "Crop" in hand.sees("KeyBar")
        assert "Reopen" not in hand.sees("KeyBar")
        await hand.do("go_plain")
        assert "Crop" not in hand.sees("KeyBar")
        assert "Reopen" in hand.sees("KeyBar")


async def test_a_proof_is_drawn_for_the_game_on_which_the_cursor_rests(monkeypatch) -> None:
    monkeypatch.setattr("tui.screens.bench.PROOF_PAUSE", 0.5)
    workshop = FakeWorkshop()
    async with at_work(workshop) as hand:
        await hand.do("next_batch")
        workshop.proofs.clear()
        await hand.pilot.press("down", "down", "down", "down", "down")
        await hand.settle()
        assert workshop.proofs == ["moss-bay"], "those passed by quickly are not drawn"
        await hand.press("up", "down")
        assert workshop.proofs == ["moss-bay", "glass-bay"], "a proof is kept"


async def test_a_proof_that_comes_late_is_dropped() -> None:
    workshop = FakeWorkshop()
    workshop.proof_gate.clear()
    async with at_work(workshop) as hand:
        await hand.pilot.press("g")
        while not workshop.proofs:
            await hand.pilot.pause(0.02)
        await hand.pilot.press("down")
        workshop.proof_gate.set()
        await hand.settle()
        assert workshop.proofs == ["lantern-bay", "harbour-bay"]
        assert hand.screen.query_one("Proof").of == "harbour-bay"
        kept = hand.screen._proofs
        assert kept.get(workshop.designs.proposal("harbour-bay"))
        assert kept.get(workshop.designs.proposal("lantern-bay")) is None


async def test_a_change_shows_a_new_proof() -> None:
    workshop = FakeWorkshop()
    async with at_work(workshop) as hand:
        await hand.do("next_batch")
        before = hand.screen._proofs.get(workshop.designs.proposal("lantern-bay"))
        await hand.do("change_colour")
        await hand.type("#123456")
        await hand.press("enter")
        after = hand.screen._proofs.get(workshop.designs.proposal("lantern-bay"))
        assert before != after
        assert hand.screen.query_one("Proof").query("*").first().image.getvalue() == after


async def test_a_proof_that_cannot_be_drawn_says_so_and_the_rest_goes_on() -> None:
    workshop = FakeWorkshop(proof_fault=PictureError("p000.png", "is gone", "Take it in again"))
    async with at_work(workshop) as hand:
        await hand.do("next_batch")
        assert "p000.png: is gone." in hand.notices()
        assert "No proof can be drawn." in hand.sees("Proof")
        await hand.do("accept")
        assert "✓ Lantern Bay" in hand.sees()


async def test_a_colour_that_is_none_is_told_at_once() -> None:
    async with at_work() as hand:
        await hand.do("next_batch", "change_colour")
        await hand.type("#12")
        assert "Six hex digits" in hand.sees("#patch")
        await hand.press("enter")
        assert "not a colour" in hand.notices()


async def test_the_sheet_that_fills_is_watched_from_the_bench() -> None:
    async with at_work(size=(140, 40)) as hand:
        await hand.do("next_batch", "accept", "accept")
        assert "□ open, lacks 4" in hand.sees("#hint")
        assert "│Harbour" in hand.sees("SheetMap")
        await hand.do("accept_sure", "next_batch")
        assert "■ 1 full" in hand.sees("#hint")
