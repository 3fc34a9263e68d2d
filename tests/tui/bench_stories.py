"""Stories that press the keys of the Bench, most of which the Backlog shares."""

from __future__ import annotations

from engine.model import Fit, Stage
from tests.tui.driving import Hand
from tests.tui.shelf import BARE, DOUBTFUL, SUBTITLED
from tests.tui.stories import presses

GAME = "lantern-bay"


def stage(hand: Hand, game: str) -> Stage:
    return hand.workshop.designs.proposal(game).stage


def art(hand: Hand):
    return hand.workshop.designs.proposal(GAME).design.art


@presses("accept")
async def accept(hand: Hand) -> None:
    await hand.do("accept")
    assert hand.workshop.batch.games()[0] == GAME
    await hand.do("accept")
    assert stage(hand, GAME) is Stage.TITLE_SET
    assert hand.current == "harbour-bay"
    await hand.do("accept", "accept", "accept", "accept", "accept")
    assert hand.workshop.progress().stages[Stage.TITLE_SET] == 6
    await hand.do("accept")
    assert hand.workshop.batch.games()[0] == "lantern-parade"
    assert hand.current == "harbour-parade", "what is in doubt is to be decided first"


@presses("accept_sure", "second")
async def accept_sure(hand: Hand) -> None:
    await hand.do("accept_sure")
    assert hand.workshop.progress().stages[Stage.TITLE_SET] == 4
    assert stage(hand, "harbour-parade") is Stage.LISTED
    assert "2 left to decide" in hand.notices()
    assert f"{DOUBTFUL}: " in hand.notices()
    assert f"{BARE}: " in hand.notices()


@presses("next_batch")
async def next_batch(hand: Hand) -> None:
    await hand.do("next_batch")
    assert len(hand.workshop.batch.games()) == 6
    assert "With this batch 1 sheet is full and nothing waits." in hand.notices()
    await hand.do("drop", "drop", "backlog", "filter")
    await hand.type("moss")
    await hand.press("enter")
    await hand.do("next_batch")
    assert hand.workshop.batch.games()[-2:] == ("moss-bay", "moss-parade")


@presses("change_case", "batch")
async def change_case(hand: Hand) -> None:
    await hand.do("change_case")
    await hand.pick("soft-cassette")
    assert hand.workshop.designs.proposal(GAME).case == "soft-cassette"
    assert "Soft cassette case" in hand.reads("Decisions")


@presses("change_art", "batch")
async def change_art(hand: Hand) -> None:
    picture = art(hand).picture
    seen = []
    for _ in range(4):
        await hand.do("change_art")
        seen.append((art(hand).picture, art(hand).fit))
    assert seen[:2] == [(picture, Fit.FILL), (picture, Fit.MATTE)]
    assert seen[2][0] is None
    assert seen[3] == (picture, Fit.STRETCH)


@presses("crop_left", "batch")
async def crop_left(hand: Hand) -> None:
    await hand.do("change_art", "crop_left")
    assert art(hand).focus == (0.4, 0.5)


@presses("crop_right", "batch")
async def crop_right(hand: Hand) -> None:
    await hand.do("change_art", *["crop_right"] * 5)
    assert art(hand).focus == (1.0, 0.5)
    before = hand.saved
    await hand.do("crop_right")
    assert hand.saved == before, "at the edge of the picture nothing is changed"


@presses("crop_up", "batch")
async def crop_up(hand: Hand) -> None:
    await hand.do("change_art", "crop_up")
    assert art(hand).focus == (0.5, 0.4)


@presses("crop_down", "batch")
async def crop_down(hand: Hand) -> None:
    await hand.do("change_art", "crop_down")
    assert art(hand).focus == (0.5, 0.6)


@presses("change_picture", "batch")
async def change_picture(hand: Hand) -> None:
    await hand.do("change_picture")
    assert "lantern_bay.png" in hand.sees(), "it begins with pictures like the title"
    assert "front" in hand.reads("#looks"), "and says which side each shows"
    await hand.type("moss par")
    await hand.press("enter")
    assert hand.workshop.designs.proposal(GAME).art.source == "moss_parade.png"


