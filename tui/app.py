"""The terminal program: its screens, keys and look, and the one place where work is done.

Deeds are done one after the other in the order of the keys, in a thread; readings run
beside them, and a newer reading of a group replaces an older one. Nothing here blocks.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Coroutine, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from threading import Event
from typing import ClassVar, TypeVar

from textual.app import App, SystemCommand
from textual.binding import BindingType
from textual.reactive import reactive
from textual.screen import Screen
from textual.theme import Theme
from textual.worker import Worker, WorkerState

from engine import Cancel, Cancelled, SpineryError, Workshop
from tui.actions import ACTIONS, BACKLOG, BENCH, BY_ID, EVERYWHERE, SETUP, SHEETS, bindings
from tui.screens.backlog import BacklogScreen
from tui.screens.base import Snapshot, WorkScreen
from tui.screens.bench import BenchScreen
from tui.screens.dialogs import Keys
from tui.screens.setup import SetupScreen
from tui.screens.sheets import SheetsScreen

T = TypeVar("T")

DEEDS = "deeds"
"""The group of the work that changes the collection."""

BUSY_AFTER = 0.1
"""Work that takes longer, in seconds, shows that it is under way."""

LOOK = 0.02
"""How often work is asked whether it was given up, in seconds."""

PAPER = Theme(
    name="paper",
    dark=False,
    primary="#2f5f5b",
    secondary="#6b5b3e",
    accent="#8a3b1e",
    foreground="#2a2723",
    background="#efe8d8",
    surface="#f8f3e7",
    panel="#e2d8c1",
    warning="#7a4a00",
    error="#9b1c1c",
    success="#2d5f33",
)

LAMP = Theme(
    name="lamp",
    dark=True,
    primary="#8fc0b4",
    secondary="#c9b48a",
    accent="#e3a57a",
    foreground="#e6dfd0",
    background="#1d1b18",
    surface="#262320",
    panel="#35302a",
    warning="#e6bb6a",
    error="#ef8e85",
    success="#9ac79a",
)


@dataclass(frozen=True, slots=True, eq=False)
class Waited:
    """Work that is waited for."""

    words: str
    """What is done, in a word or two."""
    given_up: Event | None = None
    """Set once it is to stop; None where it goes on to its end."""

    @property
    def can_stop(self) -> bool:
        """Whether it can be given up, and was not yet."""
        return self.given_up is not None and not self.given_up.is_set()

    def is_given_up(self) -> bool:
        """Return whether it is to stop."""
        return self.given_up is not None and self.given_up.is_set()

    def give_up(self) -> None:
        """Let it stop, if it can."""
        if self.given_up is not None:
            self.given_up.set()


async def until_stopped(get: Callable[[Cancel], T], waited: Waited) -> T:
    """Return what a thread works out. Raises Cancelled as soon as it is given up.

    The thread ends when it next asks whether to go on; nobody waits for that.
    """

    async def stopped() -> None:
        while not waited.is_given_up():
            await asyncio.sleep(LOOK)

    working = asyncio.ensure_future(asyncio.to_thread(get, waited.is_given_up))
    working.add_done_callback(lambda done: done.cancelled() or done.exception())
    stopping = asyncio.ensure_future(stopped())
    try:
        await asyncio.wait((working, stopping), return_when=asyncio.FIRST_COMPLETED)
    finally:
        stopping.cancel()
    if not working.done():
        raise Cancelled
    return working.result()


class SpineryApp(App[None]):
    """The terminal program on one workshop. It does not close the workshop."""

    TITLE = "Spinery"
    CSS_PATH = "app.tcss"
    MODES: ClassVar[dict[str, str | Callable[[], Screen[None]]]] = {
        BENCH: BenchScreen,
        BACKLOG: BacklogScreen,
        SHEETS: SheetsScreen,
        SETUP: SetupScreen,
    }
    DEFAULT_MODE = BENCH
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(EVERYWHERE)]
    COMMAND_PALETTE_BINDING = BY_ID["palette"].key
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-low"), (32, "-tall")]

    busy: reactive[str] = reactive("")
    """What is being worked on, once it takes a while."""

    def __init__(self, workshop: Workshop) -> None:
        """Show and work in ``workshop``."""
        super().__init__()
        self.workshop = workshop
        self._turn = asyncio.Lock()
        self._underway: list[Waited] = []
        """Work that takes a while, the latest last."""
        self.register_theme(PAPER)
        self.register_theme(LAMP)
        self.theme = PAPER.name

    def on_mount(self) -> None:
        """Say why nothing can be changed, if so."""
        if self.workshop.read_only:
            self.notify(
                "Another program has this collection open, so nothing can be changed here.",
                title="Read only",
                timeout=10,
            )

    # --- work --------------------------------------------------------------------------

    def deed(
        self,
        do: Callable[[Workshop], T],
        then: Callable[[T], None] = lambda _: None,
        *,
        words: str = "Working",
    ) -> None:
        """Do one thing in the workshop, after all that was asked before; then read again.

        ``then`` takes the result, on the app's own thread.
        """
        self._deed(lambda _: do(self.workshop), then, Waited(words))

    def long_deed(
        self,
        do: Callable[[Workshop, Cancel], T],
        then: Callable[[T], None],
        *,
        words: str,
    ) -> None:
        """Do one thing that can take seconds and be given up, by the way it changes nothing."""
        self._deed(lambda cancel: do(self.workshop, cancel), then, Waited(words, Event()))

    def _deed(self, do: Callable[[Cancel], T], then: Callable[[T], None], waited: Waited) -> None:
        async def work() -> None:
            async with self._turn:
                with self._waiting(waited):
                    result = await asyncio.to_thread(do, waited.is_given_up)
            then(result)
            self.reload()

        self._run(work, DEEDS)

    def fetch(
        self,
        get: Callable[[], T],
        then: Callable[[T], None],
        *,
        group: str,
        pause: float = 0.0,
    ) -> None:
        """Read something in a thread after a pause, and give it to ``then``.

        A newer fetch of the same group takes its place: what it would have brought is dropped.
        """

        async def work() -> None:
            if pause:
                await asyncio.sleep(pause)
            then(await asyncio.to_thread(get))

        self._run(work, group, exclusive=True)

    def reckon(
        self, get: Callable[[Cancel], T], then: Callable[[T], None], *, group: str, words: str
    ) -> None:
        """Work out in a thread what can take seconds, and give it to ``then``.

        A newer reckoning of the same group, or the cancelling of it, ends an older one soon;
        so does the person, who is told of it by ``words`` and how.
        """

        async def work() -> None:
            waited = Waited(words, Event())
            with self._waiting(waited):
                try:
                    result = await until_stopped(get, waited)
                finally:
                    waited.give_up()
            then(result)

        self._run(work, group, exclusive=True)

    @contextmanager
    def _waiting(self, waited: Waited) -> Iterator[None]:
        """Say that work is under way once it takes a while."""

        def tell() -> None:
            self._underway.append(waited)
            self._show_underway()

        timer = self.set_timer(BUSY_AFTER, tell)
        try:
            yield
        finally:
            timer.stop()
            if waited in self._underway:
                self._underway.remove(waited)
                self._show_underway()

    def _show_underway(self) -> None:
        latest = self._underway[-1] if self._underway else None
        self.busy = "" if latest is None else "Stopping" if latest.is_given_up() else latest.words
        if self.is_running:
            self.screen.refresh_bindings()

    @property
    def can_stop(self) -> bool:
        """Whether something is under way that can be given up."""
        return any(waited.can_stop for waited in self._underway)

    def action_stop(self) -> None:
        """Give up what is under way."""
        for waited in self._underway:
            waited.give_up()
        self._show_underway()

    def _run(
        self,
        work: Callable[[], Coroutine[None, None, None]],
        group: str,
        *,
        exclusive: bool = False,
    ) -> Worker[None]:
        return self.run_worker(work, group=group, exclusive=exclusive, exit_on_error=False)

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """Turn an error of the engine into a notice; let any other end the program loudly."""
        if event.state is not WorkerState.ERROR or event.worker.error is None:
            return
        error = event.worker.error
        if isinstance(error, Cancelled):
            self.notify("Stopped. Nothing was changed.")
            self.work_screen.stopped(event.worker.group)
            return
        if not isinstance(error, SpineryError):
            raise error
        self.notify(str(error), severity="error", timeout=8, markup=False)
        screen = self.work_screen
        screen.failed(event.worker.group)
        if event.worker.group == DEEDS:
            screen.reload()

    @property
    def work_screen(self) -> WorkScreen[Snapshot]:
        """The screen in sight, or the one under the dialog in sight."""
        return next(s for s in reversed(self.screen_stack) if isinstance(s, WorkScreen))

    def reload(self) -> None:
        """Read again what is in sight."""
        self.work_screen.reload()

    def watch_busy(self) -> None:
        """Say in the masthead what is being worked on."""
        if self.is_running:
            self.work_screen.show_heading()

    # --- actions -----------------------------------------------------------------------

    async def act(self, act: str) -> None:
        """Do an action by its id, if it can be done now."""
        namespace = self if EVERYWHERE in BY_ID[act].screens else self.screen
        await self.run_action(act, namespace)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002  Textual's signature
        """Turn off undo in a read-only collection, and what stops work while there is none."""
        act = BY_ID.get(action)
        if action == "stop":
            return self.can_stop
        if act is not None and act.changes and self.workshop.read_only:
            return None
        return True

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """Offer what can be done now in the command palette."""
        bound = {a.binding.id for a in screen.active_bindings.values() if a.enabled}
        place = screen.PLACE if isinstance(screen, WorkScreen) else ""
        for act in ACTIONS:
            keyless = not act.key and place in act.screens and screen.check_action(act.id, ())
            if act.id in bound or keyless:
                yield SystemCommand(
                    f"{act.label} ({act.shown})" if act.key else act.label,
                    act.help,
                    lambda act_id=act.id: self.call_later(self.act, act_id),
                )

    def action_bench(self) -> None:
        """Go to today's batch."""
        self.switch_mode(BENCH)

    def action_backlog(self) -> None:
        """Go to the list of all games."""
        self.switch_mode(BACKLOG)

    def action_sheets(self) -> None:
        """Go to the sheets; from there, look at them again."""
        if self.current_mode == SHEETS:
            self.reload()
        self.switch_mode(SHEETS)

    def action_setup(self) -> None:
        """Go to the setup."""
        self.switch_mode(SETUP)

    def action_undo(self) -> None:
        """Take back the last thing done."""
        self.deed(
            lambda workshop: workshop.undo(),
            lambda words: self.notify(f"Taken back: {words}", markup=False),
        )

    def action_theme(self) -> None:
        """Change between the light and the dark look."""
        self.theme = LAMP.name if self.theme == PAPER.name else PAPER.name

    def action_help(self) -> None:
        """List every key."""
        self.push_screen(Keys())

    def action_palette(self) -> None:
        """Open the command palette."""
        self.action_command_palette()
