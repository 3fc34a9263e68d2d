"""Work that takes long holds up no key, says that it is under way, and can be stopped."""

from __future__ import annotations

import asyncio

from engine.model import Stage
from tests.tui.driving import Hand, at_work
from tui.actions import BY_ID


async def under_way(hand: Hand, words: str, act: str) -> None:
    """Press the key of an action that begins work which waits at a gate."""
    await hand.pilot.press(BY_ID[act].key)
    await hand.until(lambda: f"{words}…" in hand.sees("Masthead"))
    assert "Esc Stop" in hand.sees("KeyBar")


async def stop_all(hand: Hand) -> None:
    """Press Escape until nothing is under way: a newer work may have followed an older one."""
    while any(not worker.is_finished for worker in hand.app.workers):
        await hand.pilot.press(BY_ID["stop"].key)
        await asyncio.sleep(0.01)
    await hand.settle()


async def test_games_are_accepted_while_the_sheets_are_ganged() -> None:
    async with at_work() as hand:
        await hand.do("next_batch")
        hand.workshop.gang_gate.clear()
        await under_way(hand, "Ganging", "accept")
        assert hand.workshop.designs.proposal("lantern-bay").stage is Stage.TITLE_SET
        assert "✓ Lantern Bay" in hand.sees()
        assert "1 of 6 done" in hand.sees("#hint")
        assert "open" not in hand.sees("#hint"), "the sheets are not known yet"
        await hand.pilot.press("enter")
        await hand.until(lambda: "2 of 6 done" in hand.sees("#hint"))
        await stop_all(hand)
        assert "Esc Stop" not in hand.sees("KeyBar")
        hand.workshop.gang_gate.set()
        await hand.do("accept")
        assert "□ open, lacks 3" in hand.sees("#hint")


async def test_the_sheets_can_be_left_unganged_and_asked_for_again() -> None:
    async with at_work() as hand:
        await hand.do("next_batch", "accept_sure")
        hand.workshop.gang_gate.clear()
        await under_way(hand, "Ganging", "sheets")
        await hand.do("stop")
        assert "3 gangs again" in " ".join(hand.sees("#about").split())
        hand.workshop.gang_gate.set()
        await hand.do("sheets")
        assert "Full 1" in hand.sees("#sheets")


async def test_a_plan_that_is_stopped_says_how_it_is_made_again() -> None:
    async with at_work() as hand:
        hand.workshop.plan_gate.clear()
        await under_way(hand, "Planning", "sheets")
        await hand.do("stop")
        assert "3 makes it again" in " ".join(hand.sees("#plan").split())
        hand.workshop.plan_gate.set()
        await hand.do("sheets")
        assert "10 sheets" in hand.sees("#plan")


async def test_a_batch_that_is_stopped_stays_as_it_was() -> None:
    async with at_work() as hand:
        hand.workshop.batch_gate.clear()
        await under_way(hand, "Choosing", "next_batch")
        await hand.do("stop")
        assert hand.workshop.batch.games() == ()
        hand.workshop.batch_gate.set()
        hand.workshop.plan_gate.clear()
        await under_way(hand, "Choosing", "accept")
        await hand.do("stop")
        assert len(hand.workshop.batch.games()) == 6, "it was brought before the person stopped"
        assert "what comes of it was not reckoned" in hand.notices()


async def test_what_fills_a_part_full_sheet_can_be_stopped_too() -> None:
    async with at_work() as hand:
        await hand.do("next_batch", "accept", "accept", "sheets")
        hand.workshop.plan_gate.clear()
        await under_way(hand, "Filling", "press_part")
        await hand.do("stop")
        assert "You stopped there; all 2 inserts that wait are pressed." in hand.sees("#box")
        assert "Spare of lantern-bay" in hand.sees("#box"), "it was found before"
        assert "Enter Press  Esc Leave" in hand.sees("Dialog Run")
        hand.workshop.plan_gate.set()
        await hand.do("leave")
        assert not hand.workshop.sheets.report().pressed
        hand.workshop.plan_gate.clear()
        await under_way(hand, "Filling", "press_part")
        await hand.do("stop")
        hand.workshop.plan_gate.set()
        await hand.do("choose")
        assert len(hand.workshop.sheets.report().pressed) == 1


async def test_escape_stops_work_before_it_clears_marks() -> None:
    async with at_work() as hand:
        await hand.do("backlog", "mark")
        hand.workshop.batch_gate.clear()
        await under_way(hand, "Choosing", "next_batch")
        await hand.do("stop")
        assert "1 marked" in hand.sees("#status")
        await hand.do("clear")
        assert "1 marked" not in hand.sees("#status")
