"""Drives the terminal program by its keys, and counts them."""

from __future__ import annotations

import asyncio
import os
import time
from collections.abc import AsyncIterator, Callable, Iterator, Mapping
from contextlib import asynccontextmanager, contextmanager, suppress
from typing import Any
from unittest.mock import patch

from textual import events
from textual._compositor import Compositor
from textual._context import visible_screen_stack
from textual.css.query import NoMatches
from textual.geometry import Region
from textual.pilot import Pilot
from textual.strip import Strip
from textual.widget import Widget

from engine import Workshop
from tests.tui.watched import Watch
from tui.actions import BY_ID
from tui.app import DECLARED_KEYS, OPENING, SpineryApp
from tui.work import ASIDE

NAMES = {" ": "space", "/": "slash", "#": "number_sign", ".": "full_stop", "-": "minus"}
SIGNS = {name: sign for sign, name in NAMES.items()} | {"comma": ","}


PATIENCE = 300
"""Seconds after which what waits for something that never happens fails rather than hangs."""


async def at_once(_: float) -> None:
    """Come to rest at every key: what waits for that is read without waiting."""


async def in_haste(_: float) -> None:
    """Never come to rest: the next key is pressed before anything is read or drawn for it."""
    raise asyncio.CancelledError


@contextmanager
def in_utc() -> Iterator[None]:
    """Tell times of day as they are in UTC, wherever the machine stands."""
    before = os.environ.get("TZ")
    os.environ["TZ"] = "UTC0"
    time.tzset()
    try:
        yield
    finally:
        os.environ.pop("TZ")
        if before is not None:
            os.environ["TZ"] = before
        time.tzset()


