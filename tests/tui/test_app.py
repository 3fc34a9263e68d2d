"""The program as a whole: errors, read-only, order of deeds, colours, sizes, the mouse."""

from __future__ import annotations

import asyncio

import pytest
from rich.color import ColorType

from engine.model import Stage
from engine.model.errors import RefusedError
from tests.tui.driving import Hand, at_work
from tests.tui.fake import FakeWorkshop
from tui.actions import ACTIONS, PLACES
from tui.app import BUSY_AFTER, LAMP, PAPER


async def test_an_error_of_the_engine_is_a_notice_and_nothing_is_shown_as_done() -> None:
    workshop = FakeWorkshop()
    async with at_work(workshop) as hand:
        await hand.do("next_batch")
        workshop.fault = RefusedError("Lantern Bay", "is glued shut", "Open it first")
        await hand.do("accept")
        assert "Lantern Bay: is glued shut. Open it first." in hand.notices()
        assert "○ Lantern Bay" in hand.sees()
        await hand.press("up")
        await hand.do("accept")
        assert workshop.designs.proposal("lantern-bay").stage is Stage.TITLE_SET


async def test_any_other_error_ends_the_program_loudly() -> None:
    async def work() -> None:
        async with at_work(FakeWorkshop(fault=ZeroDivisionError("of the program"))) as hand:
            await hand.do("next_batch")

    with pytest.raises(ZeroDivisionError):
        await work()


async def test_undo_with_nothing_to_take_back_says_so() -> None:
    async with at_work() as hand:
        await hand.do("undo")
        assert "Nothing is left to take back." in hand.notices()


async def test_a_read_only_collection_says_so_and_changes_nothing() -> None:
    workshop = FakeWorkshop(read_only=True)
    async with at_work(workshop) as hand:
        for place in PLACES:
            await hand.do(place)
            assert "Read only" in hand.sees("Masthead")
            offered = {c.title for c in hand.app.get_system_commands(hand.screen)}
            for act in ACTIONS:
                if act.changes and place in act.screens:
                    await hand.do(act.id)
                    assert f"{act.label} ({act.shown})" not in offered
        await hand.do("undo")
    assert not workshop.calls


async def test_deeds_are_done_in_the_order_of_the_keys_and_block_no_key() -> None:
    workshop = FakeWorkshop()
    async with at_work(workshop) as hand:
        await hand.do("next_batch")
        workshop.deed_gate.clear()
        await hand.pilot.press("enter", "enter", "enter")
        assert hand.current == "paper-bay", "the cursor goes on while the deeds are under way"
        assert "… Tin Bay" in hand.sees()
        assert workshop.calls == ["batch of 6"]
        workshop.deed_gate.set()
        await hand.settle()
        assert workshop.calls[1:] == [
            "accepted 1: Lantern Bay",
            "accepted 1: Harbour Bay",
            "accepted 1: Tin Bay",
        ]
        assert "✓ Tin Bay" in hand.sees()


async def test_work_that_takes_a_while_is_named() -> None:
    workshop = FakeWorkshop()
    async with at_work(workshop) as hand:
        await hand.do("next_batch", "accept_sure", "sheets")
        workshop.deed_gate.clear()
        await hand.pilot.press("p")
        await asyncio.sleep(2 * BUSY_AFTER)
        await hand.pilot.pause()
        assert "Pressing…" in hand.sees("Masthead")
        workshop.deed_gate.set()
        await hand.settle()
        await hand.do("leave")
        assert "Pressing…" not in hand.sees("Masthead")


def colours(hand: Hand) -> set[tuple[int, int, int]]:
    """Return every colour on the screen."""
    found = set()
    for strip in hand.screen._compositor.render_strips():
        for segment in strip.apply_filter(hand.app._filters[-1], hand.screen.background_colors[1]):
            for colour in (segment.style.color, segment.style.bgcolor) if segment.style else ():
                if colour is not None and colour.type is ColorType.TRUECOLOR:
                    found.add(tuple(colour.triplet))
    return found


async def test_no_color_is_respected_and_the_signs_still_tell(monkeypatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with at_work(doubtful=(1,)) as hand:
        await hand.do("next_batch", "accept")
        assert all(max(c) - min(c) <= 1 for c in colours(hand))
        text = hand.sees()
        assert "✓ Lantern Bay" in text
        assert "? Harbour Bay" in text
        assert "○ Tin Bay" in text
        assert "›" in text
        for acts in (("change_colour",), ("leave", "sheets"), ("backlog", "mark"), ("help",)):
            await hand.do(*acts)
            assert all(max(c) - min(c) <= 1 for c in colours(hand))


def luminance(colour: str) -> float:
    """Relative luminance of WCAG 2.2."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("theme", [PAPER, LAMP], ids=lambda theme: theme.name)
@pytest.mark.parametrize("ink", ["foreground", "secondary", "accent", "warning", "error"])
@pytest.mark.parametrize("ground", ["background", "surface", "panel"])
def test_text_contrasts_enough_in_both_looks(theme, ink: str, ground: str) -> None:
    """4.5 to 1 for text: WCAG 2.2, success criterion 1.4.3."""
    lights = sorted(luminance(getattr(theme, name)) for name in (ink, ground))
    assert (lights[1] + 0.05) / (lights[0] + 0.05) >= 4.5


@pytest.mark.parametrize("size", [(80, 24), (140, 40), (60, 18)])
async def test_counts_footer_and_body_have_room_on_every_screen(size) -> None:
    async with at_work(FakeWorkshop(mixed=True), size=size) as hand:
        await hand.do("next_batch", "accept_sure")
        for place in PLACES:
            await hand.do(place)
            for count in ("54 listed", "6 title set", "0 fitted"):
                assert count in hand.sees("Masthead")
            assert "q Quit" in hand.sees("KeyBar")
            assert hand.screen.query("Table").first().region.height >= size[1] // 3
            for widget in hand.screen.query("Table, Decisions, SheetMap, Proof, KeyBar, Masthead"):
                if widget.display:
                    assert hand.screen.region.contains_region(widget.region)


async def test_the_mouse_works_in_footer_masthead_and_list() -> None:
    async with at_work() as hand:
        await hand.pilot.click("KeyBar", offset=(3, 0))
        await hand.settle()
        assert len(hand.workshop.batch.games()) == 6, "Enter in the footer brings the batch"
        await hand.pilot.click("#batch Table", offset=(12, 4))
        await hand.settle()
        assert hand.current == "paper-bay"
        places = hand.sees("Masthead")
        await hand.pilot.click("Masthead", offset=(places.index("Sheets") + 1, 0))
        await hand.settle()
        assert hand.app.current_mode == "sheets"
        await hand.do("backlog")
        await hand.pilot.click("Table", offset=(1, 3))
        await hand.settle()
        assert "1 marked" in hand.sees("#status")
