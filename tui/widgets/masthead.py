"""The head of every screen: whose collection, which screen, how many games at each stage."""

from __future__ import annotations

from dataclasses import dataclass

from textual.app import ComposeResult
from textual.content import Content
from textual.message import Message
from textual.reactive import reactive
from textual.widget import Widget
from textual.widgets import Static

from engine import Progress
from tui.actions import PLACES


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
        height: 2;
        layout: vertical;
        background: $panel;
        padding: 0 1;
        & Static { height: 1; width: 1fr; }
        &.-one-line { height: 1; layout: horizontal; }
        &.-one-line #counts { width: auto; }
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
        yield Places(id="places")
        yield Static(id="counts")

    def on_mount(self) -> None:
        """Show what was set before there was a place for it."""
        self.watch_heading()

    def on_resize(self) -> None:
        """Use one line where both parts fit on it."""
        self.set_class(self.size.width >= 118, "-one-line")

    def watch_heading(self) -> None:
        """Show the heading."""
        if self.is_mounted:
            self.query_one("#places", Static).update(_places(self.heading))
            self.query_one("#counts", Static).update(_counts(self.heading.progress))


class Places(Static):
    """The names of the screens."""

    def action_go(self, place: str) -> None:
        """Report a click."""
        self.post_message(Masthead.PlaceClicked(place))


def _places(heading: Heading) -> Content:
    parts = [Content.from_markup("[bold]$name[/]  ", name=heading.collection)]
    for place, name in PLACES.items():
        if place == heading.place:
            parts.append(Content.from_markup("[bold reverse] $name [/]", name=name))
        else:
            parts.append(Content.from_markup(f"[@click=go('{place}')] $name [/]", name=name))
    if heading.read_only:
        parts.append(Content.from_markup("  [bold $warning]Read only: open in another program[/]"))
    if heading.busy:
        parts.append(Content.from_markup("  [italic]$busy…[/]", busy=heading.busy))
    return Content("").join(parts)


def _counts(progress: Progress | None) -> Content:
    if progress is None:
        return Content("")
    counts = [
        Content.from_markup("[bold]$count[/] $stage", count=str(count), stage=str(stage))
        for stage, count in progress.stages.items()
    ]
    if progress.reprints:
        counts.append(
            Content.from_markup("[bold]$count[/] to reprint", count=str(progress.reprints))
        )
    return Content(" · ").join(counts)
