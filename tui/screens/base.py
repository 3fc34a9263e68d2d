"""What the three screens have in common: head, footer, and a snapshot that they show."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Generic, TypeVar, cast

from textual.app import ComposeResult
from textual.reactive import reactive
from textual.screen import Screen

from engine import Progress, Workshop
from tui.actions import BY_ID
from tui.actions.footer import footer
from tui.widgets.keybar import KeyBar
from tui.widgets.masthead import Heading, Masthead

if TYPE_CHECKING:
    from tui.app import SpineryApp


@dataclass(frozen=True, slots=True)
class Snapshot:
    """What a screen shows, read from the workshop in one go."""

    progress: Progress
    kinds: Mapping[str, str]
    """The names of the case kinds by id."""


S = TypeVar("S", bound=Snapshot)
T = TypeVar("T")


def _nothing(_: object = None) -> None:
    return


class Work:
    """What changes the collection."""

    def __init__(self, app: SpineryApp) -> None:
        """Work for an app."""
        self._app = app
        self.read_only = app.workshop.read_only

    def change(
        self,
        do: Callable[[Workshop], T],
        then: Callable[[T], None] = _nothing,
        *,
        words: str = "Working",
    ) -> None:
        """Make one change; ``then`` takes the result."""
        self._app.deed(do, then, words=words)


class WorkScreen(Screen[None], Generic[S]):
    """A screen of the workshop. It reads a snapshot in the background and shows it."""

    PLACE: ClassVar[str]
    """Its id in ``tui.actions``."""

    def __init__(self) -> None:
        super().__init__()
        self._failures: dict[str, Callable[[], None]] = {}

    state: reactive[S | None] = reactive(None, always_update=True)
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

    def failed(self, group: str) -> None:
        """Put right what was shown in advance, after work of a group came to nothing."""
        self._failures.get(group, _nothing)()

    def stopped(self, group: str) -> None:
        """Put right what was shown in advance, after the person stopped work of a group."""
        self.failed(group)

    @property
    def spinery(self) -> SpineryApp:
        """The app, which does the work and reads in the background."""
        return cast("SpineryApp", self.app)

    @property
    def work(self) -> Work:
        """Where changes are made."""
        return Work(self.spinery)

    def fetch(
        self,
        get: Callable[[Workshop], T],
        then: Callable[[T], None],
        *,
        group: str,
        rest: float = 0.0,
        failed: Callable[[], None] = _nothing,
    ) -> None:
        """Read something once the keys have rested; a newer reading of the group goes before."""
        workshop = self.spinery.workshop
        self._failures[group] = failed
        self.spinery.fetch(lambda: get(workshop), then, group=group, pause=rest)

    def on_mount(self) -> None:
        """Keep the footer up to date."""
        self.bindings_updated_signal.subscribe(self, lambda _screen: self._show_keys())

    def on_screen_resume(self) -> None:
        """Read again: another screen may have changed things."""
        self.show_heading()
        self.reload()

    def reload(self) -> None:
        """Read a new snapshot; an older reading under way is dropped."""
        workshop = self.spinery.workshop
        self.spinery.fetch(lambda: self.read(workshop), self.arrived, group=self.reading)

    @property
    def reading(self) -> str:
        """The group of the work that reads a snapshot."""
        return f"read {self.PLACE}"

    def watch_state(self, state: S | None) -> None:
        """Show a new snapshot."""
        if state is not None and self.is_mounted:
            self.show_heading()
            self.show(state)
            self.refresh_bindings()

    def show_heading(self) -> None:
        """Show the collection, the counts, and what is being worked on."""
        workshop = self.spinery.workshop
        self.query_one(Masthead).heading = Heading(
            collection=workshop.name,
            place=self.PLACE,
            progress=self.state.progress if self.state else None,
            read_only=workshop.read_only,
            busy=self.spinery.busy,
        )

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002  Textual's signature
        """Turn off what changes a read-only collection, and leave out what makes no sense."""
        act = BY_ID.get(action)
        if act is None or self.PLACE not in act.screens:
            return True
        if not self.possible(action):
            return False
        return None if act.changes and self.spinery.workshop.read_only else True

    async def on_key_bar_pressed(self, message: KeyBar.Pressed) -> None:
        """Do what was clicked in the footer."""
        await self.spinery.act(message.act)

    def on_masthead_place_clicked(self, message: Masthead.PlaceClicked) -> None:
        """Go to the screen that was clicked."""
        self.spinery.switch_mode(message.place)

    def arrived(self, state: S) -> None:
        """Take a snapshot that was read."""
        self.state = state

    def _show_keys(self) -> None:
        bound = {
            active.binding.id: active.enabled
            for active in self.active_bindings.values()
            if active.binding.id and active.binding.id in BY_ID
        }
        self.query_one(KeyBar).items = footer(bound)


def kind_names(workshop: Workshop) -> dict[str, str]:
    """Return the names of the case kinds by id."""
    return {kind.id: kind.name for kind in workshop.kinds.lines()}
