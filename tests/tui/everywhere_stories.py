"""Stories that press the keys that work on every screen, and those of dialogs."""

from __future__ import annotations

from engine.model import Stage
from tests.tui.driving import Hand
from tests.tui.stories import presses
from tui.look import LAMP, PAPER


@presses("bench")
async def bench(hand: Hand) -> None:
    await hand.do("backlog", "bench")
    assert hand.app.current_mode == "bench"


@presses("backlog")
async def backlog(hand: Hand) -> None:
    await hand.do("backlog")
    assert hand.app.current_mode == "backlog"
    assert "14 of 14" in hand.sees()


@presses("sheets")
async def sheets(hand: Hand) -> None:
    await hand.do("sheets")
    assert hand.app.current_mode == "sheets"
    assert "3 sheets, proven fewest under the trimmer rule" in hand.reads("#plan")


@presses("undo", "full")
async def undo(hand: Hand) -> None:
    await hand.do("undo")
    assert hand.workshop.progress().stages[Stage.TITLE_SET] == 0
    assert "Taken back: accepted Lantern Bay and 5 more" in hand.notices()
    assert "14 listed" in hand.sees("Masthead")


@presses("redo", "full")
async def redo(hand: Hand) -> None:
    await hand.do("undo", "redo")
    assert hand.workshop.progress().stages[Stage.TITLE_SET] == 6
    assert "Done again: accepted Lantern Bay and 5 more" in hand.notices()
    assert "Lantern Bay: case: open → " in hand.notices()


@presses("history", "full")
async def go_back(hand: Hand) -> None:
    await hand.do("history")
    assert "took in games.csv" in hand.reads("Table")
    assert "Lantern Bay: case: open → " in hand.reads("#about")
    await hand.press("down", "down")
    await hand.do("choose")
    assert hand.workshop.progress().stages[Stage.TITLE_SET] == 0
    assert "Went: 2 changes, as far as: " in hand.notices()
    await hand.do("history")
    assert "taken back" in hand.sees("Table")
    await hand.press("home")
    await hand.do("choose")
    assert hand.workshop.progress().stages[Stage.TITLE_SET] == 6
    await hand.do("undo", "history")
    assert "as it was opened then backup" in hand.reads("Table")
    await hand.pick(hand.workshop.history.days()[0].name)
    assert "Done: went back to 2026-03-01" in hand.notices()
    assert hand.workshop.progress().stages[Stage.TITLE_SET] == 6


@presses("read", "batch")
async def read(hand: Hand) -> None:
    with hand.watch.holding("readings.read"):
        await hand.do("read")
        await hand.until(lambda: "Reading…" in hand.sees("Masthead"))
        await hand.do("accept")
        assert hand.workshop.progress().stages[Stage.LISTED] == 13, "nothing waits for it"
        await hand.do("read")
        await hand.until(lambda: not hand.app.work.aside)


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
    await hand.until(lambda: "Bring next (g)" in hand.sees())
    await hand.press("down", "enter")
    await hand.until(lambda: bool(hand.workshop.batch.games()))
    assert len(hand.workshop.batch.games()) == 6


@presses("quit")
async def leave_the_program(hand: Hand) -> None:
    await hand.do("quit")
    assert not hand.app.is_running


@presses("choose", "batch")
async def choose(hand: Hand) -> None:
    await hand.do("change_case")
    await hand.press("down")
    kind = hand.current
    await hand.do("choose")
    assert hand.workshop.designs.proposal("lantern-bay").case == kind != "snap-shell"


@presses("leave", "batch")
async def leave(hand: Hand) -> None:
    before = hand.saved
    await hand.do("change_title")
    await hand.type("x")
    await hand.do("leave")
    assert hand.saved == before
