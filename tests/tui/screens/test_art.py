"""The art dialog: what comes late, and what cannot be."""

from __future__ import annotations

from tests.tui.driving import at_work


async def test_a_change_that_is_done_after_it_was_left_shows_on_the_bench() -> None:
    async with at_work() as hand:
        await hand.do("next_batch", "edit_art")
        hand.workshop.deed_gate.clear()
        await hand.pilot.press("t")
        await hand.pilot.press("escape")
        hand.workshop.deed_gate.set()
        await hand.settle()
        assert hand.workshop.designs.proposal("lantern-bay").design.art.trim.left == 0.05
        assert "Lantern Bay" in hand.sees("Decisions")


async def test_a_read_only_collection_is_looked_at_but_not_changed() -> None:
    async with at_work() as hand:
        await hand.do("next_batch")
        hand.workshop.read_only = True
        hand.screen.refresh_bindings()
        await hand.do("edit_art")
        await hand.press("t", "m", "p")
        assert hand.workshop.calls == ["batch of 6"]


async def test_a_change_that_is_refused_is_said_and_the_dialog_stays() -> None:
    from engine.model.errors import RefusedError

    async with at_work() as hand:
        await hand.do("next_batch", "edit_art")
        hand.workshop.fault = RefusedError("Lantern Bay", "is pressed", "Settle it first")
        await hand.do("next_trim")
        assert "Lantern Bay: is pressed. Settle it first." in hand.notices()
        await hand.do("next_trim")
        assert hand.workshop.designs.proposal("lantern-bay").design.art.trim.left == 0.05