@presses("panel_art", "batch")
async def panel_art(hand: Hand) -> None:
    await hand.do("panel_art")
    panels = [one.panel for one in hand.workshop.sides.of(GAME).panels]
    assert [row.id for row in hand.screen.query_one("Table").rows] == panels
    await hand.press("end", "enter")
    await hand.type("moss par")
    await hand.press("enter")
    assert hand.workshop.sides.of(GAME).panels[-1].source == "moss_parade.png"
    await hand.do("panel_art")
    await hand.press("end", "enter", *["pagedown"] * 3)
    assert hand.current == "", "the last is no picture"
    await hand.press("enter")
    assert hand.workshop.sides.of(GAME).panels[-1].source == ""


@presses("go_plain", "batch")
async def go_plain(hand: Hand) -> None:
    await hand.do("go_plain")
    assert hand.workshop.designs.proposal(GAME).art.source is None


@presses("change_colour", "batch")
async def change_colour(hand: Hand) -> None:
    await hand.do("change_colour")
    await hand.type("#123456")
    await hand.press("enter")
    assert hand.workshop.designs.proposal(GAME).design.colours.base == "#123456"
    wanted = hand.workshop.designs.proposal("moss-bay").design.colours.base
    await hand.do("change_colour")
    assert "its picture's side" in hand.sees(), "what its picture offers comes first"
    assert "▼" in hand.sees("Spines"), "it stands between its neighbours on the shelf"
    assert "Kite" in hand.sees("Spines")
    await hand.go_to(wanted, "Table")
    assert "Moss Bay" in hand.sees(), "then come the colours of the batch"
    assert hand.screen.query_one("Spines").shown.base == wanted
    await hand.do("choose")
    assert hand.workshop.designs.proposal(GAME).design.colours.base == wanted


@presses("change_title", "batch")
async def change_title(hand: Hand) -> None:
    await hand.do("change_title")
    await hand.type("/Two")
    assert "│ Two" in hand.sees()
    await hand.press("enter")
    assert hand.workshop.designs.proposal(GAME).edges[0].lines == ("Lantern Bay", "Two")
    assert "Lantern Bay / Two" in hand.reads("Decisions")


@presses("next_wording")
async def next_wording(hand: Hand) -> None:
    await hand.do("backlog", "filter")
    await hand.type("kite")
    await hand.press("enter")
    await hand.do("bring", "bench")
    game = hand.current

    def wording() -> str:
        return " ".join(hand.workshop.designs.proposal(game).edges[0].lines)

    assert wording() == SUBTITLED
    await hand.do("next_wording")
    assert wording() == "Kite Reef"
    assert "t ✓ Title Kite Reef · " in hand.reads("Decisions")
    await hand.do("undo")
    assert wording() == SUBTITLED


@presses("drop", "batch")
async def drop(hand: Hand) -> None:
    await hand.do("drop")
    assert GAME not in hand.workshop.batch.games()
    assert hand.current == "harbour-bay"


@presses("reopen", "batch")
async def reopen(hand: Hand) -> None:
    await hand.do("accept")
    await hand.press("up")
    assert hand.current == GAME
    await hand.do("reopen")
    assert hand.workshop.designs.proposal(GAME).accepted == ()


@presses("panels", "batch")
async def panels(hand: Hand) -> None:
    await hand.do("panels")
    await hand.press("down", "space", "enter")
    assert hand.workshop.designs.proposal(GAME).design.left_out == ("long",)
    await hand.do("backlog", "mark_all", "panels")
    await hand.press("space", "enter")
    assert hand.workshop.designs.proposal("harbour-bay").design.left_out == ("back", "long")


@presses("folded", "batch", rests=True)
async def folded(hand: Hand) -> None:
    await hand.do("folded")
    assert hand.picture("Proof") == hand.workshop.proofs.folded(GAME)
    await hand.press("down")
    assert hand.picture("Proof") == hand.workshop.proofs.folded("harbour-bay")
    await hand.do("folded")
    assert hand.picture("Proof") == hand.workshop.proofs.proof("harbour-bay")
    drawn = hand.watch.calls.count("proofs.folded")
    await hand.do("folded")
    assert hand.watch.calls.count("proofs.folded") == drawn, "it is kept"


@presses("zoom", "pressed")
async def zoom(hand: Hand) -> None:
    await hand.do("zoom")
    assert "▀" in hand.sees("Closeup Proof")
    await hand.do("leave", "sheets", "zoom")
    assert "Sheet 1" in hand.sees("#box")
    assert "▀" in hand.sees("Closeup Proof")
