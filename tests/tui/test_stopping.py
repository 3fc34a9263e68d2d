"""Work that takes long holds up no key, says that it is under way, and can be stopped."""

from __future__ import annotations

from engine.model import Stage
from tests.tui.bench_stories import GAME, stage
from tests.tui.conftest import AtWork
from tests.tui.driving import Hand
from tests.tui.sheet_stories import pressed
from tui.actions import BY_ID


async def under_way(hand: Hand, words: str, act: str) -> None:
    """Press the key of an action that begins work which is held up."""
    hand.send(BY_ID[act].key)
    await hand.until(lambda: f"{words}…" in hand.sees("Masthead"))
    assert "Esc Stop" in hand.sees("KeyBar")


async def test_games_are_accepted_while_the_sheets_are_ganged(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        with hand.watch.holding("sheets.report"):
            await under_way(hand, "Ganging", "accept")
            assert stage(hand, GAME) is Stage.TITLE_SET
            assert "✓ Lantern Bay" in hand.sees()
            assert "1 of 6 done" in hand.sees("#hint")
            assert "open" not in hand.sees("#hint"), "the sheets are not known yet"
            ganged = hand.watch.calls.count("sheets.report")
            hand.send("enter")
            await hand.until(lambda: "2 of 6 done" in hand.sees("#hint"))
            await hand.until(lambda: hand.watch.calls.count("sheets.report") > ganged)
            await hand.until(lambda: "Ganging…" in hand.sees("Masthead"))
            await hand.do("stop")
            assert "Esc Stop" not in hand.sees("KeyBar")
        await hand.do("accept")
        assert "□ open, lacks" in hand.sees("#hint")


async def test_the_sheets_can_be_left_unganged_and_asked_for_again(at_work: AtWork) -> None:
    async with at_work("full") as hand:
        with hand.watch.holding("sheets.report"):
            await under_way(hand, "Ganging", "sheets")
            await hand.do("stop")
            assert "3 gangs again" in hand.reads("#about")
        await hand.do("sheets")
        assert "Full 1" in hand.sees("#sheets")


async def test_a_plan_that_is_stopped_says_how_it_is_made_again(at_work: AtWork) -> None:
    async with at_work() as hand:
        with hand.watch.holding("sheets.plan"):
            await under_way(hand, "Planning", "sheets")
            await hand.do("stop")
            assert "3 makes it again" in hand.reads("#plan")
        await hand.do("sheets")
        assert "3 sheets" in hand.sees("#plan")


async def test_a_batch_that_is_stopped_stays_as_it_was(at_work: AtWork) -> None:
    async with at_work() as hand:
        with hand.watch.holding("batch.bring_next"):
            await under_way(hand, "Choosing", "next_batch")
            await hand.do("stop")
            assert hand.workshop.batch.games() == ()
        with hand.watch.holding("batch.outlook"):
            await under_way(hand, "Choosing", "accept")
            await hand.do("stop")
        assert len(hand.workshop.batch.games()) == 6, "it was brought before the person stopped"
        assert "what comes of it was not worked out" in hand.notices()


async def test_what_fills_a_part_full_sheet_can_be_stopped_too(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        await hand.do("accept", "accept", "sheets")
        for choice in ("leave", "choose"):
            with hand.watch.holding("sheets.part_full"):
                await under_way(hand, "Filling", "press_part")
                await hand.do("stop")
            assert "You stopped there; all 2 inserts that wait are pressed." in hand.reads("#box")
            assert "Enter Press  Esc Leave" in hand.sees("Dialog Run")
            await hand.do(choice)
            assert pressed(hand) == ([1] if choice == "choose" else [])
            assert hand.app.work.busy == ""


async def test_escape_stops_work_before_it_clears_marks(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.do("backlog", "mark")
        with hand.watch.holding("batch.bring_next"):
            await under_way(hand, "Choosing", "next_batch")
            await hand.do("stop")
        assert "1 marked" in hand.sees("#status")
        await hand.do("clear")
        assert "1 marked" not in hand.sees("#status")
