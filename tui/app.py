"""The terminal program: its screens, its look, and the actions that work on every screen."""

from __future__ import annotations

import asyncio
import os
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from functools import partial
from types import MappingProxyType
from typing import ClassVar

from textual.app import SystemCommand
from textual.binding import BindingType
from textual.events import Resize
from textual.filter import LineFilter
from textual.screen import Screen

from engine import Cancel, ChangeLine, Day, ReadingReport, Step, Workshop
from tui.act import put_in_force
from tui.actions import ACTIONS, BACKLOG, BENCH, BY_ID, EVERYWHERE, SETUP, SHEETS, SHELF, bindings
from tui.ending import HUNG_UP, Ended
from tui.line import tend
from tui.look import FEW, LOOKS, NOT_BRIGHTER, look_of, other
from tui.onlytext import ONLY_TEXT
from tui.picturekind import measure_cell, picture_kind
from tui.screens.backlog import BacklogScreen
from tui.screens.base import WorkScreen
from tui.screens.bench import BenchScreen
from tui.screens.checkpage import CheckPages
from tui.screens.dialogs import Keys
from tui.screens.histories import Changes
from tui.screens.papers import PaperShelf
from tui.screens.setup import SetupScreen
from tui.screens.sheets import SheetsScreen
from tui.screens.shelf import ShelfScreen
from tui.screens.start import Guide, Start
from tui.screens.taking import Taking
from tui.screens.whole import WholeKeys
from tui.terminal import USUAL_TERMINAL, Terminal
from tui.widgets.proof import Proof
from tui.words import found_lines, step_lines, step_words
from tui.work import Work

TRIES_EVERY = 2.0
"""Seconds between asking whether another program has let go of the collection."""

YIELDING = 0.001
"""Seconds after which work in a thread lets the keys be handled; five times that is usual."""

DECLARED_KEYS: Mapping[str, str] = MappingProxyType({})
"""No key is another than declared."""


