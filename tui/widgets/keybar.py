"""The footer: the keys that matter now."""

from __future__ import annotations

from functools import lru_cache

from textual.app import ComposeResult
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget

from tui.actions.footer import BETWEEN, FooterItem, one_line
from tui.widgets.flowing import Flowing, joined


class KeyBar(Widget):
    """One line of the keys that matter now."""

    DEFAULT_CSS = """
    KeyBar {
        dock: bottom;
        height: 1;
        background: $panel;
        padding: 0 1;
    }
    """

    items: reactive[tuple[FooterItem, ...]] = reactive(())
    """What could be named, what matters most first."""

    class Pressed(Message):
        """A key of the footer was clicked."""

        def __init__(self, act: str) -> None:
            super().__init__()
            self.act = act
            """The id of its action."""

    def compose(self) -> ComposeResult:
        """Lay out the line."""
        yield Line()

    def on_mount(self) -> None:
        """Show what was set before there was a place for it."""
        self.watch_items()

    def watch_items(self) -> None:
        """Show the keys."""
        if self.is_mounted:
            self.query_one(Line).items = self.items


class Run(Flowing):
    """One run of keys, its lines broken between items only."""

    DEFAULT_CSS = """
    Run {
        link-color: $foreground;
        link-style: none;
        link-color-hover: $background;
        link-background-hover: $primary;
        link-style-hover: none;
    }
    """

    items: reactive[tuple[FooterItem, ...]] = reactive((), layout=True)

    def lines(self, width: int) -> list[Content]:
        """Return the items, as many on a line as fit."""
        return joined(map(_item, self.items), BETWEEN, width)

    def action_press(self, act: str) -> None:
        """Report a click."""
        self.post_message(KeyBar.Pressed(act))


class Line(Run):
    """A run that leaves out what does not go on one line."""

    def lines(self, width: int) -> list[Content]:
        """Return the one line."""
        return joined(map(_item, one_line(self.items, width)), BETWEEN, width)


@lru_cache(256)
def _item(item: FooterItem) -> Content:
    return Content.from_markup(
        f"[@click=press('{item.act}')][bold $accent]$keys[/] $label[/]",
        keys=item.keys,
        label=item.label,
    )
