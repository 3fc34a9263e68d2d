"""The dialog before a part-full sheet is pressed: what it wastes, and what could fill it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from engine import PartFull
from tui.screens.dialogs import Dialog
from tui.widgets.table import Column, Row, Table

_TALLEST = 12
"""Rows of the list at most: the dialog has to go on a screen of 24 lines."""


class Fillers(Dialog[tuple[str, ...]]):
    """Choose what fills part-full sheets, by ids; none is a choice too."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("space", "take", show=False)]

    def __init__(self, words: Sequence[str], sheets: Sequence[PartFull]) -> None:
        """Say what is pressed in ``words``, and offer what could fill these sheets."""
        super().__init__("Press part-full", "Press")
        self._words = words
        self._fillers = {filler.id: filler for sheet in sheets for filler in sheet.fillers}
        self._chosen: frozenset[str] = frozenset()

    def body(self) -> ComposeResult:
        """Lay out what is wasted and what could fill it."""
        yield Static(Content("\n".join(self._words)))
        if self._fillers:
            yield Table((Column("", 1), Column("Fill with"), Column("", 13)))
            yield Static("Space takes a filler, or leaves it out.", classes="note")

    def on_mount(self) -> None:
        """Show the fillers."""
        if self._fillers:
            self.query_one(Table).styles.height = min(len(self._fillers), _TALLEST) + 1
            self._show()

    def action_take(self) -> None:
        """Take the highlighted filler, or leave it out."""
        filler = self.query_one(Table).current if self._fillers else None
        if filler is not None:
            self._chosen ^= {filler}
            self._show()

    def result(self) -> tuple[str, ...]:
        """Return the fillers chosen, in the order in which they are offered."""
        return tuple(filler for filler in self._fillers if filler in self._chosen)

    def _show(self) -> None:
        self.query_one(Table).show(
            [
                Row(
                    filler.id,
                    (
                        "✓" if filler.id in self._chosen else "",
                        filler.words[:1].upper() + filler.words[1:],
                        "" if filler.fits else "after others",
                    ),
                )
                for filler in self._fillers.values()
            ]
        )
