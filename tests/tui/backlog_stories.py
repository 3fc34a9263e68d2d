"""Stories that press the keys of the Backlog."""

from __future__ import annotations

from engine.model import Stage
from tests.tui.bench_stories import stage
from tests.tui.driving import Hand
from tests.tui.stories import presses
from tui.actions import BY_ID


@presses("bring")
async def bring(hand: Hand) -> None:
    await hand.do("backlog")
    await hand.press("down", "down")
    await hand.do("bring")
    assert hand.workshop.batch.games() == ("tin-bay",)


@presses("fit", "settled")
async def fit(hand: Hand) -> None:
    await hand.do("backlog", "only")
    await hand.type("stage prin")
    await hand.press("enter")
    assert "printed" in hand.sees("#status")
    await hand.do("mark_all", "fit")
    assert "Fit in case: 6 games" in hand.sees("#box"), "the count is told before"
    await hand.do("choose")
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
    await hand.do("accept", "choose")
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
    await hand.do("backlog")
    before = list(hand.watch.calls)
    hand.send(BY_ID["filter"].key, *"bay")  # faster than the line has the keys
    await hand.settle()
    await hand.type(" attic")
    assert hand.screen.query_one("#filter").value == "bay attic"
    assert "2 of 14" in hand.sees("#status")
    assert hand.watch.calls == before, "no letter asks the engine for anything"
    await hand.press("enter")
    await hand.do("mark_all", "accept_sure")
    assert "Accept sure: 2 games" in hand.sees("#box")
    await hand.do("choose")
    assert [stage(hand, g) for g in ("tin-bay", "moss-bay")] == [Stage.TITLE_SET] * 2
    assert hand.workshop.progress().stages[Stage.TITLE_SET] == 2


@presses("mark_to")
async def mark_to(hand: Hand) -> None:
    await hand.do("backlog")
    await hand.press("down")
    await hand.do("mark")
    await hand.press("down", "down")
    await hand.do("mark_to")
    assert "4 marked" in hand.sees("#status")
    assert hand.screen.targets() == ("harbour-bay", "tin-bay", "paper-bay", "glass-bay")
    await hand.press("home")
    await hand.do("mark_to")
    assert "5 marked" in hand.sees("#status"), "upwards, too"


@presses("only")
async def show_only(hand: Hand) -> None:
    await hand.do("backlog", "only")
    assert "in doubt games 2" in hand.reads("#box"), "what there is, and how much"
    await hand.type("doubt")
    await hand.press("enter")
    assert "2 of 14 · in doubt" in hand.sees("#status")
    await hand.do("only")
    await hand.type("no pic")
    await hand.press("enter")
    assert "1 of 14 · no picture · in doubt" in hand.sees("#status"), "one narrows the other"
    assert hand.current == "tin-parade"
    await hand.do("only")
    assert "all games" in hand.sees("Search Table")
    await hand.do("choose")
    assert "14 of 14 · all games" in hand.sees("#status")


@presses("declare")
async def declare(hand: Hand) -> None:
    await hand.do("backlog", "mark", "mark", "declare")
    assert "Stage of 2 games" in hand.sees("#box"), "the count is told before"
    await hand.pick("printed")
    assert stage(hand, "lantern-bay") is Stage.PRINTED
    await hand.do("fit", "choose")
    assert stage(hand, "harbour-bay") is Stage.FITTED
    await hand.do("clear", "declare")
    await hand.pick("not wanted")
    assert hand.workshop.progress().stages[Stage.UNWANTED] == 1
    assert "1 not wanted" in hand.reads("Masthead")
    await hand.do("declare")
    await hand.pick("as it is")
    assert hand.workshop.progress().stages[Stage.UNWANTED] == 0


@presses("sort")
async def sort(hand: Hand) -> None:
    await hand.do("backlog", "sort")
    assert "by title" in hand.sees("#status")
    assert hand.screen.query_one("Table").rows[0].id == "ember-reef"


@presses("pace", "settled")
async def show_pace(hand: Hand) -> None:
    hand.workshop.sheets.fit(["lantern-bay"])
    await hand.do("backlog", "pace")
    seen = hand.sees()
    assert "13 games to fit and 2 sheets to print" in seen
    assert "██▎" in seen, "one of fourteen, on 32 cells"
    await hand.do("leave")
    assert "14 of 14" in hand.sees("#status")


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
