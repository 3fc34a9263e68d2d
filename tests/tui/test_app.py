"""The program as a whole: errors, read-only, order of changes, colours, sizes, the mouse."""

from __future__ import annotations

import pytest
from rich.color import ColorType
from textual.worker import WorkerFailed

from engine.model import Stage
from engine.model.errors import RefusedError
from tests.tui.bench_stories import GAME, stage
from tests.tui.conftest import AtWork
from tests.tui.driving import Hand
from tui import app
from tui.actions import ACTIONS, PLACES
from tui.look import LAMP, PAPER

CHANGES = ("accept", "bring_next", "undo", "change")


async def test_an_error_of_the_engine_is_a_notice_and_nothing_is_shown_as_done(
    at_work: AtWork,
) -> None:
    async with at_work("batch") as hand:
        error = RefusedError("Lantern Bay", "is glued shut", "Open it first")
        with hand.watch.failing("designs.accept", error):
            await hand.do("accept")
        assert "Lantern Bay: is glued shut. Open it first." in hand.notices()
        assert "○ Lantern Bay" in hand.sees()
        await hand.press("up")
        await hand.do("accept")
        assert stage(hand, GAME) is Stage.TITLE_SET


async def test_any_other_error_ends_the_program_loudly(at_work: AtWork) -> None:
    async def work() -> None:
        async with at_work() as hand:
            with hand.watch.failing("batch.bring_next", ZeroDivisionError("of the program")):
                await hand.do("next_batch")

    with pytest.raises(WorkerFailed, match="ZeroDivisionError"):
        await work()


async def test_a_call_of_the_engine_where_keys_are_handled_fails_a_test(at_work: AtWork) -> None:
    async def work() -> None:
        async with at_work() as hand:
            hand.app.action_theme = hand.watch.workshop.progress
            await hand.do("theme")

    with pytest.raises(AssertionError, match="progress was called on the interface's own thread"):
        await work()


async def test_undo_with_nothing_to_take_back_says_so(at_work: AtWork) -> None:
    async with at_work("empty") as hand:
        await hand.do("undo")
        assert "There is nothing to take back." in hand.notices()


async def test_a_read_only_collection_says_so_and_changes_nothing(at_work: AtWork) -> None:
    async with at_work("pressed", twice=True) as hand:
        before = hand.saved
        assert "Another program has this collection open" in hand.notices()
        for place in PLACES:
            await hand.do(place)
            assert "Read only" in hand.sees("Masthead")
            offered = {c.title for c in hand.app.get_system_commands(hand.screen)}
            for act in ACTIONS:
                if act.changes and act.key and place in act.screens:
                    await hand.do(act.id)
                    assert f"{act.label} ({act.shown})" not in offered
        await hand.do("undo")
        assert not hand.screen.is_modal
        assert hand.saved == before
        assert not [name for name in hand.watch.calls if name.rpartition(".")[2] in CHANGES]


