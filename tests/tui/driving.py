"""Drives the terminal program by its keys, and counts them."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from typing import Any

from textual.pilot import Pilot

from tests.tui.fake import FakeWorkshop
from tui.actions import BY_ID
from tui.app import SpineryApp


class Hand:
    """A person at the keyboard who waits until the screen has caught up."""

    def __init__(self, app: SpineryApp, pilot: Pilot[None]) -> None:
        self.app = app
        self.pilot = pilot
        self.pressed: list[str] = []

    @property
    def screen(self) -> Any:
        return self.app.screen

    @property
    def workshop(self) -> Any:
        return self.app.workshop

    async def press(self, *keys: str) -> None:
        for key in keys:
            self.pressed.append(key)
            await self.pilot.press(key)
            await self.settle()

    async def do(self, *acts: str) -> None:
        """Press the keys of these actions."""
        await self.press(*(BY_ID[act].key for act in acts))

    async def type(self, text: str) -> None:
        names = {" ": "space", "/": "slash", "#": "number_sign", ".": "full_stop", "-": "minus"}
        await self.press(*(names.get(sign, sign) for sign in text))

    async def settle(self) -> None:
        """Wait until no work is under way and everything is drawn."""
        await self.pilot.pause(0)
        while any(not worker.is_finished for worker in self.app.workers):
            await asyncio.sleep(0.002)
        await self.pilot.pause()

    async def until(self, happens: Callable[[], bool]) -> None:
        """Wait until something happens while work is under way."""
        while not happens():
            await asyncio.sleep(0.002)
        await self.pilot.pause(0)

    def sees(self, widget: str = "") -> str:
        """Return the text on the screen, or on one widget of it."""
        strips = self.screen._compositor.render_strips()
        lines = [strip.text for strip in strips]
        if not widget:
            return "\n".join(lines)
        x, y, width, height = self.screen.query_one(widget).region
        return "\n".join(line[x : x + width] for line in lines[y : y + height])

    def setting(self, act: str) -> str:
        """Return what the list of the Setup says of a setting, which has to be in sight."""
        table = self.screen.query_one("#settings")
        assert table.current == act, "what was changed is shown"
        assert f"› {BY_ID[act].shown or ' '} {BY_ID[act].label}" in self.sees("#settings")
        return next(row.cells[-1] for row in table.rows if row.id == act)

    def notices(self) -> str:
        return "\n".join(f"{n.title} {n.message}" for n in self.app._notifications)

    @property
    def current(self) -> str | None:
        """The row under the cursor of the screen's first table."""
        return self.screen.query("Table").first().current


@asynccontextmanager
async def at_work(
    workshop: Any = None, size: tuple[int, int] = (80, 24), **kind: Any
) -> AsyncIterator[Hand]:
    """Run the program on a workshop, by default on sixty made-up games."""
    app = SpineryApp(workshop if workshop is not None else FakeWorkshop(**kind))
    async with app.run_test(size=size) as pilot:
        hand = Hand(app, pilot)
        await hand.settle()
        yield hand
