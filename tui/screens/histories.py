"""The dialogs of what was done: to the collection, to go back to it, and to one game."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from textual.app import App

from engine import ChangeLine, Day, Event, Step, Workshop
from tui.screens.choosers import Pick
from tui.screens.dialogs import Report
from tui.widgets.table import Column, Row
from tui.words import step_lines, step_words, when
from tui.work import Work

HISTORY = "history"
"""The group of the work that reads what was done."""

BEFORE_ALL = 0
"""Where things stood before the first change that is kept."""


class Changes(Pick):
    """The changes, the latest first: choose one to go back, or forth, to where things stood."""

    def __init__(self, changes: Sequence[ChangeLine], days: Sequence[Day]) -> None:
        """Begin at the change that was made last; ``days`` are backups, for what came before."""
        self.present = next((one.number for one in changes if not one.undone), BEFORE_ALL)
        """The change after which things stand now."""
        rows = [
            Row(
                str(one.number),
                (when(one.at), one.words, self._standing(one)),
                faint=one.undone,
            )
            for one in changes
        ]
        kept = [Row(one.name, (when(one.at), "as it was opened then", "backup")) for one in days]
        super().__init__(
            "What was done: go back, or forth, to where things stood after it",
            (Column("when", 16), Column("what was done"), Column("", 10)),
            [*rows, Row(str(BEFORE_ALL), ("", "before all of these", "")), *kept],
            at=str(self.present),
            about={str(one.number): "\n".join(one.differs) for one in changes},
        )
        self._choice = "Go there"

    def _standing(self, one: ChangeLine) -> str:
        return "taken back" if one.undone else "now" if one.number == self.present else ""


class GameStory(Report):
    """What happened to a game, the first thing first."""

    def __init__(self, title: str, events: Sequence[Event]) -> None:
        lines = []
        for one in events:
            lines.append(f"{when(one.at)}  {one.words}")
            lines += [f"    {line}" for line in one.differs]
        super().__init__(title, lines or ["Nothing is known of it any more."])


class Histories:
    """Goes back and forth in what was done, over whatever screen is in sight."""

    def __init__(self, app: App[None], work: Work) -> None:
        self._app = app
        self._work = work

    def undo(self) -> None:
        """Take back the last thing done."""
        self._step("Taken back", lambda workshop: workshop.history.undo())

    def redo(self) -> None:
        """Do again what was taken back last."""
        self._step("Done again", lambda workshop: workshop.history.redo())

    def open(self) -> None:
        """List what was done, to go back to where things stood."""
        self._work.fetch(
            self._app,
            lambda workshop: (workshop.history.lines(), workshop.history.days()),
            self._ask,
            group=HISTORY,
        )

    def _ask(self, found: tuple[Sequence[ChangeLine], Sequence[Day]]) -> None:
        dialog = Changes(*found)
        self._app.push_screen(dialog, partial(self._chosen, dialog.present))

    def _chosen(self, present: int, row: str | None) -> None:
        if row is None or row == str(present) or self._work.read_only:
            return
        if row.isdecimal():
            self._step("Went", lambda workshop: workshop.history.go_to(int(row)))
        else:
            self._step("Done", lambda workshop: workshop.history.go_to_day(row))

    def _step(self, verb: str, go: Callable[[Workshop], Step]) -> None:
        """Go back or forth, and say what differs for it."""

        def gone(step: Step) -> None:
            lines = [step_words(verb, step), *step_lines(step.differs)]
            self._app.notify("\n".join(lines), markup=False)

        self._work.change(go, gone)
