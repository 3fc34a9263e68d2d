"""Stories that press the keys of the art dialog, and those of colours in the setup."""

from __future__ import annotations

from engine.model import Fit, InkMode, Matte, Trim
from tests.tui.driving import Hand
from tests.tui.stories import presses

GAME = "lantern-bay"


def art(hand: Hand):
    return hand.workshop.designs.proposal(GAME).design.art


async def at_the_art(hand: Hand) -> None:
    await hand.do("next_batch", "edit_art")


@presses("edit_art")
async def edit_art(hand: Hand) -> None:
    await at_the_art(hand)
    assert "Art of Lantern Bay" in hand.sees()
    assert "crops 11 % left and right" in " ".join(hand.sees("ArtList").split())
    assert "▀" in hand.sees("ArtDialog Proof")
    assert "black 40 %" in " ".join(hand.sees("ArtList").split())
    await hand.do("change_art")
    assert art(hand).fit is Fit.STRETCH
    await hand.do("undo")
    assert art(hand).fit is Fit.FILL
    await hand.do("crop_left", "crop_up", "crop_right", "crop_right", "crop_down")
    assert art(hand).focus == (0.6, 0.5)
    drawn = len(hand.workshop.proofs)
    await hand.do("leave")
    assert hand.app.current_mode == "bench"
    assert drawn > 5, "the proof follows every key"


@presses("next_trim")
async def next_trim(hand: Hand) -> None:
    await at_the_art(hand)
    await hand.do("next_trim")
    assert art(hand).trim == Trim(0.05, 0.05, 0.05, 0.05)
    assert "left 5.0%, top 5.0%" in " ".join(hand.sees("ArtList").split())


@presses("next_line")
async def next_line(hand: Hand) -> None:
    await at_the_art(hand)
    await hand.do("next_line", "line_in")
    assert art(hand).trim == Trim(top=0.005)
    await hand.do("next_line", "next_line", "next_line", "line_in")
    assert art(hand).trim == Trim(left=0.005, top=0.005), "without a spine it goes round"


@presses("line_in")
async def line_in(hand: Hand) -> None:
    await at_the_art(hand)
    await hand.do("line_in", "line_in")
    assert art(hand).trim == Trim(left=0.01)
    await hand.do("split", "next_line", "next_line", "next_line", "next_line", "line_in")
    begins, ends = art(hand).split
    assert (round(begins, 3), ends) == (0.48, 0.525)


@presses("line_out")
async def line_out(hand: Hand) -> None:
    await at_the_art(hand)
    await hand.do("line_in", "line_in", "line_out")
    assert art(hand).trim == Trim(left=0.005)


@presses("split")
async def split(hand: Hand) -> None:
    await at_the_art(hand)
    await hand.do("split")
    assert "spine 47.5% to 52.5%" in hand.sees("ArtList")
    await hand.do("split")
    assert art(hand).split is None


@presses("turn_left")
async def turn_left(hand: Hand) -> None:
    await at_the_art(hand)
    await hand.do("turn_left", "turn_left")
    assert art(hand).turn == 0.5


@presses("turn_right")
async def turn_right(hand: Hand) -> None:
    await at_the_art(hand)
    await hand.do("turn_right")
    assert art(hand).turn == -0.25


@presses("next_matte")
async def next_matte(hand: Hand) -> None:
    await at_the_art(hand)
    await hand.do("next_matte")
    assert (art(hand).fit, art(hand).matte) == (Fit.MATTE, Matte.BASE)
    await hand.do("next_matte")
    assert art(hand).matte is Matte.COMPLEMENT
    assert "opposite hue" in hand.sees("ArtList")


@presses("next_pattern")
async def next_pattern(hand: Hand) -> None:
    await at_the_art(hand)
    await hand.do("next_pattern", "next_pattern")
    assert (art(hand).picture, art(hand).pattern) == (None, "stripes")
    assert "Trim" not in hand.sees("ArtList"), "there is nothing to trim"
    calls = len(hand.workshop.calls)
    await hand.do("next_trim", "turn_left", "crop_left")
    assert len(hand.workshop.calls) == calls


@presses("next_ink")
async def next_ink(hand: Hand) -> None:
    await at_the_art(hand)
    await hand.do("next_ink")
    assert hand.workshop.designs.proposal(GAME).design.ink is InkMode.GREY
    assert "greys" in hand.sees("ArtList")
    await hand.do("leave")
    assert "printed grey" in " ".join(hand.sees("Decisions").split())


# --- Setup ------------------------------------------------------------------------------


@presses("colour_by")
async def colour_by(hand: Hand) -> None:
    await hand.do("setup", "colour_by")
    assert "each from its picture" in hand.sees()
    await hand.press("down", "down", "enter")
    assert hand.workshop.setup.settings().colour_by == "maker"


@presses("group_colours")
async def group_colours(hand: Hand) -> None:
    await hand.do("setup", "group_colours")
    assert "No groups" in hand.notices()
    await hand.do("colour_by")
    await hand.press("end", "enter")
    await hand.do("group_colours")
    assert "Smallest difference" in hand.sees()
    await hand.press("down", "enter")
    await hand.type("#123456")
    await hand.press("enter")
    assert hand.workshop.setup.settings().pins == {"maker": {"Quayworks": "#123456"}}
    assert "#123456" in hand.sees(), "the groups are shown again"
    await hand.press("home", "down", "enter", "down", "enter")
    assert hand.workshop.setup.settings().pins == {"maker": {}}


@presses("usual_ink")
async def usual_ink(hand: Hand) -> None:
    await hand.do("setup", "usual_ink")
    await hand.press("home", "down", "enter")
    assert hand.workshop.setup.settings().ink is InkMode.GREY
