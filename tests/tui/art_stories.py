"""Stories that press the keys of the art dialog."""

from __future__ import annotations

from engine.model import Fit, InkMode, Matte, Trim
from tests.tui.bench_stories import GAME, art
from tests.tui.driving import Hand
from tests.tui.shelf import BORDERED
from tests.tui.stories import presses


@presses("edit_art", "batch", rests=True)
async def edit_art(hand: Hand) -> None:
    await hand.do("edit_art")
    assert "Art of Lantern Bay" in hand.sees()
    assert "stretched" in hand.reads("ArtList")
    assert "▀" in hand.sees("ArtDialog Proof")
    assert "black" in hand.reads("ArtList"), "the ink is weighed"
    await hand.do("change_art")
    assert art(hand).fit is Fit.FILL
    await hand.do("undo")
    assert art(hand).fit is Fit.STRETCH
    await hand.do("change_art", "crop_left", "crop_up", "crop_right", "crop_right", "crop_down")
    assert art(hand).focus == (0.6, 0.5)
    assert hand.picture("ArtDialog Proof") == hand.workshop.proofs.proof(GAME), "it follows"
    await hand.press("right", "down")
    assert art(hand).focus == (0.7, 0.6)
    await hand.do("undo", "undo", "change_art")
    assert art(hand).fit is Fit.MATTE
    await hand.press("left")
    assert art(hand).fit is Fit.FILL, "what is shown whole is cropped then"
    assert hand.picture("ArtDialog Proof") == hand.workshop.proofs.proof(GAME), "it follows"
    await hand.do("leave")
    assert hand.app.current_mode == "bench"
    assert not hand.screen.is_modal


@presses("next_trim", "batch")
async def next_trim(hand: Hand) -> None:
    bordered = BORDERED.lower().replace(" ", "-")
    await hand.go_to(bordered, "#batch Table")
    await hand.do("edit_art")
    assert "Trim left 5." in hand.reads("ArtList"), "20 of 400 pixels"
    await hand.do("next_trim")
    assert hand.workshop.designs.proposal(bordered).design.art.trim == Trim()
    assert "nothing" in hand.reads("ArtList")


@presses("next_line", "batch")
async def next_line(hand: Hand) -> None:
    await hand.do("edit_art", "next_line", "line_in")
    assert art(hand).trim == Trim(top=0.005)
    await hand.do("next_line", "next_line", "next_line", "line_in")
    assert art(hand).trim == Trim(left=0.005, top=0.005), "without a spine it goes round"


@presses("line_in", "batch")
async def line_in(hand: Hand) -> None:
    await hand.do("edit_art", "line_in", "line_in")
    assert art(hand).trim == Trim(left=0.01)
    await hand.do("split", "next_line", "next_line", "next_line", "next_line", "line_in")
    begins, ends = art(hand).split
    assert (round(begins, 3), ends) == (0.48, 0.525)


@presses("line_out", "batch")
async def line_out(hand: Hand) -> None:
    await hand.do("edit_art", "line_in", "line_in", "line_out")
    assert art(hand).trim == Trim(left=0.005)


@presses("split", "batch")
async def split(hand: Hand) -> None:
    await hand.do("edit_art", "split")
    assert "spine 47.5% to 52.5%" in hand.sees("ArtList")
    await hand.do("split")
    assert art(hand).split is None


@presses("turn_left", "batch")
async def turn_left(hand: Hand) -> None:
    await hand.do("edit_art", "turn_left", "turn_left")
    assert art(hand).turn == 0.5


@presses("turn_right", "batch")
async def turn_right(hand: Hand) -> None:
    await hand.do("edit_art", "turn_right")
    assert art(hand).turn == -0.25


@presses("next_matte", "batch")
async def next_matte(hand: Hand) -> None:
    await hand.do("edit_art", "next_matte")
    assert (art(hand).fit, art(hand).matte) == (Fit.MATTE, Matte.BASE)
    await hand.do("next_matte")
    assert art(hand).matte is Matte.COMPLEMENT
    assert "opposite hue" in hand.sees("ArtList")


@presses("next_pattern", "batch")
async def next_pattern(hand: Hand) -> None:
    await hand.do("edit_art", "next_pattern", "next_pattern")
    assert (art(hand).picture, art(hand).pattern) == (None, "stripes")
    assert "Trim" not in hand.sees("ArtList"), "there is nothing to trim"
    before = hand.saved
    await hand.do("next_trim", "turn_left", "crop_left")
    assert hand.saved == before


@presses("next_ink", "batch")
async def next_ink(hand: Hand) -> None:
    await hand.do("edit_art", "next_ink")
    assert hand.workshop.designs.proposal(GAME).design.ink is InkMode.GREY
    assert "greys" in hand.sees("ArtList")
    await hand.do("leave")
    assert "printed grey" in hand.reads("Decisions")
