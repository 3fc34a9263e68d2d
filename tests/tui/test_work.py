"""Where work is run: what is told of it, and when nothing more is."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from threading import Event
from typing import Any

import pytest

from engine import reading
from engine.model import Reading, TextLine
from engine.model.waiting import go_on
from engine.service import reading as readings
from tests.tui.conftest import AtWork
from tui.actions import BY_ID
from tui.work import nothing


async def test_work_that_takes_a_while_is_named(at_work: AtWork) -> None:
    async with at_work("full") as hand:
        await hand.do("sheets")
        with hand.watch.holding("sheets.press"):
            hand.send(BY_ID["press"].key)
            await hand.until(lambda: "Pressing…" in hand.sees("Masthead"))
        await hand.settle()
        await hand.do("leave")
        assert "Pressing…" not in hand.sees("Masthead")


async def test_work_tells_of_itself_while_a_screen_is_laid_out(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        hand.app.action_setup()
        assert not hand.app.work_screen.is_mounted
        hand.app.work_screen.show_heading()
        await hand.settle()
        assert hand.workshop.name in hand.sees("Masthead")


async def test_a_timer_that_rings_as_its_work_ends_tells_of_nothing(
    at_work: AtWork, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its callback may be in the queue already when the timer is stopped."""
    async with at_work("batch") as hand:
        rung: list[Callable[[], object]] = []
        real = hand.app.set_timer

        def timer(delay: float, callback: Callable[[], object], **more: Any) -> object:
            rung.append(callback)
            return real(delay, callback, **more)

        monkeypatch.setattr(hand.app, "set_timer", timer)
        await hand.do("accept", "accept")
        assert len(rung) >= 2, "one for each acceptance, and for the ganging after it"
        for callback in rung:
            callback()
        await hand.settle()
        assert hand.app.work.busy == ""
        assert "…" not in hand.sees("Masthead")
        assert "Esc Stop" not in hand.sees("KeyBar")


async def test_a_newer_reading_takes_the_place_of_an_older(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        came: list[int] = []
        with hand.watch.holding("progress"):
            for n in range(3):
                hand.screen.fetch(
                    lambda workshop, n=n: (workshop.progress(), n)[1], came.append, group="count"
                )
            await hand.pilot.pause(0)
        await hand.settle()
        assert came == [2]


async def test_what_is_given_up_ends_its_thread_and_leaves_nothing_said(at_work: AtWork) -> None:
    async with at_work("batch") as hand:
        asked: list[bool] = []

        def work_out(_: object, cancel: Callable[[], bool]) -> None:
            while not cancel():
                pass
            asked.append(cancel())

        hand.screen.long_fetch(work_out, lambda _: None, group="count", words="Counting")
        await hand.until(lambda: "Counting…" in hand.sees("Masthead"))
        await hand.do("stop")
        await hand.until(lambda: asked == [True])
        assert hand.app.work.busy == ""
        assert "Stopped. Nothing was changed." in hand.notices()


async def test_covers_are_read_beside_the_work_and_the_screen_follows(
    at_work: AtWork, monkeypatch: pytest.MonkeyPatch
) -> None:
    pauses = [Event(), Event()]

    def read_all(
        paths: Mapping[str, Path], cancel: Callable[[], bool] | None = None
    ) -> Iterator[tuple[str, Reading]]:
        for name, pause in zip(paths, pauses, strict=False):
            while not pause.wait(0.001):
                go_on(cancel)
            yield name, Reading(lines=(TextLine("Lantern Bay", 0.1, 0.1, 0.9, 0.2),))

    monkeypatch.setattr(reading, "read_all", read_all)
    monkeypatch.setattr(reading, "can_read", lambda: True)
    monkeypatch.setattr(readings, "SECONDS", 0.0)
    async with at_work("batch", reads=True) as hand:
        await hand.until(lambda: "Reading…" in hand.sees("Masthead"))
        count = hand.watch.calls.count("designs.proposals")
        pauses[0].set()
        await hand.until(lambda: "Reading 1 of " in hand.sees("Masthead"))
        await hand.until(lambda: hand.watch.calls.count("designs.proposals") > count)
        await hand.do("read")
        await hand.until(lambda: "What was read is kept. ^r goes on." in hand.notices())
        assert hand.workshop.readings.report().read == 1
        pauses[1].set()
        await hand.do("read")
        await hand.until(lambda: not hand.app.work.aside)
        await hand.settle()
        assert hand.workshop.readings.report().read == 3
        assert "Reading" not in hand.sees("Masthead")


async def test_who_leaves_waits_for_nothing_that_goes_on_beside(at_work: AtWork) -> None:
    """The program ends once its threads have."""
    gave_up: list[bool] = []
    begun = Event()

    def go_on_beside(_: object, __: object, cancel: Callable[[], bool]) -> None:
        begun.set()
        while not (gave_up or cancel()):
            pass
        gave_up.append(cancel())

    async with at_work("batch") as hand:
        hand.app.work.go_aside(go_on_beside, nothing, stopped=nothing, words="Counting")
        await hand.until(begun.is_set)
        hand.app.exit()
        await hand.until(lambda: not hand.app.is_running)
        await hand.until(lambda: bool(gave_up))
    assert gave_up == [True]
