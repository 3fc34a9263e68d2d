"""Sheets: filling, pressing, settling."""

from __future__ import annotations

from time import sleep

import pytest
from msgspec.structs import replace as altered

from engine import Cancel, PartFull, PlanPart, PlanReport, Printer, SheetsReport, Stock, Workshop
from engine.ganging import sheetwork
from engine.model import Stage
from engine.model.errors import CollectionError
from engine.model.waiting import go_on
from engine.press import printers
from tests.press.making import A4, sheet
from tests.tui.bench_stories import stage
from tests.tui.conftest import AtWork
from tests.tui.sheet_stories import pressed
from tui.actions import BY_ID
from tui.screens.sheetwords import about_words, all_wasted_words, plan_words

STOCK = Stock(id="a4-card", name="A4 card", width=210.0, height=297.0)


async def test_before_anything_is_finished_it_says_why_it_is_empty(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.do("sheets")
        assert "No finished insert waits" in hand.reads("#about")


async def test_an_open_sheet_fills_and_says_what_it_lacks(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        await hand.do("accept", "sheets")
        assert "□ Open" in hand.sees("#sheets")
        assert "Lacks " in hand.reads("#about")
        await hand.do("bench", "accept_sure", "sheets")
        assert "■ Full 1" in hand.sees("#sheets")
        assert "Full. p presses" in hand.reads("#about")


async def test_sheets_are_named_by_their_state_in_words(at_work: AtWork) -> None:
    async with at_work("pressed") as hand:
        games = [game.id for game in hand.workshop.games.lines() if game.undecided]
        hand.workshop.designs.accept(games[:7])
        await hand.do("sheets")
        listed = hand.sees("#sheets")
        assert "▣ Pressed 1" in listed
        assert "■ Full 1" in listed
        assert "□ Open" in listed


async def test_what_was_refused_in_the_list_of_what_is_fitted_is_not_taken_back(
    at_work: AtWork,
) -> None:
    async with at_work("settled") as hand:
        await hand.do("sheets", "fitting")
        hand.workshop.sheets.fit(["lantern-bay"])
        await hand.do("choose")
        assert "fitted already" in hand.notices()
        await hand.do("undo")
        assert stage(hand, "lantern-bay") is Stage.FITTED


async def test_spoiled_marks_belong_to_their_sheet(at_work: AtWork) -> None:
    async with at_work("pressed") as hand:
        hand.workshop.designs.accept(["lantern-parade"])
        hand.workshop.sheets.press(part_full=True)
        first = hand.workshop.sheets.sheet(1).placements[0].game
        await hand.do("sheets", "spoil")
        await hand.press("down")
        assert "╱" not in hand.sees("#inserts")
        await hand.do("settle")
        assert pressed(hand) == [1]
        assert stage(hand, "lantern-parade") == "printed"
        await hand.do("settle")
        assert stage(hand, first) == "title set"


async def test_an_insert_is_chosen_on_the_map_with_the_mouse(at_work: AtWork) -> None:
    async with at_work("full", size=(140, 40)) as hand:
        await hand.do("sheets")
        lines = hand.sees("SheetMap").splitlines()
        row = next(n for n, line in enumerate(lines) if "Paper Bay" in line)
        await hand.click("SheetMap", lines[row].index("Paper Bay"), row)
        assert "  Paper Bay" in hand.sees("#inserts").partition("›")[2].splitlines()[0]


async def test_a_sheet_that_cannot_be_written_is_told_and_nothing_moves(at_work: AtWork) -> None:
    async with at_work("full") as hand:
        await hand.do("sheets")
        error = CollectionError("sheets", "cannot be written", "Make room on the disk")
        with hand.watch.failing("sheets.press", error):
            await hand.do("press")
        assert "sheets: cannot be written. Make room on the disk." in hand.notices()
        assert "■ Full 1" in hand.sees("#sheets")


async def test_part_full_with_full_sheets_says_that_both_are_pressed(at_work: AtWork) -> None:
    async with at_work("full") as hand:
        hand.workshop.designs.accept(["lantern-parade"])
        await hand.do("sheets", "press_part")
        assert "6 more inserts wait and are pressed with it, on full sheets." in hand.reads("#box")


async def test_an_insert_is_accepted_while_the_plan_is_made(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        with hand.watch.holding("sheets.plan"):
            hand.send(BY_ID["sheets"].key)
            await hand.until(lambda: "Planning the sheets" in hand.reads("#plan"))
            await hand.until(lambda: "Planning…" in hand.sees("Masthead"))
            await hand.do("bench", "accept")
            assert stage(hand, "lantern-bay") == "title set"
            assert hand.app.work.busy == "", "the plan is given up with its screen"
        await hand.do("sheets")
        assert "3 sheets" in hand.sees("#plan")


async def test_an_open_sheet_says_its_paper_and_how_long_it_waits(at_work: AtWork) -> None:
    async with at_work("batch", size=(140, 40)) as hand:
        await hand.do("accept", "sheets")
        assert "A4 card, 200 g/m², cut with a trimmer" in hand.reads("#about")
        assert "Waiting since 01 March" in hand.reads("#about")


async def test_an_offcut_cannot_be_kept_of_a_sheet_that_is_not_settled(at_work: AtWork) -> None:
    async with at_work("pressed") as hand:
        await hand.do("sheets")
        assert "keep_offcut" not in hand.offered


async def test_a_settled_sheet_is_still_cut(at_work: AtWork) -> None:
    async with at_work("offcut") as hand:
        await hand.do("sheets", "cuts", "check", "check")
        assert "Settled 1" in hand.sees("#sheets")
        assert "edge at the fence" in hand.reads("#cutting")


# --- words ------------------------------------------------------------------------------


def part_full(inserts: int, wasted: float) -> PartFull:
    return PartFull(stock=STOCK, inserts=inserts, wasted=wasted, filled=0.1, fillers=())


def test_many_part_full_sheets_are_told_of_in_one_sentence() -> None:
    few = all_wasted_words([part_full(3, 0.5)] * 2, 7, whole=True)
    assert few[0].startswith("3 inserts on A4 card: 50 % of the paper stays empty")
    assert few[2] == "1 more insert waits and is pressed with it, on full sheets."
    many = all_wasted_words([part_full(3, 0.5), part_full(4, 0.3)] * 20, 140, whole=True)
    assert many == [
        "40 part-full sheets for 140 inserts: 40 % of their paper stays empty, 10 % if filled."
    ]


def test_what_is_too_large_for_its_paper_is_told_with_the_plan() -> None:
    """A kind that fits no sheet waits for ever: the person has to hear of it."""
    part = PlanPart(stock=STOCK, sheets=0, bound=0, proven=True, too_large=("keep-case",))
    words = plan_words(PlanReport(sheets=0, bound=0, proven=True, parts=(part,)))
    assert words == "Nothing is left to press.\n! Too large for A4 card: keep-case."


async def test_what_waits_beyond_the_sheets_shown_is_counted(
    at_work: AtWork, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with at_work() as hand:
        real: Workshop = hand.workshop

        def report(**more: object) -> SheetsReport:
            return altered(type(real.sheets).report(real.sheets, **more), beyond=3)

        monkeypatch.setattr(real.sheets, "report", report)
        await hand.do("sheets")
        assert "3 more wait." in hand.sees("#plan")
        await hand.do("press_part")
        assert hand.screen.is_modal, "they can be pressed though no sheet is begun"


async def test_who_leaves_a_sheet_at_the_printer_is_told_once(
    at_work: AtWork, monkeypatch: pytest.MonkeyPatch
) -> None:
    def follow(job: str, printer: str, tell: object, cancel: Cancel) -> None:
        while True:
            go_on(cancel)
            sleep(0.01)

    hall = Printer(name="hall", state="idle", accepts=True)
    monkeypatch.setattr(printers, "printers", lambda: (hall,))
    monkeypatch.setattr(printers, "send", lambda *given: f"{given[2]}-1")
    monkeypatch.setattr(printers, "follow", follow)
    async with at_work("full") as hand:
        await hand.do("sheets", "press", "leave", "print")
        hand.send(BY_ID["choose"].key)
        await hand.until(lambda: "Printing…" in hand.sees("Masthead"))
        await hand.do("stop")
        await hand.until(lambda: "Sheet 1 is at the printer, which goes on." in hand.notices())
        assert "Nothing was changed" not in hand.notices()


def test_a_sheet_with_a_back_that_is_cut_by_machine_says_so() -> None:
    made = altered(sheet(A4, []), reverse="long")
    report = sheetwork.pressed(made, "sheets/sheet-0007.pdf", "sheets/sheet-0007.dxf")
    said = about_words(report, {}, 0)
    assert "sheet-0007.pdf with its back\n" in said
    assert "\nCut by machine: sheet-0007.dxf\n" in said
