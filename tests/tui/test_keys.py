"""Presses the key of every declared action and looks at what came of it."""

from __future__ import annotations

import pytest

from engine.model import Fit, Stage
from tests.tui import (  # noqa: F401  pressed with the others
    art_stories,
    setup_stories,
    sheet_stories,
    title_stories,
)
from tests.tui.driving import Hand, at_work
from tests.tui.stories import STORIES, presses
from tui.actions import ACTIONS, BY_ID
from tui.app import LAMP, PAPER


@pytest.mark.parametrize("act", [act.id for act in ACTIONS])
async def test_every_key_does_what_its_action_says(act: str) -> None:
    if act not in STORIES:
        pytest.fail(f"no story presses the key of {act}")
    story, kind = STORIES[act]
    async with at_work(**kind) as hand:
        await story(hand)
        assert (BY_ID[act].key or BY_ID["change_setting"].key) in hand.pressed


def stage(hand: Hand, game: str) -> Stage:
    return hand.workshop.designs.proposal(game).stage


async def finish_batch(hand: Hand, batches: int = 1) -> None:
    for _ in range(batches):
        await hand.do("next_batch", "accept_sure")


# --- Bench ------------------------------------------------------------------------------


@presses("accept")
async def accept(hand: Hand) -> None:
    await hand.do("accept")
    assert hand.workshop.batch.games()[0] == "lantern-bay"
    await hand.do("accept")
    assert stage(hand, "lantern-bay") is Stage.TITLE_SET
    assert hand.current == "harbour-bay"
    await hand.do("accept", "accept", "accept", "accept", "accept")
    assert hand.workshop.progress().stages[Stage.TITLE_SET] == 6
    await hand.do("accept")
    assert hand.workshop.batch.games()[0] == "copper-bay"
    assert hand.current == "copper-bay"


@presses("accept_sure", doubtful=(1,))
async def accept_sure(hand: Hand) -> None:
    await hand.do("next_batch", "accept_sure")
    assert hand.workshop.progress().stages[Stage.TITLE_SET] == 5
    assert stage(hand, "harbour-bay") is Stage.LISTED
    assert "Harbour Bay" in hand.notices()


@presses("next_batch")
async def next_batch(hand: Hand) -> None:
    await hand.do("next_batch")
    assert len(hand.workshop.batch.games()) == 6
    assert "With this batch 1 sheet is full and nothing waits." in hand.notices()
    await hand.do("drop", "drop", "backlog", "filter")
    await hand.type("moss")
    await hand.press("enter")
    await hand.do("next_batch")
    assert [game.split("-")[0] for game in hand.workshop.batch.games()[-2:]] == ["moss", "moss"]


@presses("change_case")
async def change_case(hand: Hand) -> None:
    await hand.do("next_batch", "change_case")
    await hand.press("down", "enter")
    assert hand.workshop.designs.proposal("lantern-bay").case == "soft-cassette"
    assert "Soft cassette case" in hand.sees("Decisions")


@presses("change_art")
async def change_art(hand: Hand) -> None:
    await hand.do("next_batch")
    seen = []
    for _ in range(4):
        await hand.do("change_art")
        art = hand.workshop.designs.proposal("lantern-bay").design.art
        seen.append((art.picture, art.fit))
    assert seen[:2] == [("p000.png", Fit.STRETCH), ("p000.png", Fit.MATTE)]
    assert seen[2][0] is None
    assert seen[3] == ("p000.png", Fit.FILL)


def focus(hand: Hand) -> tuple[float, float]:
    return hand.workshop.designs.proposal("lantern-bay").design.art.focus


@presses("crop_left")
async def crop_left(hand: Hand) -> None:
    await hand.do("next_batch", "crop_left")
    assert focus(hand) == (0.4, 0.5)


@presses("crop_right")
async def crop_right(hand: Hand) -> None:
    await hand.do("next_batch", *["crop_right"] * 7)
    assert focus(hand) == (1.0, 0.5)
    assert len(hand.workshop.calls) == 6, "at the edge of the picture nothing is changed"


@presses("crop_up")
async def crop_up(hand: Hand) -> None:
    await hand.do("next_batch", "crop_up")
    assert focus(hand) == (0.5, 0.4)


@presses("crop_down")
async def crop_down(hand: Hand) -> None:
    await hand.do("next_batch", "crop_down")
    assert focus(hand) == (0.5, 0.6)


@presses("change_picture")
async def change_picture(hand: Hand) -> None:
    await hand.do("next_batch", "change_picture")
    assert "lantern_bay.png" in hand.sees(), "it begins with pictures like the title"
    await hand.type("moss post")
    await hand.press("enter")
    assert hand.workshop.designs.proposal("lantern-bay").art.source == "moss_postman.png"


