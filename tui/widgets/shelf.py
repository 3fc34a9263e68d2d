"""The shelf in sight: a picture of edges, one of which is looked at."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message

from engine import Rect
from tui.widgets.proof import Proof

DOTS = (12, 24)
"""Pixels drawn for a cell, across and down; a terminal that shows fewer scales them."""


class ShelfPicture(Proof):
    """A picture in which a person goes from game to game."""

    can_focus = True

    BINDINGS: ClassVar[list[BindingType]] = [
        *(Binding(key, f"go('{key}')", show=False) for key in ("left", "right", "up", "down")),
        Binding("home", "jump(-1_000_000)", show=False),
        Binding("end", "jump(1_000_000)", show=False),
        Binding("pageup", "jump(-10)", show=False),
        Binding("pagedown", "jump(10)", show=False),
    ]

    spots: Mapping[str, Rect] = {}
    """Where each game in sight stands, as parts of the picture from its upper left."""

    class Gone(Message):
        """A person goes one step."""

        def __init__(self, way: str) -> None:
            super().__init__()
            self.way = way
            """left, right, up or down."""

    class Jumped(Message):
        """A person goes many places on, or back."""

        def __init__(self, places: int) -> None:
            super().__init__()
            self.places = places

    class GameClicked(Message):
        """A game was clicked."""

        def __init__(self, game: str) -> None:
            super().__init__()
            self.game = game

    class Resized(Message):
        """There is another room to fill."""

    def on_resize(self) -> None:
        """Ask for a picture that fills the room."""
        self.post_message(self.Resized())

    @property
    def dots(self) -> tuple[int, int]:
        """The pixels of a picture that fills the room."""
        room = self.content_size
        return max(8, room.width) * DOTS[0], max(4, room.height) * DOTS[1]

    def action_go(self, way: str) -> None:
        """Go one step."""
        self.post_message(self.Gone(way))

    def action_jump(self, places: int) -> None:
        """Go many places."""
        self.post_message(self.Jumped(places))

    def on_click(self, event: events.Click) -> None:
        """Tell which game was clicked."""
        if self.picture is None or not self.picture.region:
            return
        shown = self.picture.region
        x = (event.screen_x + 0.5 - shown.x) / shown.width
        y = (event.screen_y + 0.5 - shown.y) / shown.height
        for game, (left, top, width, height) in self.spots.items():
            if left <= x <= left + width and top <= y <= top + height:
                self.post_message(self.GameClicked(game))
                return
