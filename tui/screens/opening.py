"""What is in sight until the collection is open."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.events import Key
from textual.screen import Screen

from tui.widgets.keybar import KeyBar
from tui.widgets.masthead import Heading, Masthead


class Opening(Screen[None]):
    """The frame of every screen, with nothing in it yet."""

    def __init__(self, name: str) -> None:
        """Say that the collection called ``name`` is being opened."""
        super().__init__()
        self._collection = name
        self._keys: list[Key] = []

    def compose(self) -> ComposeResult:
        """Lay out the head and the footer, where they stay."""
        yield Masthead()
        yield KeyBar()

    def on_mount(self) -> None:
        """Say what is being opened."""
        self.query_one(Masthead).heading = Heading(self._collection, busy="Opening")

    def on_key(self, key: Key) -> None:
        """Keep a key for the screen that comes."""
        self._keys.append(key)

    def hand_on(self) -> None:
        """Press the keys that were kept."""
        for key in self._keys:
            self.app.post_message(Key(key.key, key.character))
