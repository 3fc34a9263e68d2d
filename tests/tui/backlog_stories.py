"""Stories that press the keys of the Backlog."""

from __future__ import annotations

from engine.model import Stage
from tests.tui.bench_stories import stage
from tests.tui.driving import Hand
from tests.tui.stories import presses


@presses("bring")
async def bring(hand: Hand) -> None:
    await hand.do("backlog")
    await hand.press("down", "down")
    await hand.do("bring")
    assert hand.workshop.batch.games() == ("tin-bay",)


@presses("fit", "settled")
async def fit(hand: Hand) -> None:
    await hand.do("backlog", "stage", "stage", "stage", "stage")
    assert "printed" in hand.sees("#status")
    await hand.do("mark_all", "fit")
    assert hand.workshop.progress().stages[Stage.FITTED] == 6


@presses("game_history", "pressed")
async def its_history(hand: Hand) -> None:
    await hand.do("backlog", "game_history")
    seen = hand.reads("#box")
    assert "Lantern Bay" in hand.sees("#title")
    for part in ("took in", "accepted Lantern Bay and 5 more", "art: open → lantern_bay.png"):
        assert part in seen
    assert "sheet 1: not pressed → pressed, 6 inserts" in seen


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
    assert "14 marked" in hand.sees("#status")
    assert hand.sees("Table").count("◆") == 14
    await hand.do("mark_all")
    assert "marked" not in hand.sees("#status").partition("◆")[0]
    assert "◆" not in hand.sees("Table")


@presses("filter")
async def filter_by_words(hand: Hand) -> None:
    await hand.do("backlog", "filter")
    before = list(hand.watch.calls)
    await hand.type("bay attic")
    assert "2 of 14" in hand.sees("#status")
    assert hand.watch.calls == before, "no letter asks the engine for anything"
    await hand.press("enter")
    await hand.do("mark_all", "accept_sure")
    assert [stage(hand, g) for g in ("tin-bay", "moss-bay")] == [Stage.TITLE_SET] * 2
    assert hand.workshop.progress().stages[Stage.TITLE_SET] == 2


@presses("stage")
async def show_stage(hand: Hand) -> None:
    await hand.do("backlog", *["stage"] * 6)
    assert "2 of 14 · in doubt" in hand.sees("#status")
    await hand.do(*["stage"] * 3)
    assert "14 of 14 · all stages" in hand.sees("#status")


@presses("sort")
async def sort(hand: Hand) -> None:
    await hand.do("backlog", "sort")
    assert "by title" in hand.sees("#status")
    assert hand.screen.query_one("Table").rows[0].id == "ember-reef"


@presses("clear")
async def clear(hand: Hand) -> None:
    await hand.do("backlog", "filter")
    await hand.type("moss")
    await hand.press("enter")
    await hand.do("mark", "clear")
    assert "marked" not in hand.sees("#status").partition("◆")[0]
    assert "2 of 14" in hand.sees("#status")
    await hand.do("clear")
    assert "14 of 14" in hand.sees("#status")