@presses("go_plain")
async def go_plain(hand: Hand) -> None:
    await hand.do("next_batch", "go_plain")
    assert hand.workshop.designs.proposal("lantern-bay").art.source is None


@presses("change_colour")
async def change_colour(hand: Hand) -> None:
    await hand.do("next_batch", "change_colour")
    await hand.type("#123456")
    await hand.press("enter")
    assert hand.workshop.designs.proposal("lantern-bay").design.colours.base == "#123456"
    wanted = hand.workshop.designs.proposal("tin-bay").design.colours.base
    await hand.do("change_colour")
    assert "maker: North Pier" in hand.sees(), "the group's colour is the first"
    await hand.press("down", "down", "enter")
    assert hand.workshop.designs.proposal("lantern-bay").design.colours.base == wanted


@presses("change_title")
async def change_title(hand: Hand) -> None:
    await hand.do("next_batch", "change_title")
    await hand.type("/Two")
    assert "│ Two" in hand.sees()
    await hand.press("enter")
    assert hand.workshop.designs.proposal("lantern-bay").edges[0].lines == ("Lantern Bay", "Two")
    assert "Lantern Bay / Two" in hand.sees("Decisions")


@presses("drop")
async def drop(hand: Hand) -> None:
    await hand.do("next_batch", "drop")
    assert "lantern-bay" not in hand.workshop.batch.games()
    assert hand.current == "harbour-bay"


@presses("reopen")
async def reopen(hand: Hand) -> None:
    await hand.do("next_batch", "accept")
    await hand.press("up")
    assert hand.current == "lantern-bay"
    await hand.do("reopen")
    assert hand.workshop.designs.proposal("lantern-bay").accepted == ()


@presses("zoom")
async def zoom(hand: Hand) -> None:
    await hand.do("next_batch", "zoom")
    assert "▀" in hand.sees("Closeup Proof")
    await hand.do("leave")
    await hand.do("accept_sure", "sheets", "press", "leave", "zoom")
    assert "Sheet 1" in hand.sees()


# --- Backlog ----------------------------------------------------------------------------


@presses("bring")
async def bring(hand: Hand) -> None:
    await hand.do("backlog")
    await hand.press("down", "down")
    await hand.do("bring")
    assert hand.workshop.batch.games() == ("tin-bay",)


@presses("fit")
async def fit(hand: Hand) -> None:
    await finish_batch(hand)
    await hand.do("sheets", "press", "leave", "settle")
    await hand.do("backlog", "stage", "stage", "stage", "stage")
    assert "printed" in hand.sees("#status")
    await hand.do("mark_all", "fit")
    assert hand.workshop.progress().stages[Stage.FITTED] == 6


@presses("mark")
async def mark(hand: Hand) -> None:
    await hand.do("backlog", "mark", "mark", "mark")
    assert "3 marked" in hand.sees("#status")
    assert hand.current == "paper-bay"
    await hand.press("up")
    await hand.do("mark")
    assert "2 marked" in hand.sees("#status")
    await hand.do("accept")
    assert [stage(hand, g) for g in ("lantern-bay", "harbour-bay")] == [Stage.TITLE_SET] * 2
    assert hand.workshop.progress().stages[Stage.TITLE_SET] == 2


@presses("mark_all")
async def mark_all(hand: Hand) -> None:
    await hand.do("backlog", "mark_all")
    assert "60 marked" in hand.sees("#status")
    await hand.do("mark_all")
    assert "marked" not in hand.sees("#status").partition("◆")[0]


@presses("filter")
async def filter_by_words(hand: Hand) -> None:
    await hand.do("backlog", "filter")
    await hand.type("moss quay")
    assert "2 of 60" in hand.sees("#status")
    await hand.press("enter")
    await hand.do("mark_all", "accept_sure")
    assert hand.workshop.calls == ["accepted 2: Moss Parade"]


@presses("stage", doubtful=(3, 4))
async def show_stage(hand: Hand) -> None:
    await hand.do("backlog", *["stage"] * 6)
    assert "2 of 60 · in doubt" in hand.sees("#status")
    await hand.do(*["stage"] * 3)
    assert "60 of 60 · all stages" in hand.sees("#status")


@presses("sort")
async def sort(hand: Hand) -> None:
    await hand.do("backlog", "sort")
    assert hand.screen.query_one("Table").rows[0].id == "copper-bay"


@presses("clear")
async def clear(hand: Hand) -> None:
    await hand.do("backlog", "filter")
    await hand.type("moss")
    await hand.press("enter")
    await hand.do("mark", "clear")
    assert "marked" not in hand.sees("#status").partition("◆")[0]
    assert "6 of 60" in hand.sees("#status")
    await hand.do("clear")
    assert "60 of 60" in hand.sees("#status")


# --- Sheets -----------------------------------------------------------------------------


