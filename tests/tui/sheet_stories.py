"""Stories that press the keys of the Sheets."""

from __future__ import annotations

from unittest.mock import patch

from engine import Printer, WorkKind
from engine.model import Stage
from engine.press import printers
from tests.tui.bench_stories import stage
from tests.tui.driving import Hand
from tests.tui.stories import presses
from tui.actions import BY_ID


def pressed(hand: Hand) -> list[int | None]:
    return [sheet.number for sheet in hand.workshop.sheets.report().pressed]


def pages(hand: Hand) -> list[str]:
    return sorted(path.name for path in (hand.workshop.folder / "sheets").glob("*.pdf"))


@presses("press", "full")
async def press(hand: Hand) -> None:
    await hand.do("sheets", "press")
    assert pressed(hand) == [1]
    assert pages(hand) == ["sheet-0001.pdf"]
    assert "1 sheet pressed" in hand.sees()
    assert "sharps box" in hand.reads("#box"), "the cautions are shown"


@presses("press_part", "batch")
async def press_part(hand: Hand) -> None:
    await hand.do("accept", "accept", "sheets", "press_part")
    assert "2 inserts on A4 card, 200 g/m²: 81 % of the paper stays empty" in hand.reads("#box")
    await hand.do("leave")
    assert pressed(hand) == []
    await hand.do("press_part")
    await hand.press("space")
    assert "✓" in hand.sees()
    await hand.do("choose")
    (sheet,) = hand.workshop.sheets.report().pressed
    assert [placement.spare for placement in sheet.placements].count(True) == 1


@presses("stop", "full")
async def stop(hand: Hand) -> None:
    await hand.do("sheets")
    with hand.watch.holding("sheets.press"):
        hand.send(BY_ID["press"].key)
        await hand.until(lambda: "Pressing…" in hand.sees("Masthead"))
        assert "Esc Stop" in hand.sees("KeyBar")
        await hand.do("stop")
    assert "Stopped. Nothing was changed." in hand.notices()
    assert "Esc Stop" not in hand.sees("KeyBar")
    assert pressed(hand) == []
    await hand.do("press")
    assert pressed(hand) == [1]


@presses("job", "full")
async def job(hand: Hand) -> None:
    await hand.do("sheets", "job")
    assert "with a job ticket" in hand.reads("#plan")
    await hand.do("press")
    assert pages(hand) == ["job-0001-0001.pdf", "sheet-0001.pdf"]
    assert "job-0001-0001.pdf" in hand.reads("#box")
    await hand.do("leave", "withdraw")
    assert pages(hand) == [], "what is withdrawn must not be printed by mistake"


@presses("print", "full")
async def print_(hand: Hand) -> None:
    printer = Printer(name="hall", state="idle", accepts=True, said="tray 2 is open")
    with (
        patch.object(printers, "printers", lambda: (printer,)),
        patch.object(printers, "send", lambda *given: f"{given[2]}-1"),
        patch.object(printers, "follow", lambda *_: None),
    ):
        await hand.do("sheets", "press", "leave", "print")
        assert "idle (tray 2 is open)" in hand.reads("#box")
        assert "Viewer" in hand.reads("#box")
        await hand.do("choose")
        await hand.until(lambda: "Sheet 1 is printed." in hand.notices())
    assert pressed(hand) == [1], "printing settles nothing"


@presses("cut_pages", "full")
async def cut_pages(hand: Hand) -> None:
    await hand.do("sheets", "cut_pages")
    assert "with cut pages" in hand.reads("#plan")
    await hand.do("press", "leave")
    assert pages(hand) == ["sheet-0001-cuts.pdf", "sheet-0001.pdf"]
    await hand.do("bench", "next_batch", "go_plain", "accept", "sheets", "cut_pages")
    assert "with cut pages" not in hand.reads("#plan")
    await hand.do("press_part", "choose")
    assert pages(hand)[2:] == ["sheet-0002.pdf"]


@presses("next_insert", "full")
async def next_insert(hand: Hand) -> None:
    await hand.do("sheets", "next_insert", "next_insert")
    assert "› 3  " in hand.sees("#inserts")


@presses("last_insert", "full")
async def last_insert(hand: Hand) -> None:
    await hand.do("sheets", "next_insert", "next_insert", "last_insert")
    assert "› 2  " in hand.sees("#inserts")


