"""The terminal program: its screens, its look, and the actions that work on every screen.

It is painted before the collection is open, and before what opens and shows it is imported: nothing
of the engine and no screen but the first is asked for above.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Mapping
from functools import partial
from types import MappingProxyType
from typing import TYPE_CHECKING, ClassVar

from textual import events
from textual.app import SystemCommand
from textual.binding import BindingType
from textual.screen import Screen

from tui import screens
from tui.act import put_in_force
from tui.actions import ACTIONS, BACKLOG, BENCH, BY_ID, EVERYWHERE, SETUP, SHEETS, SHELF, bindings
from tui.growing import growing
from tui.look import other
from tui.screens.base import WorkScreen
from tui.screens.opening import Opening
from tui.screens.whole import WholeKeys
from tui.terminal import USUAL_TERMINAL, Terminal
from tui.work import Work, nothing

if TYPE_CHECKING:
    from engine import Workshop

TRIES_EVERY = 2.0
"""Seconds between asking whether another program has let go of the collection."""

YIELDING = 0.001
"""Seconds after which work in a thread lets the keys be handled; five times that is usual."""

OPENING = "opening"
"""What is in sight until the collection is open."""

DECLARED_KEYS: Mapping[str, str] = MappingProxyType({})
"""No key is another than declared."""

SCREENS: Mapping[str, str] = MappingProxyType(
    {
        BENCH: "BenchScreen",
        BACKLOG: "BacklogScreen",
        SHEETS: "SheetsScreen",
        SETUP: "SetupScreen",
        SHELF: "ShelfScreen",
    }
)
"""What each place is in ``tui.screens``."""


def _make(screen: str) -> Screen[None]:
    """Return a screen, which is imported when it is first gone to."""
    made: Screen[None] = getattr(screens, screen)()
    return made


class SpineryApp(WholeKeys):
    """The terminal program on one workshop, which it opens. It does not close it."""

    CSS_PATH = "app.tcss"
    MODES: ClassVar[dict[str, str | Callable[[], Screen[None]]]] = {
        OPENING: OPENING,
        **{place: partial(_make, screen) for place, screen in SCREENS.items()},
    }
    DEFAULT_MODE = OPENING
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(EVERYWHERE)]
    COMMAND_PALETTE_BINDING = BY_ID["palette"].key
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-low"), (32, "-tall")]

    def __init__(
        self,
        opened: Callable[[], Workshop],
        *,
        name: str = "",
        reads: bool = True,
        leads: bool = True,
        terminal: Terminal = USUAL_TERMINAL,
        keys: Mapping[str, str] = DECLARED_KEYS,
    ) -> None:
        """Show the collection called ``name``, and work in it.

        ``opened`` returns its workshop; it is called in a thread. Pictures are read meanwhile,
        and the person is led through the first steps where there are no games, unless told not
        to. ``keys`` are those of ``tui.actions.keymap`` that the person chose.
        """
        super().__init__(terminal)
        sys.setswitchinterval(YIELDING)
        self._opened = opened
        self._reads = reads
        self.looked_at = ""
        self._leads = leads
        self.failure: Exception | None = None
        """Why the collection could not be opened, which ends the program."""
        self.work = Work(
            self,
            name,
            changed=self.reload,
            followed=self.follow,
            told=self._show_work,
        )
        self.install_screen(Opening(name), OPENING)
        put_in_force(keys)
        self.set_keymap(keys)

    def on_mount(self) -> None:
        """Open the collection as soon as the frame is painted."""
        self.call_after_refresh(lambda: self.run_worker(self._open()))

    async def _open(self) -> None:
        """Open the collection and go to the Bench. Keys that were pressed meanwhile follow."""
        try:
            await self.work.open(self._bring_up)
        except Exception as failure:  # noqa: BLE001  whoever runs the program raises it
            self.failure = failure
            self.exit()
        if self.return_code is not None:  # the person did not wait
            return
        self._reading = screens.Reading(self, self.work)
        self._taking = screens.Taking(
            self, self.work, self._reading.take_up if self._reads else nothing
        )
        self._guide = screens.Guide(self, self.work, self._taking, self._begin)
        opening = self.screen
        await self.switch_mode(BENCH)
        if isinstance(opening, Opening):
            opening.hand_on()
        self._show_how_it_opened()
        self.set_interval(TRIES_EVERY, self._try_to_go_on)
        # What shows pictures takes long to import: beside the person, once the screen is painted.
        self.call_after_refresh(partial(self.run_worker, _import_pictures, thread=True))

    def _bring_up(self) -> Workshop:
        """Return the workshop; what shows it is imported as well, while the frame is in sight."""
        with growing():
            _ = screens.BenchScreen
            return self._opened()

    def _show_how_it_opened(self) -> None:
        """Say why nothing can be changed, if so; else go on with what was begun."""
        for note in self.work.notes:
            self.notify(note, timeout=10, markup=False)
        if self.work.read_only:
            self.notify(self.work.why_not, title="Read only", timeout=10, markup=False)
            return
        if self._reads:
            self._reading.go_on()
        if self._leads:
            self._guide.open_if_empty()

    def _try_to_go_on(self) -> None:
        """Ask whether the collection can be changed by now, where that may come to be."""
        if self.work.may_go_on:
            self.work.go_on(self._goes_on)

    def _goes_on(self) -> None:
        self.notify("The collection was read again, and can be changed here now.")
        if self._reads:
            self._reading.go_on()

    def on_resize(self, event: events.Resize) -> None:
        """Draw pictures for letters of another size, before the screen is laid out."""
        if not self.work.is_open:
            return
        from tui.picturekind import measure_cell
        from tui.widgets.proof import Proof

        if measure_cell(*event.size, event.pixel_size):
            for proof in self.screen.query(Proof):
                proof.draw_anew()

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
            if isinstance(self.screen, screens.Start):
                self.screen.show_work(self.work.busy)

    def _begin(self) -> None:
        """Go to the Bench and bring the first games there."""
        self.switch_mode(BENCH)
        self.call_later(self._bring_first)

    def _bring_first(self) -> None:
        screen = self.work_screen
        if isinstance(screen, screens.BenchScreen):
            screen.action_next_batch()

    def on_key(self, event: events.Key) -> None:
        """Type what was pressed for a line of text before the line had the keys.

        A key goes to what has them as it is pressed, and comes here where that does nothing with
        it; a line keeps what can be typed. So it is for a line that has got the keys since, and
        no action that has its letter.
        """
        from textual.widgets import Input  # no part of the frame

        line = self.focused
        if isinstance(line, Input) and event.is_printable:
            event.prevent_default()
            line.post_message(events.Key(event.key, event.character))

    # --- actions -----------------------------------------------------------------------

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:  # noqa: ARG002  Textual's signature
        """Turn off undo in a read-only collection, and what stops work while there is none."""
        act = BY_ID.get(action)
        if not self.work.is_open:
            return action == "quit"
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
        self._reading.go_on_or_stop()

    def action_start(self) -> None:
        """Walk through the first steps, or take one of them again."""
        self._guide.open()

    def action_take_list(self) -> None:
        """Take in a list of games."""
        self._taking.take_list()

    def action_take_pictures(self) -> None:
        """Take in a folder of pictures."""
        self._taking.take_pictures()

    def action_papers(self) -> None:
        """Choose the paper, or describe one."""
        screens.PaperShelf(self, self.work).open()

    def action_check_page(self) -> None:
        """Write a check page, or type what was measured on one."""
        screens.CheckPages(self, self.work).open()

    def action_undo(self) -> None:
        """Take back the last thing done."""
        screens.Histories(self, self.work).undo()

    def action_redo(self) -> None:
        """Do again what was taken back last."""
        screens.Histories(self, self.work).redo()

    def action_history(self) -> None:
        """List what was done, to go back to where things stood."""
        screens.Histories(self, self.work).open()

    def action_theme(self) -> None:
        """Change between the light and the dark look."""
        self.theme = other(self.theme).name

    def action_help(self) -> None:
        """List every key."""
        self.push_screen(screens.Keys(self.work_screen.PLACE))

    def action_palette(self) -> None:
        """Open the command palette."""
        self.action_command_palette()


def _import_pictures() -> None:
    from tui.picturekind import picture_kind

    picture_kind()
