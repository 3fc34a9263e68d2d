"""The footer: every action that can be done now, with its key."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget
from textual.widgets import Static

from tui.actions import FooterItem

_BETWEEN = "  "


class KeyBar(Widget):
    """Two runs of keys: those of the screen, which may wrap, and those that work everywhere."""

    DEFAULT_CSS = """
    KeyBar {
        dock: bottom;
        height: auto;
        background: $panel;
        padding: 0 1;
        & Run { height: auto; width: 1fr; }
    }
    """

    items: reactive[tuple[tuple[FooterItem, ...], tuple[FooterItem, ...]]] = reactive(((), ()))
    """The two runs."""

    class Pressed(Message):
        """A key of the footer was clicked."""

        def __init__(self, act: str) -> None:
            super().__init__()
            self.act = act
            """The id of its action."""

    def compose(self) -> ComposeResult:
        """Lay out the two runs."""
        yield Run(id="own")
        yield Run(id="common")

    def on_mount(self) -> None:
        """Show what was set before there was a place for it."""
        self.watch_items()

    def watch_items(self) -> None:
        """Show the keys."""
        if self.is_mounted:
            for run, items in zip(self.query(Run), self.items, strict=True):
                run.show(items)


class Run(Static):
    """One run of keys."""

    DEFAULT_CSS = """
    Run {
        link-color: $foreground;
        link-style: none;
        link-color-hover: $background;
        link-background-hover: $primary;
        link-style-hover: none;
    }
    """

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002  the name Textual uses
        super().__init__(id=id)
        self._items: tuple[FooterItem, ...] = ()

    def show(self, items: tuple[FooterItem, ...]) -> None:
        """Show these keys; nothing at all when there are none."""
        self._items = items
        self.display = bool(items)
        self._wrap()

    def on_resize(self) -> None:
        """Break the lines anew."""
        self._wrap()

    def _wrap(self) -> None:
        """Break lines between items only."""
        lines: list[list[Content]] = [[]]
        for item in map(_item, self._items):
            length = sum(one.cell_length + len(_BETWEEN) for one in lines[-1])
            if lines[-1] and length + item.cell_length > self.size.width > 0:
                lines.append([])
            lines[-1].append(item)
        self.update(Content("\n").join(Content(_BETWEEN).join(line) for line in lines))

    def action_press(self, act: str) -> None:
        """Report a click."""
        self.post_message(KeyBar.Pressed(act))


def _item(item: FooterItem) -> Content:
    if not item.enabled:
        return Content.from_markup(
            "[$text-disabled]$keys $label[/]", keys=item.keys, label=item.label
        )
    return Content.from_markup(
        f"[@click=press('{item.act}')][bold $accent]$keys[/] $label[/]",
        keys=item.keys,
        label=item.label,
    )