@presses("press")
async def press(hand: Hand) -> None:
    await finish_batch(hand, 2)
    await hand.do("sheets", "press")
    assert [s.number for s in hand.workshop.sheets.report().pressed] == [1, 2]
    assert "2 sheets pressed" in hand.sees()
    assert "steel rule" in hand.sees(), "the cautions are shown"


@presses("press_part")
async def press_part(hand: Hand) -> None:
    await hand.do("next_batch", "accept", "accept", "sheets", "press_part")
    assert "2 inserts on A4 card: 84 % of the paper stays empty, 30 % if filled." in hand.sees()
    await hand.do("leave")
    assert not hand.workshop.sheets.report().pressed
    await hand.do("press_part")
    await hand.press("space")
    assert "✓" in hand.sees()
    await hand.do("choose")
    assert hand.workshop.calls[-1] == "pressed 1 sheets + spare:lantern-bay"
    assert len(hand.workshop.sheets.report().pressed) == 1


@presses("next_insert")
async def next_insert(hand: Hand) -> None:
    await finish_batch(hand)
    await hand.do("sheets", "next_insert", "next_insert")
    assert "› 3  Tin Bay" in hand.sees("#inserts")


@presses("last_insert")
async def last_insert(hand: Hand) -> None:
    await finish_batch(hand)
    await hand.do("sheets", "next_insert", "next_insert", "last_insert")
    assert "› 2  Harbour Bay" in hand.sees("#inserts")


@presses("spoil")
async def spoil(hand: Hand) -> None:
    await finish_batch(hand)
    await hand.do("sheets", "press", "leave", "next_insert", "spoil")
    assert "2  ╱ Harbour Bay" in hand.sees("#inserts")
    assert "╱" in hand.sees("SheetMap")
    assert "1 ╱" in hand.sees("#about")
    await hand.do("spoil")
    assert "╱" not in hand.sees("#inserts")


@presses("settle")
async def settle(hand: Hand) -> None:
    await finish_batch(hand)
    await hand.do("sheets", "press", "leave", "next_insert", "spoil", "settle")
    assert hand.workshop.calls[-1] == "settled 1, spoiled [2]"
    assert stage(hand, "harbour-bay") is Stage.TITLE_SET
    assert stage(hand, "lantern-bay") is Stage.PRINTED
    assert "1 spoiled" in hand.notices()


@presses("withdraw")
async def withdraw(hand: Hand) -> None:
    await finish_batch(hand)
    await hand.do("sheets", "press", "leave", "withdraw")
    assert not hand.workshop.sheets.report().pressed
    assert len(hand.workshop.sheets.report().ready) == 1


# --- Everywhere -------------------------------------------------------------------------


@presses("bench")
async def bench(hand: Hand) -> None:
    await hand.do("backlog", "bench")
    assert hand.app.current_mode == "bench"


@presses("backlog")
async def backlog(hand: Hand) -> None:
    await hand.do("backlog")
    assert hand.app.current_mode == "backlog"
    assert "60 of 60" in hand.sees()


@presses("sheets")
async def sheets(hand: Hand) -> None:
    await hand.do("sheets")
    assert hand.app.current_mode == "sheets"
    shown = " ".join(hand.sees("#plan").split())
    assert "10 sheets, proven fewest under the trimmer rule" in shown


@presses("undo")
async def undo(hand: Hand) -> None:
    await finish_batch(hand)
    await hand.do("undo")
    assert hand.workshop.progress().stages[Stage.TITLE_SET] == 0
    assert "Taken back: accepted 6" in hand.notices()
    assert "60 listed" in hand.sees("Masthead")


@presses("theme")
async def theme(hand: Hand) -> None:
    assert hand.app.theme == PAPER.name
    await hand.do("theme")
    assert hand.app.theme == LAMP.name
    await hand.do("theme")
    assert hand.app.theme == PAPER.name


@presses("help")
async def show_keys(hand: Hand) -> None:
    await hand.do("help")
    assert "Accept sure" in hand.sees()
    await hand.do("leave")
    assert hand.app.current_mode == "bench"


@presses("palette")
async def palette(hand: Hand) -> None:
    await hand.do("palette")
    await hand.type("bring next")
    await hand.press("down", "enter")
    assert len(hand.workshop.batch.games()) == 6


@presses("quit")
async def leave_the_program(hand: Hand) -> None:
    await hand.do("quit")
    assert not hand.app.is_running


# --- Dialogs ----------------------------------------------------------------------------


@presses("choose")
async def choose(hand: Hand) -> None:
    await hand.do("next_batch", "change_case")
    await hand.press("down")
    await hand.do("choose")
    assert hand.workshop.calls[-1] == "case of 1 games: soft-cassette"


@presses("leave")
async def leave(hand: Hand) -> None:
    await hand.do("next_batch", "change_title")
    await hand.type("x")
    await hand.do("leave")
    assert len(hand.workshop.calls) == 1, "only the batch was brought"
