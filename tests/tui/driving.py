"""Drives the terminal program by its keys, and counts them."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from typing import Any

from textual.pilot import Pilot

from engine import Workshop
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

    async def pick(self, row: str) -> None:
        """Go to a row of the list in the dialog, and choose it."""
        await self.go_to(row, "Table")
        await self.do("choose")

    async def go_to(self, row: str, table: str) -> None:
        """Walk to a row of a table that has the keys."""
        listed = self.screen.query_one(table)
        way = [one.id for one in listed.rows].index(row) - listed.cursor
        await self.pilot.press(*["down" if way > 0 else "up"] * abs(way))
        await self.settle()
        assert listed.current == row

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

    def reads(self, widget: str = "") -> str:
        """Return that text as one line, however it is broken."""
        return " ".join(self.sees(widget).split())

    def notices(self) -> str:
        return "\n".join(f"{n.title} {n.message}" for n in self.app._notifications)

    @property
    def current(self) -> str | None:
        """The row under the cursor of the screen's first table."""
        return self.screen.query("Table").first().current


@asynccontextmanager
async def driven(
    workshop: Workshop, size: tuple[int, int] = (80, 24), *, rests: bool = False
) -> AsyncIterator[Hand]:
    """Run the program on a workshop; pictures are drawn at once, where keys come to rest."""
    async with at_work(workshop, size) as hand:
        yield hand


@asynccontextmanager
async def at_work(
    workshop: Any = None, size: tuple[int, int] = (80, 24), **kind: Any
) -> AsyncIterator[Hand]:
    """Run the program on a workshop, by default on sixty made-up games."""
    if workshop is None:
        from tests.tui.fake import FakeWorkshop

        workshop = FakeWorkshop(**kind)
    app = SpineryApp(workshop)
    async with app.run_test(size=size) as pilot:
        hand = Hand(app, pilot)
        await hand.settle()
        yield hand
