"""The head of every screen: whose collection, which screen, how many games at each stage."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.content import Content
from textual.geometry import Size
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget
from textual.widgets import Static

from tui.actions import BY_ID, PLACES
from tui.widgets.flowing import Flowing, joined
from tui.widgets.table import shortened

if TYPE_CHECKING:
    from engine import Progress

NAME = 30
"""Cells that a collection's name may take."""
LEAST = 6
"""And that it is given however narrow the screen."""

_BETWEEN = " · "


@dataclass(frozen=True, slots=True)
class Heading:
    """What the masthead shows."""

    collection: str = ""
    place: str = ""
    """The id of the screen in sight."""
    progress: Progress | None = None
    read_only: bool = False
    busy: str = ""
    """What is being worked on, in a word or two."""


class Masthead(Widget):
    """One line on a wide screen, two on a narrow one."""

    DEFAULT_CSS = """
    Masthead {
        dock: top;
        height: auto;
        layout: vertical;
        background: $panel;
        padding: 0 1;
        & Places { height: 1; width: 1fr; }
        &.-one-line { height: 1; layout: horizontal; }
        &.-one-line Counts { width: auto; }
        & Places {
            link-color: $foreground;
            link-style: none;
            link-color-hover: $background;
            link-background-hover: $primary;
            link-style-hover: none;
        }
    }
    """

    heading: reactive[Heading] = reactive(Heading())

    class PlaceClicked(Message):
        """The name of a screen was clicked."""

        def __init__(self, place: str) -> None:
            super().__init__()
            self.place = place

    def compose(self) -> ComposeResult:
        """Lay out the two parts."""
        yield Places()
        yield Counts()

    def on_mount(self) -> None:
        """Show what was set before there was a place for it."""
        self.watch_heading()

    def on_resize(self) -> None:
        """Use one line where both parts fit on it."""
        self.set_class(self.size.width >= 118, "-one-line")
        self.watch_heading()

    def watch_heading(self) -> None:
        """Show the heading."""
        if self.is_mounted:
            self.query_one(Places).update(_places(self.heading, self.content_size.width))
            self.query_one(Counts).progress = self.heading.progress


class Places(Static):
    """The names of the screens."""

    def action_go(self, place: str) -> None:
        """Report a click."""
        self.post_message(Masthead.PlaceClicked(place))


class Counts(Flowing):
    """How many games stand at each stage."""

    progress: reactive[Progress | None] = reactive(None, layout=True)

    def lines(self, width: int) -> list[Content]:
        """Return the counts, as many on a line as fit."""
        return joined(_counts(self.progress) if self.progress else (), _BETWEEN, width)

    def get_content_width(self, container: Size, viewport: Size) -> int:  # noqa: ARG002  Textual's signature
        """Take what one line needs."""
        return sum(line.cell_length for line in self.lines(container.width)[:1])


def _places(heading: Heading, width: int) -> Content:
    """Return the screens with their keys, and before them as much of the name as goes there."""
    parts: list[Content] = []
    for place, name in PLACES.items():
        key = BY_ID[place].shown
        if place == heading.place:
            told = Content.from_markup("[bold reverse] $key $name [/]", key=key, name=name)
        else:
            told = Content.from_markup(
                f"[@click=go('{place}')] [bold $accent]$key[/] $name [/]", key=key, name=name
            )
        parts.append(told)
    if heading.read_only:
        parts.append(Content.from_markup("  [bold $warning]Read only[/]"))
    if heading.busy:
        parts.append(Content.from_markup("  [italic]$busy…[/]", busy=heading.busy))
    taken = sum(part.cell_length for part in parts) + 2
    collection = shortened(heading.collection, max(LEAST, min(NAME, width - taken)))
    return Content("").join([Content.from_markup("[bold]$name[/]  ", name=collection), *parts])


def _counts(progress: Progress) -> list[Content]:
    from tui.words import stages_told  # imports what the engine tells, and the head stands before

    counts = [(count, str(stage)) for stage, count in stages_told(progress).items()]
    if progress.reprints:
        counts.append((progress.reprints, "to reprint"))
    return [
        Content.from_markup("[bold]$count[/] $words", count=str(count), words=words)
        for count, words in counts
    ]
