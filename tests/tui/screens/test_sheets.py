"""Sheets: filling, pressing, settling."""

from __future__ import annotations

from msgspec.structs import replace as altered

from engine import PartFull, PlanPart, PlanReport
from engine.model.errors import CollectionError
from tests.tui.driving import at_work
from tests.tui.fake import FakeWorkshop
from tests.tui.made_up import STOCK
from tui.actions import BY_ID
from tui.screens.sheetwords import all_wasted_words, plan_words


async def test_before_anything_is_finished_it_says_why_it_is_empty() -> None:
    async with at_work() as hand:
        await hand.do("sheets")
        assert "No finished insert waits" in " ".join(hand.sees("#about").split())


async def test_an_open_sheet_fills_and_says_what_it_lacks() -> None:
    async with at_work() as hand:
        for count in range(1, 6):
            await hand.do("bench", "accept", "sheets")
            if count > 1:
                assert f"Lacks {7 - count} × Clear snap shell." in hand.sees("#about")
        await hand.do("bench", "accept", "accept", "sheets")
        assert "■ Full 1" in hand.sees("#sheets")
        assert "Full. p presses" in hand.sees("#about")


async def test_sheets_are_named_by_their_state_in_words() -> None:
    async with at_work() as hand:
        await hand.do("next_batch", "accept_sure", "sheets", "press", "leave")
        await hand.do("bench", "next_batch", "accept_sure", "next_batch", "accept", "sheets")
        listed = hand.sees("#sheets")
        assert "▣ Pressed 1" in listed
        assert "■ Full 1" in listed
        assert "□ Open" in listed


async def test_spoiled_marks_belong_to_their_sheet() -> None:
    workshop = FakeWorkshop()
    async with at_work(workshop) as hand:
        for _ in range(2):
            await hand.do("next_batch", "accept_sure")
        await hand.do("sheets", "press", "leave", "spoil")
        await hand.press("down")
        assert "╱" not in hand.sees("#inserts")
        await hand.do("settle")
        assert workshop.calls[-1] == "settled 2, spoiled []"
        await hand.do("settle")
        assert workshop.calls[-1] == "settled 1, spoiled [1]"


async def test_an_insert_is_chosen_on_the_map_with_the_mouse() -> None:
    async with at_work(size=(140, 40)) as hand:
        await hand.do("next_batch", "accept_sure", "sheets")
        sheet_map = hand.screen.query_one("SheetMap")
        lines = hand.sees("SheetMap").splitlines()
        row = next(n for n, line in enumerate(lines) if "Paper Bay" in line)
        await hand.pilot.click(sheet_map, offset=(lines[row].index("Paper Bay"), row))
        await hand.settle()
        assert "› 4  Paper Bay" in hand.sees("#inserts")


async def test_a_sheet_that_cannot_be_written_is_told_and_nothing_moves() -> None:
    workshop = FakeWorkshop()
    async with at_work(workshop) as hand:
        await hand.do("next_batch", "accept_sure", "sheets")
        workshop.fault = CollectionError("sheets", "cannot be written", "Make room on the disk")
        await hand.do("press")
        assert "sheets: cannot be written. Make room on the disk." in hand.notices()
        assert "■ Full 1" in hand.sees("#sheets")


async def test_part_full_with_full_sheets_says_that_both_are_pressed() -> None:
    async with at_work() as hand:
        await hand.do("next_batch", "accept_sure", "next_batch", "accept", "sheets", "press_part")
        assert "6 more inserts wait and are pressed with it, on full sheets." in hand.sees()


async def test_an_insert_is_accepted_while_the_plan_is_reckoned() -> None:
    workshop = FakeWorkshop()
    async with at_work(workshop) as hand:
        workshop.plan_gate.clear()
        await hand.do("next_batch")
        await hand.pilot.press(BY_ID["sheets"].key)
        for _ in range(50):
            await hand.pilot.pause()
        assert "Reckoning" in hand.sees("#plan")
        await hand.pilot.press(BY_ID["bench"].key, BY_ID["accept"].key)
        await hand.settle()
        assert workshop.calls[-1] == "accepted 1: Lantern Bay"
        for _ in range(400):
            if workshop.given_up:
                break
            await hand.pilot.pause(0.01)
        assert workshop.given_up == 1
        workshop.plan_gate.set()
        await hand.do("sheets")
        assert "10 sheets" in hand.sees("#plan")


async def test_an_open_sheet_says_its_paper_and_how_long_it_waits() -> None:
    async with at_work(size=(140, 40)) as hand:
        await hand.do("next_batch", "accept", "sheets")
        assert "A4 card, cut with a trimmer" in hand.sees("#about")
        assert "Waiting since 04 May" in hand.sees("#about")


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


async def test_what_waits_beyond_the_sheets_shown_is_counted() -> None:
    workshop = FakeWorkshop()
    real = workshop.sheets
    workshop.sheets = lambda **more: altered(real(**more), beyond=3)
    async with at_work(workshop) as hand:
        await hand.do("sheets")
        assert "3 more wait." in hand.sees("#plan")
        await hand.do("press_part")
        assert hand.screen.is_modal, "they can be pressed though no sheet is begun"