class SpineryApp(WholeKeys):
    """The terminal program on one workshop. It does not close the workshop."""

    TITLE = "Spinery"
    CSS_PATH = "app.tcss"
    MODES: ClassVar[dict[str, str | Callable[[], Screen[None]]]] = {
        BENCH: BenchScreen,
        BACKLOG: BacklogScreen,
        SHEETS: SheetsScreen,
        SETUP: SetupScreen,
        SHELF: ShelfScreen,
    }
    DEFAULT_MODE = BENCH
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(EVERYWHERE)]
    COMMAND_PALETTE_BINDING = BY_ID["palette"].key
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-low"), (32, "-tall")]

    def __init__(
        self,
        workshop: Workshop,
        *,
        reads: bool = True,
        leads: bool = True,
        terminal: Terminal = USUAL_TERMINAL,
        keys: Mapping[str, str] = DECLARED_KEYS,
    ) -> None:
        """Show and work in ``workshop``.

        Its pictures are read meanwhile, and the person is led through the first steps where it is
        empty, unless told not to. ``keys`` are those of ``tui.actions.keymap`` that the person
        chose.
        """
        # Without colours the terminal's own are kept, rather than greys put in their place.
        super().__init__(ansi_color=True if "NO_COLOR" in os.environ else None)
        sys.setswitchinterval(YIELDING)
        tend(self._hung_up)
        self._reads = reads
        self._own_loop: asyncio.AbstractEventLoop | None = None
        self.looked_at = ""
        self._leads = leads
        self.work = Work(
            self,
            workshop,
            changed=self.reload,
            followed=self.follow,
            told=self._show_work,
        )
        self._unread = False
        """Pictures came while others were being read."""
        self.taking = Taking(self, self.work, self._read_new)
        self.guide = Guide(self, self.work, self.taking, self._begin)
        put_in_force(keys)
        self.set_keymap(keys)
        for look in LOOKS:
            self.register_theme(look)
        self.theme = look_of(terminal).name

    def get_line_filters(self) -> Sequence[LineFilter]:
        """Return what every line passes before it is drawn."""
        own = (ONLY_TEXT, NOT_BRIGHTER) if self.theme in FEW else (ONLY_TEXT,)
        return (*super().get_line_filters(), *own)

    def on_mount(self) -> None:
        """Say why nothing can be changed, if so, and go on as soon as that ends."""
        self._own_loop = asyncio.get_running_loop()
        for note in self.work.notes:
            self.notify(note, timeout=10, markup=False)
        if self.work.read_only:
            self.notify(self.work.why_not, title="Read only", timeout=10, markup=False)
        else:
            if self._reads:
                self._read_on()
            if self._leads:
                self.guide.open_if_empty()
        self.set_interval(TRIES_EVERY, self._try_to_go_on)
        # What shows pictures takes long to import: beside the person, once the screen is painted.
        self.call_after_refresh(partial(self.run_worker, picture_kind, thread=True))

    def _try_to_go_on(self) -> None:
        """Ask whether the collection can be changed by now, where that may come to be."""
        if self.work.may_go_on:
            self.work.go_on(self._goes_on)

    def _goes_on(self) -> None:
        self.notify("The collection was read again, and can be changed here now.")
        if self._reads:
            self._read_on()

    def on_resize(self, event: Resize) -> None:
        """Draw pictures for letters of another size, before the screen is laid out."""
        if measure_cell(*event.size, event.pixel_size):
            for proof in self.screen.query(Proof):
                proof.draw_anew()

    def end(self, number: int) -> None:
        """Leave as the system asks by this signal; a change that is being made is finished."""
        if self._own_loop is None:
            raise Ended(number)
        self._own_loop.call_soon_threadsafe(partial(self.exit, return_code=128 + number))

    def _hung_up(self) -> None:
        """Leave, for the terminal is gone. Called in a thread."""
        if self._own_loop is not None:
            with suppress(RuntimeError):  # it has ended meanwhile
                self.end(HUNG_UP)

    def on_unmount(self) -> None:
        """End what goes on beside the person's work."""
        self.work.stop_aside()

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
            if isinstance(self.screen, Start):
                self.screen.show_work(self.work.busy)

    def _read_on(self) -> None:
        """Read the pictures that were not read, beside the person's work."""
        self.work.go_aside(read_on, self._was_read, stopped=self._reading_stopped, words="Reading")

    def _read_new(self) -> None:
        """Read the pictures just taken in; where some are being read, once that is done."""
        self._unread = bool(self.work.aside)
        if self._reads and not self._unread:
            self._read_on()

    def _begin(self) -> None:
        """Go to the Bench and bring the first games there."""
        self.switch_mode(BENCH)
        self.call_later(self._bring_first)

    def _bring_first(self) -> None:
        screen = self.work_screen
        if isinstance(screen, BenchScreen):
            screen.action_next_batch()

    def _was_read(self, report: ReadingReport) -> None:
        if self._unread and not report.lacking:
            self.call_later(self._read_new)
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
        if action == "proof_file" and not self.work_screen.current_game:
            return False
        if act is not None and act.changes and self.work.read_only:
            return None
        return True

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """Offer what can be done now in the command palette."""
        bound = {a.binding.id for a in screen.active_bindings.values() if a.enabled}
        place = screen.PLACE if isinstance(screen, WorkScreen) else ""
        for act in ACTIONS:
            owner = self if EVERYWHERE in act.screens else screen
            here = place in act.screens or owner is self
            keyless = not act.key and here and owner.check_action(act.id, ())
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

    def action_shelf(self) -> None:
        """Go to the shelf, at the game in sight."""
        self.looked_at = self.work_screen.current_game
        self.switch_mode(SHELF)

    def action_stop(self) -> None:
        """Give up what is under way."""
        self.work.stop()

    def action_read(self) -> None:
        """Stop reading covers, or go on."""
        if self.work.aside:
            self.work.stop_aside()
        else:
            self._read_on()

    def action_start(self) -> None:
        """Walk through the first steps, or take one of them again."""
        self.guide.open()

    def action_take_list(self) -> None:
        """Take in a list of games."""
        self.taking.take_list()

    def action_take_pictures(self) -> None:
        """Take in a folder of pictures."""
        self.taking.take_pictures()

    def action_papers(self) -> None:
        """Choose the paper, or describe one."""
        PaperShelf(self, self.work).open()

    def action_check_page(self) -> None:
        """Write a check page, or type what was measured on one."""
        CheckPages(self, self.work).open()

    def action_undo(self) -> None:
        """Take back the last thing done."""
        self._step("Taken back", lambda workshop: workshop.history.undo())

    def action_redo(self) -> None:
        """Do again what was taken back last."""
        self._step("Done again", lambda workshop: workshop.history.redo())

    def action_history(self) -> None:
        """List what was done, to go back to where things stood."""

        def ask(found: tuple[Sequence[ChangeLine], Sequence[Day]]) -> None:
            dialog = Changes(*found)
            self.push_screen(dialog, partial(chosen, dialog.present))

        def chosen(present: int, row: str | None) -> None:
            if row is None or row == str(present) or self.work.read_only:
                return
            if row.isdecimal():
                self._step("Went", lambda workshop: workshop.history.go_to(int(row)))
            else:
                self._step("Done", lambda workshop: workshop.history.go_to_day(row))

        self.work.fetch(
            self.work_screen,
            lambda workshop: (workshop.history.lines(), workshop.history.days()),
            ask,
            group="history",
        )

    def _step(self, verb: str, go: Callable[[Workshop], Step]) -> None:
        """Go back or forth, and say what differs for it."""

        def gone(step: Step) -> None:
            lines = [step_words(verb, step), *step_lines(step.differs)]
            self.notify("\n".join(lines), markup=False)

        self.work.change(go, gone)

    def action_theme(self) -> None:
        """Change between the light and the dark look."""
        self.theme = other(self.theme).name

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
