"""Stories that press the keys of the setup, and those of panels and folded views."""

from __future__ import annotations

from tests.tui.driving import Hand
from tests.tui.stories import presses


@presses("setup")
async def setup(hand: Hand) -> None:
    await hand.do("setup")
    assert hand.app.current_mode == "setup"
    assert "Clear snap shell" in hand.sees("Table")
    assert "A4 card, 200 g/m²" in hand.sees("SettingsBand")


@presses("new_case")
async def new_case(hand: Hand) -> None:
    await hand.do("setup", "new_case")
    await hand.press("down", "down", "down", "enter")
    await hand.type("Tin edge")
    await hand.press("down")
    await hand.type("70")
    await hand.press("down")
    await hand.type("12")
    await hand.press("enter")
    assert hand.workshop.calls == ["kept tin-edge"]
    assert hand.current == "tin-edge"
    assert "cases/tin-edge.toml" in hand.notices()


@presses("trial")
async def trial(hand: Hand) -> None:
    await hand.do("setup", "trial")
    assert "sheets/trial-snap-shell.pdf" in hand.sees("#box")
    assert "steel rule" in hand.sees("#box")


@presses("correct")
async def correct(hand: Hand) -> None:
    await hand.do("setup", "correct")
    before = hand.workshop.kind("snap-shell")
    await hand.type("0.5")
    assert "becomes" in hand.sees("#preview")
    await hand.press("enter")
    assert hand.workshop.calls == ["corrected snap-shell"]
    assert hand.workshop.kind("snap-shell") != before


@presses("kind_pose")
async def kind_pose(hand: Hand) -> None:
    await hand.do("setup", "kind_pose")
    await hand.press("home", "down", "enter")
    assert hand.workshop.settings().poses == {"snap-shell": "drawer"}
    await hand.do("kind_pose")
    await hand.press("end", "enter")
    assert hand.workshop.settings().poses == {}


@presses("panels")
async def panels(hand: Hand) -> None:
    await hand.do("next_batch", "panels")
    await hand.press("down", "space", "enter")
    assert hand.workshop.proposal("lantern-bay").design.left_out == ("long",)
    await hand.do("backlog", "mark_all", "panels")
    await hand.press("space", "enter")
    assert hand.workshop.proposal("harbour-bay").design.left_out == ("back", "long")
    await hand.do("setup", "panels")
    await hand.press("down", "down", "space", "enter")
    assert hand.workshop.settings().left_out == {"snap-shell": ("short",)}


@presses("folded")
async def folded(hand: Hand) -> None:
    await hand.do("next_batch", "folded")
    assert hand.workshop.proofs[-1] == "lantern-bay folded"
    await hand.press("down")
    assert hand.workshop.proofs[-1] == "harbour-bay folded"
    await hand.do("folded")
    assert hand.workshop.proofs[-1] == "harbour-bay"
    drawn = len(hand.workshop.proofs)
    await hand.do("folded")
    assert len(hand.workshop.proofs) == drawn, "it is kept"


@presses("stock")
async def stock(hand: Hand) -> None:
    await hand.do("setup", "stock")
    await hand.press("down", "enter")
    assert hand.workshop.settings().stock.id == "a4-heavy"
    assert "A4 heavy paper, 160 g/m²" in hand.sees("SettingsBand")


@presses("margins")
async def margins(hand: Hand) -> None:
    await hand.do("setup", "margins")
    await hand.press("home", "delete")
    await hand.type("4")
    await hand.press("enter")
    assert hand.workshop.settings().stock.margins.left == 4
    assert "left 4 right 6 top 6 bottom 12" in " ".join(hand.sees("SettingsBand").split())


@presses("caliper")
async def caliper(hand: Hand) -> None:
    await hand.do("setup", "caliper")
    await hand.press("end", *["backspace"] * 6)
    await hand.type("0.31")
    await hand.press("enter")
    assert hand.workshop.settings().stock.caliper == 0.31


@presses("rule")
async def rule(hand: Hand) -> None:
    await hand.do("setup", "rule")
    await hand.press("down", "enter")
    assert hand.workshop.settings().rule == "knife"


@presses("pose")
async def pose(hand: Hand) -> None:
    await hand.do("setup", "pose")
    await hand.press("home", "down", "down", "enter")
    assert hand.workshop.settings().pose == "stack"
    assert "stacked, face up" in hand.sees("SettingsBand")
    await hand.do("pose")
    await hand.press("end", "enter")
    assert hand.workshop.settings().pose is None


@presses("spine_habit")
async def spine_habit(hand: Hand) -> None:
    await hand.do("setup", "spine_habit")
    await hand.press("down", "enter")
    assert hand.workshop.settings().spine == "ascending"


@presses("all_panels")
async def all_panels(hand: Hand) -> None:
    await hand.do("setup", "all_panels")
    await hand.press("down", "space", "enter")
    assert hand.workshop.settings().left_out == {"": ("long",)}


@presses("usual_case", mixed=True)
async def usual_case(hand: Hand) -> None:
    await hand.do("setup", "usual_case")
    await hand.press("down")
    assert "eye protection" in hand.sees("#box")
    await hand.press("enter")
    assert hand.workshop.settings().case == "soft-cassette"


@presses("batch_size")
async def batch_size(hand: Hand) -> None:
    await hand.do("setup", "batch_size")
    await hand.press("backspace")
    await hand.type("9")
    await hand.press("enter")
    assert hand.workshop.settings().batch_size == 9
