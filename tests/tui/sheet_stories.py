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
    assert not hand.workshop.sheets.report().pressed
    hand.workshop.press_gate.set()
    await hand.do("press")
    assert len(hand.workshop.sheets.report().pressed) == 1


@presses("cuts")
async def cuts(hand: Hand) -> None:
    await hand.do("next_batch", "accept_sure", "sheets", "cuts")
    assert "1  " in hand.sees("#cutting")
    assert "edge at the fence" in " ".join(hand.sees("#cutting").split())
    await hand.do("cuts")
    assert "Lantern Bay" in hand.sees("#inserts")
    await hand.do("press", "leave", "settle", "cuts")
    assert "Settled 1" in hand.sees("#sheets")
    assert "edge at the fence" in " ".join(hand.sees("#cutting").split()), "it is still uncut"


@presses("cut_pages")
async def cut_pages(hand: Hand) -> None:
    await hand.do("next_batch", "accept_sure", "next_batch", "accept", "sheets", "cut_pages")
    assert "with cut pages" in " ".join(hand.sees("#plan").split())
    await hand.do("press")
    assert hand.workshop.calls[-1] == "pressed 1 sheets with cut pages"
    await hand.do("leave", "press_part", "choose")
    assert hand.workshop.calls[-1] == "pressed 1 sheets with cut pages"
    await hand.do("leave", "bench", "next_batch", "accept_sure", "sheets", "cut_pages")
    assert "with cut pages" not in " ".join(hand.sees("#plan").split())
    await hand.do("press")
    assert hand.workshop.calls[-1] == "pressed 1 sheets"


@presses("every_settled")
async def every_settled(hand: Hand) -> None:
    for number in range(1, 8):
        hand.workshop.designs.accept(hand.workshop.batch.bring_next())
        hand.workshop.sheets.press()
        hand.workshop.sheets.settle(number)
    await hand.do("sheets")
    assert "Settled 2" not in hand.sees("#sheets")
    await hand.do("every_settled")
    await hand.press("end")
    assert "Settled 1" in hand.sees("#sheets")
    await hand.do("every_settled")
    assert "Settled 2" not in hand.sees("#sheets")


@presses("keep_offcut")
async def keep_offcut(hand: Hand) -> None:
    await hand.do("next_batch", "accept_sure", "sheets", "press", "leave", "settle")
    assert "Settled 1" in hand.sees("#sheets")
    assert "96 × 190 mm" in hand.sees("#inserts")
    await hand.do("keep_offcut")
    assert hand.workshop.calls[-1] == "kept [1] of sheet 1"
    assert hand.workshop.sheets.settled()[0].offcuts[0].kept
    await hand.do("keep_offcut")
    assert hand.workshop.calls[-1] == "kept [] of sheet 1"