@presses("cuts", "full")
async def cuts(hand: Hand) -> None:
    await hand.do("sheets", "cuts")
    assert "Keep fingers behind the guard" in hand.reads("#cutting")
    assert "› a 77.4 mm from the left edge" in hand.reads("#cutting")
    assert "Score a, step 1 of " in hand.reads("#about")
    assert "┆" in hand.sees("SheetMap")
    steps = hand.workshop.finishing.steps(hand.workshop.sheets.report().ready[0])
    scores = [step for step in steps if step.kind is WorkKind.SCORE]
    await hand.do(*["check"] * len(scores))
    assert "Cut 1, step " in hand.reads("#about")
    assert "edge at the fence" in hand.reads("#cutting").partition("› 1 ")[2]
    assert "┃" in hand.sees("SheetMap")
    await hand.do("last_insert")
    assert f"› {scores[-1].name} " in hand.reads("#cutting")
    hand.send(*[BY_ID["next_insert"].key] * len(steps))
    await hand.settle()
    assert "All " in hand.reads("#about")
    assert "6 ✓" in hand.sees("SheetMap")
    await hand.do("cuts")
    assert "Lantern Bay" in hand.sees("#inserts")


@presses("spoil", "pressed")
async def spoil(hand: Hand) -> None:
    await hand.do("sheets", "next_insert", "spoil")
    assert "2  ╱ " in hand.sees("#inserts")
    assert "╱" in hand.sees("SheetMap")
    assert "1 ╱" in hand.sees("#about")
    await hand.do("spoil")
    assert "╱" not in hand.sees("#inserts")


@presses("settle", "pressed")
async def settle(hand: Hand) -> None:
    first, second, *_ = (p.game for p in hand.workshop.sheets.sheet(1).placements)
    await hand.do("sheets", "next_insert", "spoil", "settle")
    assert stage(hand, first) is Stage.PRINTED
    assert stage(hand, second) is Stage.TITLE_SET
    assert "Sheet 1 is settled; 1 spoiled, they wait again." in hand.notices()
    assert "F lists what goes into its case." in hand.notices()
    await hand.do("fitting")
    assert "○ 1  Lantern Bay" in hand.sees("#box")


@presses("withdraw", "pressed")
async def withdraw(hand: Hand) -> None:
    await hand.do("sheets", "withdraw")
    assert pressed(hand) == []
    assert len(hand.workshop.sheets.report().ready) == 1


@presses("keep_offcut", "offcut")
async def keep_offcut(hand: Hand) -> None:
    await hand.do("sheets")
    assert "Settled 1" in hand.sees("#sheets")
    assert "188 × 192 mm" in hand.sees("#inserts")
    await hand.do("keep_offcut")
    assert hand.workshop.sheets.settled()[0].offcuts[0].kept
    await hand.do("keep_offcut")
    assert not hand.workshop.sheets.settled()[0].offcuts[0].kept


@presses("every_settled", "offcuts")
async def every_settled(hand: Hand) -> None:
    await hand.do("sheets")
    assert "Settled 1" not in hand.sees("#sheets")
    await hand.do("every_settled")
    await hand.press("end")
    assert "Settled 1" in hand.sees("#sheets")
    await hand.do("every_settled")
    assert "Settled 1" not in hand.sees("#sheets")


@presses("check", "pressed")
async def check(hand: Hand) -> None:
    first, second, *_ = (p.game for p in hand.workshop.sheets.sheet(1).placements)
    await hand.do("sheets", "check", "spoil", "check")
    assert "1  ✓ " in hand.sees("#inserts")
    assert "2  ╱ " in hand.sees("#inserts")
    assert "› 3  " in hand.sees("#inserts")
    await hand.do("check", "check", "check", "check")
    assert "5 inserts are good" in hand.reads("#box")
    assert "Spoiled, so to be printed again: Tin Bay." in hand.reads("#box")
    assert pressed(hand) == [1], "it is asked before"
    await hand.do("choose")
    assert stage(hand, first) is Stage.PRINTED
    assert stage(hand, second) is Stage.TITLE_SET


@presses("fitting", "settled")
async def fitting(hand: Hand) -> None:
    await hand.do("sheets", "fitting")
    assert "○ 1  Lantern Bay" in hand.sees("#box")
    assert "Score between back and long" in hand.reads("#how")
    assert "safety sheet and local rules go before" in hand.reads("#cautions")
    await hand.do("choose")
    assert stage(hand, "lantern-bay") is Stage.FITTED
    assert "› ○ 2  " in hand.sees("#box")
    await hand.do("undo")
    assert stage(hand, "lantern-bay") is Stage.PRINTED
    await hand.do("undo")
    assert "Settled" not in hand.notices(), "only what was noted here is taken back here"
    for _ in range(6):
        await hand.do("choose")
    assert "All are in their cases." in hand.reads("#how")
    await hand.do("leave")
    assert hand.workshop.progress().stages[Stage.FITTED] == 6
