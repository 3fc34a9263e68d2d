"""The dialogs in which a choice is seen before it is made: a picture, a colour, a title."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Input, Static

from engine import Neighbours, PictureChoice, SetTitle
from tui.gamewords import edge_measures
from tui.screens.choosers import Colour, LineDialog, Search
from tui.widgets.proof import Proof
from tui.widgets.spines import Spines, Stretch
from tui.widgets.table import Column, Row, Table

COLUMNS = (Column("file"), Column("shows", 9), Column("of", 18, least=60))


class PictureSearch(Search):
    """Choose a picture by a few letters, the highlighted one in sight."""

    def __init__(
        self,
        title: str,
        find: Callable[[str, Callable[[Sequence[Row]], None]], None],
        look: Callable[[str, Callable[[bytes], None]], None],
        words: str = "",
    ) -> None:
        """Ask ``find`` for rows, as ``Search`` does, and ``look`` for a picture."""
        super().__init__(title, COLUMNS, find, words)
        self._look = look
        self.add_class("-looks")

    def body(self) -> ComposeResult:
        """Lay out the line and the list, the picture beside them."""
        line, table, *_ = super().body()
        yield line
        with Horizontal(id="looks"):
            yield table
            yield Proof()

    def on_table_highlighted(self, event: Table.Highlighted) -> None:
        """Show the picture that the cursor came to."""
        proof, name = self.query_one(Proof), event.row
        if not name:
            proof.show(None, "")
            return
        proof.of = name
        self._look(name, lambda picture: self._looked(name, picture))

    def _looked(self, name: str, picture: bytes) -> None:
        if self.in_sight and self.query_one(Proof).of == name:
            self.query_one(Proof).show(picture, of=name)


BARE = Row("", ("no picture", "", ""))
"""The row that chooses none."""


def picture_row(one: PictureChoice) -> Row:
    """Return the row of a picture."""
    return Row(one.name, (one.source, str(one.role or "no game"), one.owner))


class ShelfColour(Colour):
    """Choose a colour, seen between the neighbours on the shelf."""

    def __init__(
        self,
        title: str,
        base: str,
        swatches: Sequence[tuple[str, str]],
        game: str,
        neighbours: Neighbours,
    ) -> None:
        """Stand between ``neighbours`` as ``game``, its title."""
        super().__init__(title, base, swatches)
        self._game = game
        self._neighbours = neighbours

    def body(self) -> ComposeResult:
        """Lay out the line, the stretch of shelf, and the list."""
        line, patch, table = super().body()
        yield line
        yield patch
        yield Spines()
        yield table

    def show_colour(self, colour: str) -> None:
        """Stand in the colour that is typed."""
        self.query_one(Spines).shown = Stretch(self._neighbours, self._game, colour)


class TitleDialog(LineDialog):
    """Type a title; below it stands as it would print."""

    def __init__(
        self,
        text: str,
        draw: Callable[[str, Callable[[SetTitle], None]], None],
    ) -> None:
        """Ask ``draw`` for the title in the words typed."""
        super().__init__(
            "Title on the edges",
            text,
            "A slash begins a new line. The type is made as large as the edge allows.",
            lambda typed: "\n".join(f"│ {line.strip()}" for line in typed.split("/")),
        )
        self._draw = draw

    def body(self) -> ComposeResult:
        """Lay out the line, and the title as it would print."""
        yield from super().body()
        yield Proof()
        yield Static(id="measures", classes="note")

    def follow(self, text: str) -> None:
        """Draw what is typed."""
        if text.replace("/", "").strip():
            self._draw(text, lambda title: self._drawn(text, title))

    def _drawn(self, text: str, title: SetTitle) -> None:
        if self.in_sight and self.query_one(Input).value == text:
            self.query_one(Proof).show(title.picture or None, "It has no edge for a title.")
            measures = "; ".join(f"{one.panel}: {edge_measures([one])}" for one in title.edges)
            self.query_one("#measures", Static).update(Content(measures))
