"""The terminal program: its screens, its look, and the actions that work on every screen."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial
from typing import ClassVar

from textual.app import App, SystemCommand
from textual.binding import BindingType
from textual.screen import Screen

from engine import Cancel, ReadingReport, Workshop
from tui.actions import ACTIONS, BACKLOG, BENCH, BY_ID, EVERYWHERE, SETUP, SHEETS, bindings
from tui.look import LAMP, PAPER
from tui.screens.backlog import BacklogScreen
from tui.screens.base import View, WorkScreen
from tui.screens.bench import BenchScreen
from tui.screens.dialogs import Keys
from tui.screens.setup import SetupScreen
from tui.screens.sheets import SheetsScreen
from tui.words import found_lines
from tui.work import Work


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

    def __init__(self, workshop: Workshop, *, reads: bool = True) -> None:
        """Show and work in ``workshop``, whose pictures are read meanwhile unless told not to."""
        super().__init__()
        self._reads = reads
        self.work = Work(
            self,
            workshop,
            changed=self.reload,
            followed=self.follow,
            told=self._show_work,
        )
        for look in (PAPER, LAMP):
            self.register_theme(look)
        self.theme = PAPER.name

    def on_mount(self) -> None:
        """Say why nothing can be changed, if so."""
        if self.work.read_only:
            self.notify(
                "Another program has this collection open, so nothing can be changed here.",
                title="Read only",
                timeout=10,
            )
        elif self._reads:
            self._read_on()

    def on_unmount(self) -> None:
        """End what goes on beside the person's work."""
        self.work.stop_aside()

    @property
    def work_screen(self) -> WorkScreen[View]:
        """The screen in sight, or the one under the dialog in sight."""
        return next(s for s in reversed(self.screen_stack) if isinstance(s, WorkScreen))

    def reload(self) -> None:
        """Read again what is in sight."""
        self.work_screen.reload()

    def follow(self) -> None:
        """Show in what is in sight what was found beside the person's work."""
        self.work_screen.follow()

    def _show_work(self) -> None:
        """Say in the masthead what is being worked on, in the footer whether it can be stopped."""
        if self.is_running:
            self.work_screen.show_heading()
            self.screen.refresh_bindings()

    def _read_on(self) -> None:
        """Read the pictures that were not read, beside the person's work."""
        self.work.go_aside(read_on, self._was_read, stopped=self._reading_stopped, words="Reading")

    def _was_read(self, report: ReadingReport) -> None:
        if report.lacking:
            self.notify(report.lacking, markup=False)
        elif told := (*found_lines(report), *report.notes[:3]):
            self.notify("\n".join(told), title="Covers read", markup=False)

    def _reading_stopped(self) -> None:
        if self.is_running:
            self.notify(f"What was read is kept. {BY_ID['read'].shown} goes on.", markup=False)

    # --- actions -----------------------------------------------------------------------

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002  Textual's signature
        """Turn off undo in a read-only collection, and what stops work while there is none."""
        act = BY_ID.get(action)
        if action == "stop":
            return self.work.can_stop
        if act is not None and act.changes and self.work.read_only:
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
                    partial(self.call_later, screen.run_action, act.name),
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

    def action_stop(self) -> None:
        """Give up what is under way."""
        self.work.stop()

    def action_read(self) -> None:
        """Stop reading covers, or go on."""
        if self.work.aside:
            self.work.stop_aside()
        else:
            self._read_on()

    def action_undo(self) -> None:
        """Take back the last thing done."""
        self.work.change(
            lambda workshop: workshop.undo(),
            lambda words: self.notify(f"Taken back: {words}", markup=False),
        )

    def action_theme(self) -> None:
        """Change between the light and the dark look."""
        self.theme = LAMP.name if self.theme == PAPER.name else PAPER.name

    def action_help(self) -> None:
        """List every key."""
        self.push_screen(Keys(self.work_screen.PLACE))

    def action_palette(self) -> None:
        """Open the command palette."""
        self.action_command_palette()


def read_on(workshop: Workshop, tell: Callable[[str], None], cancel: Cancel) -> ReadingReport:
    """Read the pictures that were not read, and tell how many are."""

    def told(report: ReadingReport) -> None:
        tell(f"Reading {report.read} of {report.pictures}")

    return workshop.readings.read(told, cancel=cancel)
