"""Stories of the keys for cuts and offcuts."""

from __future__ import annotations

from tests.tui.driving import Hand
from tests.tui.stories import presses
from tui.actions import BY_ID


@presses("stop")
async def stop(hand: Hand) -> None:
    await hand.do("next_batch", "accept_sure", "sheets")
    hand.workshop.press_gate.clear()
    await hand.pilot.press(BY_ID["press"].key)
    await hand.until(lambda: "Pressing…" in hand.sees("Masthead"))
    assert "Esc Stop" in hand.sees("KeyBar")
    await hand.do("stop")
    assert "Stopped. Nothing was changed." in hand.notices()
    assert "Esc Stop" not in hand.sees("KeyBar")
    assert not hand.workshop.sheets().pressed
    hand.workshop.press_gate.set()
    await hand.do("press")
    assert len(hand.workshop.sheets().pressed) == 1


@presses("cuts")
async def cuts(hand: Hand) -> None:
    await hand.do("next_batch", "accept_sure", "sheets", "cuts")
    assert "1  " in hand.sees("#cutting")
    assert "edge at the fence" in " ".join(hand.sees("#cutting").split())
    await hand.do("cuts")
    assert "Lantern Bay" in hand.sees("#inserts")


@presses("keep_offcut")
async def keep_offcut(hand: Hand) -> None:
    await hand.do("next_batch", "accept_sure", "sheets", "press", "leave", "settle")
    assert "Settled 1" in hand.sees("#sheets")
    assert "96 × 190 mm" in hand.sees("#inserts")
    await hand.do("keep_offcut")
    assert hand.workshop.calls[-1] == "kept [1] of sheet 1"
    assert hand.workshop.settled()[0].offcuts[0].kept
    await hand.do("keep_offcut")
    assert hand.workshop.calls[-1] == "kept [] of sheet 1"
