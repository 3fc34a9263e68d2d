"""The first steps, from the list to the check page: each says what it came to."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from textual.app import App
from textual.content import Content
from textual.widgets import Static

from engine import KindChoice, StartReport, StorageChoice
from tui.screens.checkpage import CheckPages
from tui.screens.choosers import Pick
from tui.screens.papers import PaperShelf
from tui.screens.taking import Taking
from tui.startwords import STEPS, kind_lines
from tui.widgets.table import Column, Row, Table
from tui.work import Ended, Then, Work

START = "start"
"""The group of the work that reads how far a collection is set up."""


class Start(Pick):
    """The first steps. It stays open beneath what each of them asks."""

    def __init__(self, at: str, take: Callable[[str], None], stop: Callable[[], None]) -> None:
        """Begin at a step; ``take`` takes one, ``stop`` gives up what takes long in it."""
        about = {key: f"{step.about}\n{HOW}" for key, step in STEPS.items()}
        about["begin"] = STEPS["begin"].about
        super().__init__("Start", (Column("step", 12), Column("")), (), at=at, about=about)
        self._take = take
        self._stop = stop
        self._waits = True
        """A step is being taken, or its outcome is read: further keys are not meant for it."""

    def show(self, report: StartReport, at: str) -> None:
        """Show what each step came to, with the cursor on one."""
        self._rows = [Row(key, (step.label, step.state(report))) for key, step in STEPS.items()]
        self._at, self._waits = at, False
        if self.in_sight:  # else it is shown once there is a place for it
            table = self.query_one(Table)
            table.styles.height = len(self._rows) + 1
            table.show(self._rows, at=at)

    def show_work(self, words: str) -> None:
        """Say what is being worked on, for as long as it is."""
        if self._waits and words:
            self.query_one("#about", Static).update(Content(f"{words}… Esc stops it."))

    def action_choose(self) -> None:
        """Take the step that the cursor is on."""
        step = self.result()
        if step is not None and not self._waits:
            self._waits = True
            self._take(step)

    def action_leave(self) -> None:
        """Stop what takes long, else leave."""
        if self._waits:
            self._stop()
        else:
            self.dismiss(None)


HOW = "Enter takes the step, the arrow down skips it."


class Guide:
    """Leads through the first steps, over whatever screen is in sight."""

    def __init__(self, app: App[None], work: Work, taking: Taking, begin: Callable[[], None]):
        """Call ``begin`` where the steps are behind the person."""
        self._app = app
        self._work = work
        self._taking = taking
        self._begin = begin
        self._papers = PaperShelf(app, work)
        self._checks = CheckPages(app, work)

    def open_if_empty(self) -> None:
        """Begin with the first step where there are no games."""

        def read(games: int) -> None:
            if not games:
                self.open()

        self._work.fetch(self._app, lambda workshop: workshop.progress().games, read, group=START)

    def open(self) -> None:
        """Show the steps."""
        start = Start("list", lambda step: self._taken(start, step), self._work.stop)
        self._app.push_screen(start)
        self._read(start, "list")

    def _read(self, start: Start, at: str) -> None:
        self._work.fetch(
            self._app,
            lambda workshop: workshop.starting.report(),
            lambda report: start.show(report, at),
            group=START,
        )

    def _taken(self, start: Start, step: str) -> None:
        def then(ended: Ended) -> None:
            keys = [*STEPS, step]
            self._read(start, keys[keys.index(step) + 1] if ended is Ended.DONE else step)

        match step:
            case "list":
                self._taking.take_list(then)
            case "pictures":
                self._taking.take_pictures(then)
            case "case":
                self._ask_case(then)
            case "storage":
                self._ask_storage(then)
            case "paper":
                self._papers.open(then)
            case "check":
                self._checks.open(then)
            case "begin":
                start.dismiss(None)
                self._begin()

    # --- case and storage --------------------------------------------------------------

    def _ask_case(self, then: Then) -> None:
        self._work.fetch(
            self._app,
            lambda workshop: (workshop.starting.report(), workshop.starting.kinds()),
            lambda found: self._show_cases(then, *found),
            group=START,
        )

    def _show_cases(self, then: Then, report: StartReport, kinds: tuple[KindChoice, ...]) -> None:
        rows = [Row(one.id, (one.name, f"{one.on_sheet}", f"{one.games or ''}")) for one in kinds]
        columns = (Column("kind"), Column("a sheet", 7), Column("games", 5))
        about = {one.id: "\n".join(kind_lines(one)) for one in kinds}
        pick = Pick("Case", columns, rows, at=report.kind, about=about)
        self._app.push_screen(pick, partial(self._set, "case", then))

    def _ask_storage(self, then: Then) -> None:
        self._work.fetch(
            self._app,
            lambda workshop: workshop.starting.storage(),
            partial(self._show_storage, then),
            group=START,
        )

    def _show_storage(self, then: Then, choices: tuple[StorageChoice, ...]) -> None:
        rows = [
            Row(one.pose, (one.words, f"{' and '.join(one.shows)} shows" if one.shows else ""))
            for one in choices
        ]
        columns = (Column("", 30), Column("of the case"))
        used = next((one.pose for one in choices if one.used), None)
        pick = Pick("How the cases are kept", columns, rows, at=used)
        self._app.push_screen(pick, partial(self._set, "pose", then))

    def _set(self, setting: str, then: Then, chosen: str | None) -> None:
        if chosen is None:
            then(Ended.LEFT)
            return
        self._work.change(
            lambda workshop: workshop.setup.change(**{setting: chosen}),
            lambda _: then(Ended.DONE),
            failed=partial(then, Ended.LEFT),
        )
