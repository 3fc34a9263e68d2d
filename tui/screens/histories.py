"""The dialogs of what was done: to the collection, to go back to it, and to one game."""

from __future__ import annotations

from collections.abc import Sequence

from engine import ChangeLine, Day, Event
from tui.screens.choosers import Pick
from tui.screens.dialogs import Report
from tui.widgets.table import Column, Row
from tui.words import when

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
