"""Stories that press the keys of the Setup."""

from __future__ import annotations

from tests.tui.driving import Hand
from tests.tui.stories import presses

KIND = "snap-shell"


async def at_kind(hand: Hand) -> None:
    """Go to the case kind of most games."""
    await hand.do("setup")
    await hand.go_to(KIND, "#kinds")


async def at_setting(hand: Hand, setting: str) -> None:
    """Go to a setting in the list."""
    if hand.app.current_mode != "setup":
        await hand.do("setup")
    if not hand.screen.query_one("#settings").has_focus:
        await hand.do("other_list")
    await hand.go_to(setting, "#settings")


@presses("setup")
async def setup(hand: Hand) -> None:
    await hand.do("setup")
    assert hand.app.current_mode == "setup"
    assert "games" in hand.sees("#kinds")
    assert "› Paper" in hand.sees("#settings")


@presses("new_case")
async def new_case(hand: Hand) -> None:
    await hand.do("setup", "new_case")
    await hand.pick("strip")
    await hand.type("Tin edge")
    await hand.press("down")
    await hand.type("70")
    await hand.press("down")
    await hand.type("12")
    await hand.press("enter")
    assert hand.workshop.kinds.kind("tin-edge").name == "Tin edge"
    assert hand.current == "tin-edge"
    assert "cases/tin-edge.toml" in hand.notices()


@presses("trial")
async def trial(hand: Hand) -> None:
    await at_kind(hand)
    await hand.do("trial")
    assert (hand.workshop.folder / "sheets" / "trial-snap-shell.pdf").is_file()
    assert "Trial cut" in hand.sees("#box")
    assert "blade" in hand.reads("#box")


@presses("correct")
async def correct(hand: Hand) -> None:
    await at_kind(hand)
    before = hand.workshop.kinds.kind(KIND)
    await hand.do("correct")
    await hand.type("0.5")
    assert "becomes" in hand.sees("#preview")
    await hand.press("enter")
    assert hand.workshop.kinds.kind(KIND) != before


@presses("far_titles")
async def far_titles(hand: Hand) -> None:
    await hand.do("setup", "far_titles")
    assert "none cannot be read from 50 cm" in hand.reads("#box")


@presses("other_list")
async def other_list(hand: Hand) -> None:
    await hand.do("setup", "other_list")
    await hand.press("down")
    assert "› Margins" in hand.sees("#settings")
    assert "What the printer leaves white on each side" in hand.reads("#words")
    first = hand.current
    await hand.do("other_list")
    await hand.press("down")
    assert hand.current != first


@presses("change_setting")
async def change_setting(hand: Hand) -> None:
    await at_setting(hand, "rule")
    await hand.do("change_setting")
    await hand.pick("knife")
    assert hand.workshop.setup.settings().rule == "knife"
    await hand.do("other_list")
    await hand.go_to(KIND, "#kinds")
    await hand.do("change_setting")
    assert "Clear snap shell" in hand.sees("#box")
    await hand.pick("poses")
    await hand.pick("shelf")
    assert hand.workshop.setup.settings().poses == {KIND: "shelf"}
