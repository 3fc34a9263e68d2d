"""Stories that press the keys of lettering."""

from __future__ import annotations

from tests.tui.driving import Hand
from tests.tui.stories import presses


@presses("lettering")
async def lettering(hand: Hand) -> None:
    await hand.do("setup", "lettering")
    await hand.press("down", "enter")
    assert hand.workshop.setup.settings().lettering.mode == "even"
    assert hand.setting("lettering") == "even"


@presses("font")
async def font(hand: Hand) -> None:
    await hand.do("setup", "font")
    assert "the font that ships" in hand.sees("#box")
    await hand.type("noto sans")
    await hand.press("enter")
    assert hand.workshop.setup.settings().lettering.font is not None
    await hand.do("font")
    await hand.press("enter")
    assert hand.workshop.setup.settings().lettering.font is None


@presses("type_sizes")
async def type_sizes(hand: Hand) -> None:
    await hand.do("setup", "type_sizes")
    await hand.press("end", "backspace", "backspace")
    assert "Distance: give a figure." in hand.sees("#preview")
    await hand.type("70")
    await hand.press("down", "down", "down", "end", "backspace")
    await hand.type("1")
    await hand.press("down", "down")
    await hand.type("Bay=By")
    await hand.press("enter")
    lettering = hand.workshop.setup.settings().lettering
    assert (lettering.distance, lettering.lines) == (700, 1)
    assert lettering.dictionary == {"Bay": "By"}
    assert "read from 70 cm" in hand.setting("type_sizes")


@presses("edge_marks")
async def edge_marks(hand: Hand) -> None:
    await hand.do("setup", "edge_marks")
    await hand.type("shelf")
    assert "shelf: no such column." in hand.sees("#preview")
    await hand.press(*["backspace"] * 5)
    await hand.type("year")
    await hand.press("down", "down", "down", "down")
    await hand.type("genre")
    await hand.press("enter")
    lettering = hand.workshop.setup.settings().lettering
    assert (lettering.mark, lettering.stripe) == ("year", "genre")
    assert hand.setting("edge_marks") == "mark by year, stripe by genre"


@presses("upright")
async def upright(hand: Hand) -> None:
    await hand.do("setup")
    await hand.go_to("snap-shell", "#kinds")
    await hand.do("upright")
    assert hand.workshop.setup.settings().lettering.upright == ("snap-shell",)
    assert hand.setting("upright").startswith("Clear snap shell")
    await hand.do("upright")
    assert hand.workshop.setup.settings().lettering.upright == ()


@presses("far_titles")
async def far_titles(hand: Hand) -> None:
    await hand.do("setup", "far_titles")
    assert "none cannot be read from 50 cm" in hand.reads("#box")
