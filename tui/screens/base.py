"""What the screens have in common: head, footer, a snapshot that they show, and their work."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Generic, Protocol, TypeVar, cast

from textual.app import ComposeResult
from textual.reactive import var
from textual.screen import Screen

from tui.actions import BY_ID
from tui.actions.footer import footer
from tui.widgets.keybar import KeyBar
from tui.widgets.masthead import Heading, Masthead
from tui.work import Work, nothing

if TYPE_CHECKING:
    from engine import Cancel, Progress, Workshop

T = TypeVar("T")

SNAPSHOT = "snapshot"
"""The group of the work that reads a screen's snapshot."""


class Working(Protocol):
    """An app whose screens work in one workshop."""

    work: Work
    looked_at: str
    """The game that the screen before was at, for the one that is gone to."""


@dataclass(frozen=True, slots=True)
class View:
    """What a screen shows, read from the workshop in one go."""

    progress: Progress
    kinds: Mapping[str, str]
    """The names of the case kinds by id."""


S = TypeVar("S", bound=View)


class WorkScreen(Screen[None], Generic[S]):
    """A screen of the workshop. It reads a snapshot in the background and shows it."""

    PLACE: ClassVar[str]
    """Its id in ``tui.actions``."""

    state: var[S | None] = var(None, always_update=True)
    """The snapshot in sight. One that equals it is shown too: work on it may have failed."""

    def compose(self) -> ComposeResult:
        """Lay out the head, what the screen is about, and the footer."""
        yield Masthead()
        yield from self.body()
        yield KeyBar()

    @abstractmethod
    def body(self) -> ComposeResult:
        """Lay out what the screen is about."""

    @abstractmethod
    def read(self, workshop: Workshop) -> S:
        """Return a snapshot. Called in a thread: touches no widget."""

    @abstractmethod
    def show(self, state: S) -> None:
        """Show a snapshot."""

    @abstractmethod
    def possible(self, act: str) -> bool:
        """Return whether an action makes sense just now; the footer leaves out the others."""

    # --- work: see ``tui.work`` --------------------------------------------------------

    @property
    def work(self) -> Work:
        """Where work is run."""
        return cast("Working", self.app).work

    @property
    def current_game(self) -> str:
        """The game that the person is at; empty for none."""
        return ""

    def fetch(
        self,
        get: Callable[[Workshop], T],
        then: Callable[[T], None],
        *,
        group: str,
        rest: float = 0.0,
        failed: Callable[[], None] = nothing,
    ) -> None:
        """Read something for this screen, until another takes its place."""
        self.work.fetch(self, get, then, group=group, rest=rest, failed=failed)

    def long_fetch(
        self,
        get: Callable[[Workshop, Cancel], T],
        then: Callable[[T], None],
        *,
        group: str,
        words: str,
        stopped: Callable[[], None] = nothing,
    ) -> None:
        """Work out for this screen what can take seconds, until another takes its place."""
        self.work.long_fetch(self, get, then, group=group, words=words, stopped=stopped)

    # --- the snapshot ------------------------------------------------------------------

    @property
    def in_sight(self) -> bool:
        """Whether it is the screen that was gone to, be it under a dialog."""
        return self.is_mounted and self in self.app.screen_stack

    def on_mount(self) -> None:
        """Keep the footer up to date."""
        self.bindings_updated_signal.subscribe(self, lambda _screen: self._show_keys())

    def on_screen_resume(self) -> None:
        """Read again: another screen may have changed things."""
        self.show_heading()
        self.reload()

    def on_screen_suspend(self) -> None:
        """Read nothing more once another screen has taken its place."""
        if not self.in_sight:
            self.workers.cancel_node(self)

    def reload(self) -> None:
        """Read a new snapshot; an older reading under way is dropped."""
        self.fetch(self.read, self.arrived, group=SNAPSHOT)

    def follow(self) -> None:
        """Show what was found beside the person's work, which goes on."""
        self.reload()

    def arrived(self, state: S) -> None:
        """Take a snapshot that was read."""
        self.state = state

    def watch_state(self, state: S | None) -> None:
        """Show a new snapshot."""
        if state is not None and self.in_sight:
            self.show_heading()
            self.show(state)
            self.refresh_bindings()

    def show_heading(self) -> None:
        """Show the collection, the counts, and what is being worked on."""
        # Work may tell of itself while a screen is still to be laid out, or is taken down.
        for masthead in self.query(Masthead):
            masthead.heading = Heading(
                collection=self.work.name,
                place=self.PLACE,
                progress=self.state.progress if self.state else None,
                read_only=self.work.read_only,
                busy=self.work.busy or self.work.aside,
            )

    # --- actions -----------------------------------------------------------------------

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002  Textual's signature
        """Turn off what changes a read-only collection, and leave out what makes no sense."""
        act = BY_ID.get(action)
        if act is None or self.PLACE not in act.screens:
            return True
        if not self.possible(action):
            return False
        return None if act.changes and self.work.read_only else True

    async def on_key_bar_pressed(self, message: KeyBar.Pressed) -> None:
        """Do what was clicked in the footer."""
        await self.run_action(BY_ID[message.act].name)

    def on_masthead_place_clicked(self, message: Masthead.PlaceClicked) -> None:
        """Go to the screen that was clicked."""
        self.app.switch_mode(message.place)

    def _show_keys(self) -> None:
        bound = {
            active.binding.id: active.enabled
            for active in self.active_bindings.values()
            if active.binding.id and active.binding.id in BY_ID
        }
        self.query_one(KeyBar).items = footer(bound, self.PLACE)