async def test_a_second_program_goes_on_once_the_first_has_ended(
    at_work: AtWork, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(app, "TRIES_EVERY", 0.02)
    async with at_work("batch", twice=True) as hand:
        assert hand.first is not None
        hand.first.undo()
        hand.first.close()
        await hand.until(lambda: "can be changed here now" in hand.notices())
        await hand.settle()
        assert "Read only" not in hand.sees("Masthead")
        await hand.do("undo")
        assert hand.workshop.read_only is False


async def test_the_system_may_ask_the_program_to_end(at_work: AtWork) -> None:
    async with at_work() as hand:
        hand.app.end(15)
        await hand.until(lambda: hand.app.return_code is not None)
        assert hand.app.return_code == 143


async def test_changes_are_made_in_the_order_of_the_keys_and_block_no_key(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        with hand.watch.holding("designs.accept"):
            hand.send("enter", "enter", "enter")
            await hand.until(lambda: hand.current == "paper-bay")
            await hand.pilot.pause(0)
            assert "… Tin Bay" in hand.sees(), "the cursor goes on while they are under way"
            assert hand.workshop.progress().stages[Stage.TITLE_SET] == 0
        await hand.settle()
        assert "✓ Tin Bay" in hand.sees()
        words = [hand.workshop.undo() for _ in range(3)]
        assert words == ["accepted Tin Bay", "accepted Harbour Bay", "accepted Lantern Bay"]


def colours(hand: Hand) -> set[tuple[int, int, int]]:
    """Return every colour on the screen."""
    found = set()
    for strip in hand.screen._compositor.render_strips():
        for segment in strip.apply_filter(hand.app._filters[-1], hand.screen.background_colors[1]):
            for colour in (segment.style.color, segment.style.bgcolor) if segment.style else ():
                if colour is not None and colour.type is ColorType.TRUECOLOR:
                    found.add(tuple(colour.triplet))
    return found


async def test_no_color_is_respected_and_the_signs_still_tell(
    at_work: AtWork, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with at_work("second") as hand:
        await hand.do("accept")
        assert all(max(c) - min(c) <= 1 for c in colours(hand))
        text = hand.sees()
        assert "✓ Harbour Parade" in text
        assert "? Tin Parade" in text
        assert "○ Paper Parade" in text
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
async def test_counts_footer_and_body_have_room_on_every_screen(size, at_work: AtWork) -> None:
    async with at_work("full", size=size) as hand:
        for place in PLACES:
            await hand.do(place)
            for count in ("8 listed", "6 title set", "0 fitted"):
                assert count in hand.sees("Masthead")
            assert "? Keys" in hand.sees("KeyBar")
            assert hand.screen.query("Table, ShelfPicture").first().region.height >= size[1] // 3
            for widget in hand.screen.query("Table, Decisions, SheetMap, Proof, KeyBar, Masthead"):
                if widget.display:
                    assert hand.screen.region.contains_region(widget.region)


async def test_a_notice_covers_neither_the_list_nor_a_key(at_work: AtWork) -> None:
    async with at_work("pressed", notices=True) as hand:
        await hand.do("sheets", "withdraw")
        await hand.until(lambda: "Sheet 1 is withdrawn" in hand.sees())
        await hand.settle()
        lines = hand.sees().splitlines()
        (at,) = (n for n, line in enumerate(lines) if "Sheet 1 is withdrawn" in line)
        assert at == len(lines) - 2, "it stands right above the footer"
        assert "? Keys" in lines[-1]
        for widget in hand.screen.query("Table, SheetMap, #plan, #about"):
            assert widget.region.bottom <= at
        hand.app.clear_notifications()
        for length in (75, 77, 79):
            said = "hull " * 20
            hand.app.notify(said[: length - 4] + "keel", markup=False)
            await hand.until(lambda: "keel" in hand.sees())
            hand.app.clear_notifications()
            await hand.until(lambda: "keel" not in hand.sees())


async def test_the_mouse_works_in_footer_masthead_and_list(at_work: AtWork) -> None:
    async with at_work() as hand:
        await hand.click("KeyBar", 3, 0)
        assert len(hand.workshop.batch.games()) == 6, "Enter in the footer brings the batch"
        await hand.click("#batch Table", 12, 4)
        assert hand.current == "paper-bay"
        await hand.click("Masthead", hand.sees("Masthead").index("Sheets") + 1, 0)
        assert hand.app.current_mode == "sheets"
        await hand.do("backlog")
        await hand.click("Table", 1, 3)
        assert "1 marked" in hand.sees("#status")


async def test_the_screen_follows_the_terminal_as_it_is_resized(at_work: AtWork) -> None:
    async with at_work("full", size=(140, 40)) as hand:
        await hand.do("backlog")
        for width, height in ((80, 24), (200, 50), (60, 18)):
            await hand.pilot.resize_terminal(width, height)
            await hand.settle()
            assert max(map(len, hand.sees().splitlines())) <= width
            assert "? Keys" in hand.sees("KeyBar")
            assert ("Series" in hand.sees("Table")) is (width > 100)
            assert hand.current == "lantern-bay", "the cursor stays"
        await hand.do("change_case")
        await hand.pilot.resize_terminal(100, 30)
        await hand.settle()
        assert hand.screen.region.contains_region(hand.screen.query_one("#box").region)
        await hand.do("leave")
        assert hand.app.work_screen.PLACE == "backlog"
