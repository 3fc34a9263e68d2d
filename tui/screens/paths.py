"""The dialog that asks for a path: typed, completed, or picked from what lies there."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from engine import PathEntry, PathLook, Sought
from tui.actions import BY_ID
from tui.screens.dialogs import Dialog
from tui.widgets.pathline import PathLine
from tui.widgets.table import Column, Row, Table

Look = Callable[[str, Callable[[PathLook], None]], None]
"""Looks at what is typed, and hands on what it names and may become."""

LACKS = {
    Sought.LIST: "There is no such file.",
    Sought.PICTURE: "There is no such file.",
    Sought.PICTURES: "There is no such folder.",
    Sought.COLLECTION: "A file is in its place.",
    Sought.WRITTEN: "That is a folder, or in a folder that is not there. Give a file's name.",
    Sought.EMPTY: "That is there already and holds something. Name a new folder.",
}
"""What is wrong with a path that does not name what is sought."""

MADE = frozenset({Sought.COLLECTION, Sought.WRITTEN, Sought.EMPTY})
"""What need not be there yet: what lies there is only on the way to it."""


class PathDialog(Dialog[Path | str]):
    """Ask for a path. Gives back the path, or the text that was pasted in place of a list."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False),
        Binding("down", "move(1)", show=False),
        Binding("pageup", "move(-8)", show=False),
        Binding("pagedown", "move(8)", show=False),
        Binding("tab", "complete", show=False),
    ]

    def __init__(
        self,
        title: str,
        words: str,
        sought: Sought,
        look: Look,
        *,
        text: str = "",
        choice: str,
        leave: str = BY_ID["leave"].label,
    ) -> None:
        """Say ``words`` below the line, and begin with ``text`` in it."""
        super().__init__(title, choice, leave=leave)
        self._words = words
        self._sought = sought
        self._look = look
        self._text = text
        self._seen: PathLook | None = None
        """What was found for the line as it was asked for; None until that is known."""
        self._asked = ""
        """The line for which that is."""
        self._tabbed: str | None = None
        """The line as it was when Tab was pressed before it was known what it may become."""
        self._picking = False
        """The person went into the list."""
        self._choosing = False
        """Enter was pressed before it was known what the line names."""

    def body(self) -> ComposeResult:
        """Lay out the line and what lies there."""
        yield PathLine(self._text, placeholder="path", select_on_focus=False)
        yield Static(Content(self._words), classes="note")
        nothing = (
            "No folder begins so." if self._sought in MADE else "Nothing of the kind is there."
        )
        yield Table((Column("Tab completes, arrows pick"),), empty=nothing)

    @property
    def typed(self) -> str:
        """The line as it was last."""
        return self._asked

    def on_mount(self) -> None:
        """Show what lies there to begin with."""
        self.query_one(Table).can_focus = False
        self._ask()

    def on_input_changed(self) -> None:
        """Show what the line may become."""
        self._picking = False
        if self._tabbed != self.query_one(PathLine).value:
            self._tabbed = None
        self.query_one(Table).remove_class("-picking")
        self._ask()

    def _ask(self) -> None:
        typed = self._asked = self.query_one(PathLine).value
        self._seen = None

        def then(seen: PathLook) -> None:
            if self.in_sight and self.query_one(PathLine).value == typed:
                self._show(seen)

        self._look(typed, then)

    def _show(self, seen: PathLook) -> None:
        self._seen = seen
        rows = [Row(one.path, (one.name + ("/" if one.is_folder else ""),)) for one in seen.entries]
        self.query_one(Table).show(rows, at=rows[0].id if rows else None)
        tabbed, self._tabbed = self._tabbed, None
        if tabbed == self._asked:
            self._type(seen.completed)
        if self._choosing:
            self._choosing = False
            self.action_choose()

    def on_path_line_pasted(self, message: PathLine.Pasted) -> None:
        """Take a list that was pasted; elsewhere its first line is a path."""
        if self._sought is Sought.LIST:
            self.dismiss(message.text)
        else:
            self._type(message.text.splitlines()[0])

    def on_key(self) -> None:
        """Give up waiting to complete the line: the person went on."""
        self._tabbed = None

    def action_move(self, by: int) -> None:
        """Go into the list, and move there."""
        table = self.query_one(Table)
        if self._picking:
            table.action_move(by)
        self._picking = bool(table.rows)
        table.set_class(self._picking, "-picking")

    def action_complete(self) -> None:
        """Type as much of the path as is certain, once that is known, or what the list is on."""
        current, line = self.query_one(Table).current, self.query_one(PathLine).value
        if self._picking and current is not None:
            self._type(current)
        elif self._seen is None or self._asked != line:
            self._tabbed = line
        else:
            self._type(self._seen.completed)

    def action_choose(self) -> None:
        """Take what the list is on, else what the line names or can only become.

        Or say what is wrong.
        """
        seen, current = self._seen, self.query_one(Table).current
        if seen is None:
            self._choosing = True
        elif self._picking and current is not None:
            self._pick(next(one for one in seen.entries if one.path == current))
        elif seen.is_there:
            self.dismiss(seen.path)
        elif self._asked.strip():
            only = seen.entries[0] if len(seen.entries) == 1 else None
            if only and only.path != self._asked and self._sought not in MADE:
                self._pick(only)
            else:
                self.notify(LACKS[self._sought], severity="error", markup=False)

    def _pick(self, entry: PathEntry) -> None:
        """Type what lies there, and take it once it is looked at; a folder is gone into."""
        self._choosing = not entry.is_folder
        self._type(entry.path)

    def _type(self, path: str) -> None:
        line = self.query_one(PathLine)
        line.value = path
        line.cursor_position = len(path)