class Hand:
    """A person at the keyboard who waits until the screen has caught up."""

    def __init__(self, app: SpineryApp, pilot: Pilot[None], workshop: Workshop, watch: Watch):
        self.app = app
        self.pilot = pilot
        self.workshop = workshop
        """The workshop itself, to see what came of it."""
        self.watch = watch
        self.pressed: list[str] = []
        self.first: Workshop | None = None
        """Another that had the collection open before."""

    @property
    def screen(self) -> Any:
        return self.app.screen

    @property
    def saved(self) -> bytes:
        """What the collection has on record."""
        return (self.workshop.folder / "collection.json").read_bytes()

    # --- keys --------------------------------------------------------------------------

    def send(self, *keys: str) -> None:
        """Press keys, and wait for nothing."""
        for key in keys:
            self.pressed.append(key)
            sign = key if len(key) == 1 else SIGNS.get(key)
            self.app.post_message(events.Key(key, sign))

    async def press(self, *keys: str) -> None:
        for key in keys:
            self.send(key)
            await self.settle()

    async def do(self, *acts: str) -> None:
        """Press the keys of these actions."""
        await self.press(*(BY_ID[act].key for act in acts))

    async def type(self, text: str) -> None:
        """Type as fast as anyone can, and look up when it is written."""
        self.send(*(NAMES.get(sign, sign) for sign in text))
        await self.settle()

    async def pick(self, row: str) -> None:
        """Go to a row of the list in the dialog, and choose it."""
        await self.go_to(row, "Table")
        await self.do("choose")

    async def go_to(self, row: str, table: str) -> None:
        """Walk to a row of a table that has the keys."""
        listed = self.screen.query_one(table)
        way = [one.id for one in listed.rows].index(row) - listed.cursor
        self.send(*["down" if way > 0 else "up"] * abs(way))
        await self.settle()
        assert listed.current == row

    async def click(self, widget: str | Widget, x: int, y: int) -> None:
        await self.pilot.click(widget, offset=(x, y))
        await self.settle()

    # --- waiting -----------------------------------------------------------------------

    @property
    def _is_quiet(self) -> bool:
        """Whether no work is under way, but for what goes on beside, and no message waits."""
        pumps = (self.app, *self.screen.walk_children(with_self=True))
        working = any(not one.is_finished for one in self.app.workers if one.group != ASIDE)
        return not working and not any(pump.message_queue_size for pump in pumps)

    @property
    def _is_drawn(self) -> bool:
        """Whether nothing on the screen waits to be laid out or painted."""
        screen = self.screen
        return not (screen._layout_required or screen._repaint_required or screen._dirty_widgets)

    async def settle(self) -> None:
        """Wait until no work is under way and everything is drawn."""
        drawn = 0
        while drawn < 2 and self.app.is_running:
            while not self._is_quiet and self.app.is_running:
                await asyncio.sleep(0.001)
            await self.pilot.pause(0)
            drawn = drawn + 1 if self._is_quiet and self._is_drawn else 0

    async def until(self, happens: Callable[[], bool]) -> None:
        """Wait until something happens while work is under way."""
        while True:
            with suppress(NoMatches):
                if happens():
                    return
            await self.pilot.pause(0.001)

    # --- looking -----------------------------------------------------------------------

    def sees(self, widget: str = "") -> str:
        """Return the text on the screen, or on one widget of it."""
        visible_screen_stack.set(self.app._background_screens)
        screen = self.screen
        if not widget:
            return "\n".join(strip.text for strip in screen._compositor.render_strips())
        seen = screen.query_one(widget).region.intersection(screen.region)
        rows = Region(0, seen.y, screen.size.width, seen.height)
        chops = screen._compositor._render_chops(rows, rows.line_range.__contains__)
        lines = [Strip.join(chop.values()).text for chop in chops[seen.y : seen.bottom]]
        return "\n".join(line[seen.x : seen.right] for line in lines)

    def reads(self, widget: str = "") -> str:
        """Return that text as one line, however it is broken."""
        return " ".join(self.sees(widget).split())

    def picture(self, proof: str) -> bytes:
        """Return the picture that a proof shows."""
        return self.screen.query_one(proof).query("*").first().image.getvalue()

    def setting(self, act: str) -> str:
        """Return what the list of the Setup says of a setting, which has to be in sight."""
        table = self.screen.query_one("#settings")
        assert table.current == act, "what was changed is shown"
        assert f"› {BY_ID[act].shown or ' '} {BY_ID[act].label}" in self.sees("#settings")
        return next(row.cells[-1] for row in table.rows if row.id == act)

    @property
    def offered(self) -> set[str]:
        """The actions that work now, whether or not the footer names them."""
        active = self.screen.active_bindings.values()
        return {a.binding.id for a in active if a.enabled} & BY_ID.keys()

    def notices(self) -> str:
        return "\n".join(f"{n.title} {n.message}" for n in self.app._notifications)

    @property
    def current(self) -> str | None:
        """The row under the cursor of the screen's first table."""
        return self.screen.query("Table").first().current


def unpainted(compositor: Compositor, *_: object, **__: object) -> None:
    """Compose no update for a terminal that is not there."""
    compositor._dirty_regions.clear()


@asynccontextmanager
async def driven(
    workshop: Workshop,
    size: tuple[int, int] = (80, 24),
    *,
    rests: bool = False,
    paints: bool = False,
    reads: bool = False,
    leads: bool = False,
    keys: Mapping[str, str] = DECLARED_KEYS,
    notices: bool = False,
) -> AsyncIterator[Hand]:
    """Run the program on a workshop; proofs are drawn where the keys come to rest.

    Notices are drawn where the test is about them: they go by time.

    It is painted where that is to be timed; else what is seen is rendered when it is looked at.
    """
    watch = Watch(workshop)
    app = SpineryApp(
        lambda: watch.workshop, name=workshop.name, reads=reads, leads=leads, keys=keys
    )
    app.work.rest = at_once if rests else in_haste
    app.animation_level = "none"
    app.delay_update = lambda _delay=0.0: None  # which Textual does as screens are switched
    paint = Compositor.render_update if paints else unpainted
    with in_utc(), patch.object(Compositor, "render_update", paint):
        async with (
            asyncio.timeout(PATIENCE),
            app.run_test(size=size, notifications=notices) as pilot,
        ):
            hand = Hand(app, pilot, workshop, watch)
            await hand.until(lambda: app.current_mode != OPENING)
            await hand.settle()
            yield hand
