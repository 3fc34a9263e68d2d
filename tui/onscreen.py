"""What every app of the program has: its look, text only, and an end when it is asked to end."""

from __future__ import annotations

import asyncio
import os
from collections.abc import Sequence
from contextlib import suppress
from functools import partial
from typing import TypeVar

from textual.app import App
from textual.filter import LineFilter

from tui.ending import HUNG_UP, Ended
from tui.line import tend
from tui.look import FEW, LOOKS, NOT_BRIGHTER, look_of
from tui.onlytext import ONLY_TEXT
from tui.terminal import Terminal

T = TypeVar("T")


class OnScreen(App[T]):
    """An app in the look that suits a terminal, which it leaves as the system asks."""

    TITLE = "Spinery"

    def __init__(self, terminal: Terminal) -> None:
        """Be drawn as suits ``terminal``."""
        # Without colours the terminal's own are kept, rather than greys put in their place.
        super().__init__(ansi_color=True if "NO_COLOR" in os.environ else None)
        self._own_loop: asyncio.AbstractEventLoop | None = None
        tend(self._hung_up)
        for look in LOOKS:
            self.register_theme(look)
        self.theme = look_of(terminal).name

    def get_line_filters(self) -> Sequence[LineFilter]:
        """Return what every line passes before it is drawn."""
        own = (ONLY_TEXT, NOT_BRIGHTER) if self.theme in FEW else (ONLY_TEXT,)
        return (*super().get_line_filters(), *own)

    def on_mount(self) -> None:
        """Be ready to be asked to end."""
        self._own_loop = asyncio.get_running_loop()

    def end(self, number: int) -> None:
        """Leave as the system asks by this signal; a change that is being made is finished."""
        if self._own_loop is None:
            raise Ended(number)
        self._own_loop.call_soon_threadsafe(partial(self.exit, return_code=128 + number))

    def _hung_up(self) -> None:
        """Leave, for the terminal is gone. Called in a thread."""
        if self._own_loop is not None:
            with suppress(RuntimeError):  # it has ended meanwhile
                self.end(HUNG_UP)
