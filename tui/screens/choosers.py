"""The dialogs that ask: pick from a list, search, choose a colour, type a line.

Each gives back what was chosen, or None when it was left.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Input, Static

from tui.screens.dialogs import Dialog
from tui.widgets.table import Column, Row, Table

NOTHING_MORE: Mapping[str, str] = MappingProxyType({})


class Pick(Dialog[str]):
    """Choose a row of a list."""

    def __init__(
        self,
        title: str,
        columns: Sequence[Column],
        rows: Sequence[Row],
        *,
        at: str | None = None,
        about: Mapping[str, str] = NOTHING_MORE,
    ) -> None:
        """Begin at the row ``at``; ``about`` has what more there is to say on a row."""
        super().__init__(title)
        self._columns = columns
        self._rows: Sequence[Row] = rows
        self._at = at
        self._about = about
        self.set_class(bool(about), "-says")

    def body(self) -> ComposeResult:
        """Lay out the list."""
        yield Table(self._columns, empty="Nothing is like it.")
        if self._about:
            yield Static(id="about", classes="note")

    def on_table_highlighted(self, event: Table.Highlighted) -> None:
        """Say what more there is to say on the row."""
        for about in self.query("#about").results(Static):
            about.update(Content(self._about.get(event.row or "", "")))

    def on_mount(self) -> None:
        """Fill the list, which is as high as its rows ask for."""
        table = self.query_one(Table)
        if self._rows:
            table.styles.height = len(self._rows) + 1
        table.show(self._rows, at=self._at)

    def result(self) -> str | None:
        """Return the id of the highlighted row."""
        return self.query_one(Table).current


class Search(Pick):
    """Choose a row of a list that follows what is typed."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False),
        Binding("down", "move(1)", show=False),
        Binding("pageup", "move(-8)", show=False),
        Binding("pagedown", "move(8)", show=False),
    ]

    def __init__(
        self,
        title: str,
        columns: Sequence[Column],
        find: Callable[[str, Callable[[Sequence[Row]], None]], None],
        words: str = "",
    ) -> None:
        """Ask ``find`` for the rows that are like some words; it hands them on when it has them."""
        super().__init__(title, columns, ())
        self._find = find
        self._words = words

    def body(self) -> ComposeResult:
        """Lay out the line and the list."""
        yield Input(self._words, placeholder="a few letters", select_on_focus=True)
        yield from super().body()

    def on_mount(self) -> None:
        """Look for what the line begins with."""
        self.query_one(Table).can_focus = False
        self._find(self._words, self._found)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Look for what is typed."""
        self._find(event.value, self._found)

    def action_move(self, by: int) -> None:
        """Move in the list while the line keeps the keys."""
        self.query_one(Table).action_move(by)

    def _found(self, rows: Sequence[Row]) -> None:
        if self.in_sight:
            self.query_one(Table).show(rows, at=rows[0].id if rows else None)


class Colour(Pick):
    """Type a colour, or go up and down a list of them."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False),
        Binding("down", "move(1)", show=False),
    ]

    def __init__(self, title: str, base: str, swatches: Sequence[tuple[str, str]]) -> None:
        """Begin with ``base``; ``swatches`` are colours with a word on where each comes from."""
        rows = [Row(colour, (colour, words), patch=colour) for colour, words in swatches]
        super().__init__(title, (Column("colour", 8), Column("of")), rows, at=base)
        self._base = base

    def body(self) -> ComposeResult:
        """Lay out the line, a patch of the colour typed, and the list."""
        yield Input(self._base, placeholder="#rrggbb", select_on_focus=True)
        yield Static(id="patch")
        yield Table(self._columns)

    def on_mount(self) -> None:
        """Show the colour to begin with."""
        self.query_one(Table).can_focus = False
        self._show_patch(self._base)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Show the colour that is typed."""
        self._show_patch(event.value)

    def on_table_highlighted(self, event: Table.Highlighted) -> None:
        """Take a colour of the list into the line."""
        if event.row is not None:
            self.query_one(Input).value = event.row

    def action_move(self, by: int) -> None:
        """Move in the list while the line keeps the keys."""
        self.query_one(Table).action_move(by)

    def result(self) -> str | None:
        """Return the colour in the line."""
        return self.query_one(Input).value.strip() or None

    def _show_patch(self, typed: str) -> None:
        patch = self.query_one("#patch", Static)
        digits = typed.strip().removeprefix("#")
        whole = len(digits) in {3, 6} and not set(digits.lower()) - set("0123456789abcdef")
        patch.update("" if whole else "Six hex digits, such as #1f4e79.")
        patch.styles.background = f"#{digits}" if whole else None
        if whole:
            self.show_colour(f"#{digits}")

    def show_colour(self, colour: str) -> None:
        """Show what a whole colour comes to."""


class LineDialog(Dialog[str]):
    """Type a line; below it stands what will come of it."""

    def __init__(self, title: str, text: str, words: str, preview: Callable[[str], str]) -> None:
        super().__init__(title, "Set")
        self._text = text
        self._words = words
        self._preview = preview

    def body(self) -> ComposeResult:
        """Lay out the line and what will come of it."""
        yield Input(self._text, select_on_focus=False)
        yield Static(Content(self._words), classes="note")
        yield Static(id="preview")

    def on_mount(self) -> None:
        """Show what will come of the line as it is."""
        self._show(self._text)

    def on_input_changed(self, event: Input.Changed) -> None:
        """Show what will come of the line."""
        self._show(event.value)

    def result(self) -> str | None:
        """Return the line."""
        return self.query_one(Input).value.strip() or None

    def _show(self, text: str) -> None:
        self.query_one("#preview", Static).update(Content(self._preview(text)))
        self.follow(text)

    def follow(self, text: str) -> None:
        """Show what else comes of the line."""
