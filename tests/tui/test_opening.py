"""The frame is painted before the collection is open, and the keys wait for it."""

from __future__ import annotations

from threading import Event

import pytest

from engine import Workshop
from engine.model.errors import DamagedError
from tui.actions import BY_ID
from tui.app import OPENING, SHEETS, SpineryApp


@pytest.fixture
def held(stocked: Workshop) -> tuple[SpineryApp, Event]:
    """The program while its collection is being opened, until it is let go."""
    let_go = Event()

    def opened() -> Workshop:
        assert let_go.wait(60)
        return stocked

    return SpineryApp(opened, name="A Shelf", reads=False, leads=False), let_go


async def test_what_is_opened_is_named_and_keys_wait_for_it(held: tuple[SpineryApp, Event]) -> None:
    app, let_go = held
    async with app.run_test(size=(80, 24)) as pilot:
        frame = "\n".join(strip.text for strip in app.screen._compositor.render_strips())
        for told in ("A Shelf", "Opening…", "Sheets"):
            assert told in frame
        await pilot.press("4", "3")
        assert app.current_mode == OPENING
        let_go.set()
        while not app.screen.query("#sheets"):
            await pilot.pause(0.001)
        assert app.current_mode == SHEETS


async def test_whoever_does_not_want_to_wait_leaves(held: tuple[SpineryApp, Event]) -> None:
    app, let_go = held
    async with app.run_test() as pilot:
        await pilot.press(BY_ID["quit"].key)
        let_go.set()
    assert app.return_code == 0
    assert app.current_mode == OPENING


async def test_a_collection_that_cannot_be_opened_ends_the_program_with_the_reason() -> None:
    refused = DamagedError("collection.json", "is damaged", "Go back to a backup")

    def opened() -> Workshop:
        raise refused

    app = SpineryApp(opened)
    async with app.run_test() as pilot:
        while app.is_running and app.failure is None:
            await pilot.pause(0.001)
    assert app.failure is refused
