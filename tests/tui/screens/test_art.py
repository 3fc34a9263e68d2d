"""The art dialog: what comes late, and what cannot be."""

from __future__ import annotations

from engine.model.errors import RefusedError
from tests.tui.bench_stories import art
from tests.tui.conftest import AtWork


async def test_a_change_that_is_made_after_it_was_left_shows_on_the_bench(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        await hand.do("edit_art")
        with hand.watch.holding("art.next_pattern"):
            hand.send("p", "escape")
            await hand.until(lambda: not hand.screen.is_modal)
        await hand.settle()
        assert art(hand).picture is None
        assert f"a ✓ Art {art(hand).pattern}" in hand.reads("Decisions")


async def test_a_read_only_collection_has_no_art_to_work_on(at_work: AtWork) -> None:
    async with at_work("batch", twice=True) as hand:
        before = hand.saved
        await hand.do("edit_art")
        await hand.press("t", "m", "p")
        assert hand.saved == before


async def test_a_change_that_is_refused_is_said_and_the_dialog_stays(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        await hand.do("edit_art")
        error = RefusedError("Lantern Bay", "is pressed", "Settle it first")
        with hand.watch.failing("art.turn", error):
            await hand.do("turn_left")
        assert "Lantern Bay: is pressed. Settle it first." in hand.notices()
        await hand.do("turn_left")
        assert art(hand).turn == 0.25
