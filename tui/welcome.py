"""Where there is no collection yet: the demo, a folder, or a new collection."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import ClassVar, NamedTuple

from engine import PathLook, Sought, look_at_path
from tui.onscreen import OnScreen
from tui.screens.choosers import Pick
from tui.screens.paths import PathDialog
from tui.terminal import USUAL_TERMINAL, Terminal
from tui.widgets.table import Column, Row

DEMO_FOLDER = "harbour-street"
NEW_FOLDER = "my-shelf"

CHOICES = {
    "demo": ("The demo", "a lending shelf of made-up games, half done"),
    "folder": ("A folder", "a collection that is there already"),
    "new": ("A new collection", "begins with your list"),
}
"""What there is to open, with a word on each."""


class Chosen(NamedTuple):
    """What the person wants to open."""

    folder: Path
    demo: bool = False


class Welcome(OnScreen[Chosen]):
    """Asks what to open. Gives back the choice, or None where the person left."""

    CSS_PATH = "app.tcss"
    ENABLE_COMMAND_PALETTE = False
    VERTICAL_BREAKPOINTS: ClassVar = [(0, "-low"), (32, "-tall")]

    def __init__(self, terminal: Terminal = USUAL_TERMINAL) -> None:
        """Ask in the look that suits ``terminal``."""
        super().__init__(terminal)

    def on_mount(self) -> None:
        """Ask what to open."""
        self._ask()

    def _ask(self, at: str | None = None) -> None:
        rows = [Row(key, words) for key, words in CHOICES.items()]
        about = dict.fromkeys(CHOICES, "A collection is a folder of your own: copy it as you like.")
        pick = Pick("Spinery: what to open", (Column("", 18), Column("")), rows, at=at, about=about)
        self.push_screen(pick, self._chosen)

    def _chosen(self, what: str | None) -> None:
        match what:
            case None:
                self.exit()
            case "folder":
                words = "The folder of a collection."
                self._ask_folder(what, words, Sought.PICTURES, choice="Open")
            case "new":
                words = "A folder to make it in. Nothing of the collection lies elsewhere."
                self._ask_folder(what, words, Sought.COLLECTION, NEW_FOLDER, choice="Make")
            case _:
                words = "A folder to make the demo in."
                self._ask_folder(what, words, Sought.COLLECTION, DEMO_FOLDER, choice="Make")

    def _ask_folder(
        self, what: str, words: str, sought: Sought, text: str = "", *, choice: str
    ) -> None:
        def taken(folder: Path | str | None) -> None:
            if isinstance(folder, Path):
                self.exit(Chosen(folder, demo=what == "demo"))
            else:
                self._ask(what)

        look = partial(self._look, sought)
        title, _ = CHOICES[what]
        dialog = PathDialog(title, words, sought, look, text=text, choice=choice, leave="Back")
        self.push_screen(dialog, taken)

    def _look(self, sought: Sought, typed: str, then: Callable[[PathLook], None]) -> None:
        async def work() -> None:
            then(await asyncio.to_thread(look_at_path, typed, sought))

        self.run_worker(work, group="path", exclusive=True)
