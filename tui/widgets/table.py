"""A table that draws only the rows in sight, so that thousands of games cost nothing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar, NamedTuple

from rich.cells import cell_len, set_cell_size
from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Size
from textual.message import Message
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip

LEAD = 3
"""Cells before a row that take a click as a mark."""

PATCH = 2
"""Cells that a patch of colour takes."""


LOOKED_AT = 100
"""Rows that tell whether the rows have patches of colour: all have one, or nearly all."""


class Column(NamedTuple):
    """A column of a table."""

    head: str
    width: int = 0
    """In cells; 0 takes the room that the others leave."""
    least: int = 0
    """The column is left out of a table narrower than this."""


class Row(NamedTuple):
    """A row of a table."""

    id: str
    cells: tuple[str, ...]
    """One for each column."""
    faint: bool = False
    """Done with: drawn paler."""
    patch: str = ""
    """A colour, ``#rrggbb``, of which a patch stands before the cells."""
    of: object = None
    """What it was made from, for who makes it anew only where that changed."""


class Table(ScrollView, can_focus=True, inherit_bindings=False):
    """Rows with a cursor. Enter is left to the screen."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "table--head",
        "table--row",
        "table--faint",
        "table--cursor",
        "table--marked",
    }

    DEFAULT_CSS = """
    Table {
        background: $surface;
        scrollbar-size-vertical: 1;
        overflow-x: hidden;
        & .table--head { color: $secondary; text-style: underline; }
        & .table--row { color: $foreground; }
        & .table--faint { color: $secondary; }
        & .table--marked { color: $accent; text-style: bold; }
        & .table--cursor { background: $panel; color: $foreground; text-style: bold; }
        &:focus .table--cursor { background: $primary; color: $background; text-style: bold; }
        &:focus:nocolor .table--cursor { text-style: bold reverse; }
    }
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False),
        Binding("down", "move(1)", show=False),
        Binding("pageup", "page(-1)", show=False),
        Binding("pagedown", "page(1)", show=False),
        Binding("home", "to_end(-1)", show=False),
        Binding("end", "to_end(1)", show=False),
    ]

    cursor = reactive(0)

    marked: reactive[frozenset[str]] = reactive(frozenset())
    """The ids of the rows that are marked."""

    class Highlighted(Message):
        """The cursor came to stand on another row, or the row under it changed its id."""

        def __init__(self, table: Table, row: str | None) -> None:
            super().__init__()
            self.table = table
            self.row = row

        @property
        def control(self) -> Table:
            """The table, so that handlers can select by it."""
            return self.table

    class MarkClicked(Message):
        """The mark before a row was clicked."""

        def __init__(self, table: Table, row: str) -> None:
            super().__init__()
            self.table = table
            self.row = row

        @property
        def control(self) -> Table:
            """The table, so that handlers can select by it."""
            return self.table

    def __init__(
        self,
        columns: Sequence[Column],
        *,
        empty: str = "",
        marks: bool = False,
        id: str | None = None,  # noqa: A002  the name Textual uses
    ) -> None:
        super().__init__(id=id)
        self.columns = tuple(columns)
        self.marks = marks
        """Whether there is room for marks before the rows."""
        self.empty = empty
        """Shown instead of rows while there are none."""
        self._rows: Sequence[Row] = ()
        self._patches = False
        self._said: str | None = None

    @property
    def rows(self) -> Sequence[Row]:
        """The rows shown."""
        return self._rows

    @property
    def current(self) -> str | None:
        """The id of the row under the cursor."""
        return self._rows[self.cursor].id if self.cursor < len(self._rows) else None

    def show(self, rows: Sequence[Row], *, at: str | None = None, place: int | None = None) -> None:
        """Show these rows, which stay as they are.

        The cursor stands on the row ``at``, or on that in a ``place``, else on the row it was on
        before.
        """
        sought = at if at is not None else self.current
        self._rows = rows
        wanted = self.cursor if place is None else place
        if place is None and self.current != sought:
            found = (where for where, row in enumerate(rows) if row.id == sought)
            wanted = next(found, wanted)
        self._patches = any(row.patch for row in self._rows[:LOOKED_AT])
        self.virtual_size = Size(self.size.width, len(self._rows) + 1)
        self.cursor = min(wanted, max(0, len(self._rows) - 1))
        self.call_after_refresh(self._reveal)
        self.refresh()
        self._tell()

    def go_to(self, row_id: str) -> None:
        """Put the cursor on a row."""
        for place, row in enumerate(self._rows):
            if row.id == row_id:
                self.cursor = place

    def watch_cursor(self) -> None:
        """Follow the cursor."""
        self._reveal()
        self.refresh()
        self._tell()

    def action_move(self, by: int) -> None:
        """Move the cursor by rows."""
        self.cursor = max(0, min(len(self._rows) - 1, self.cursor + by))

    def action_page(self, by: int) -> None:
        """Move the cursor by screenfuls."""
        self.action_move(by * max(1, self.size.height - 2))

    def action_to_end(self, way: int) -> None:
        """Move the cursor to the first or the last row."""
        self.action_move(way * len(self._rows))

    def on_click(self, event: events.Click) -> None:
        """Put the cursor where the mouse is."""
        place = event.y - 1 + round(self.scroll_offset.y)
        if event.y >= 1 and 0 <= place < len(self._rows):
            self.cursor = place
            if self.marks and event.x < LEAD:
                self.post_message(self.MarkClicked(self, self._rows[place].id))

    def on_resize(self) -> None:
        """Keep the cursor in sight."""
        self.virtual_size = Size(self.size.width, len(self._rows) + 1)
        self._reveal()

    def render_line(self, y: int) -> Strip:
        """Draw one line: the heads on top, then the rows from the one scrolled to."""
        if y == 0:
            style = self.get_component_rich_style("table--head")
            return self._strip(
                self._lead(" ", " "), [column.head for column in self.columns], style
            )
        place = y - 1 + round(self.scroll_offset.y)
        if place >= len(self._rows):
            words = f"  {self.empty}" if not self._rows and y == 1 else ""
            style = self.get_component_rich_style("table--faint")
            return Strip([Segment(set_cell_size(words, self.size.width), style)])
        row = self._rows[place]
        lead = self._lead(
            "›" if place == self.cursor else " ", "◆" if row.id in self.marked else " "
        )
        return self._strip(lead, row.cells, self._style(row, place), row.patch)

    def _lead(self, cursor: str, mark: str) -> str:
        return f"{cursor}{mark} " if self.marks else f"{cursor} "

    def _style(self, row: Row, place: int) -> Style:
        if place == self.cursor:
            return self.get_component_rich_style("table--cursor")
        if row.id in self.marked:
            return self.get_component_rich_style("table--marked")
        return self.get_component_rich_style("table--faint" if row.faint else "table--row")

    def _strip(self, lead: str, cells: Sequence[str], style: Style, patch: str = "") -> Strip:
        width = self.size.width - (PATCH + 1 if self._patches else 0)
        shown = [
            (column, cell)
            for column, cell in zip(self.columns, cells, strict=True)
            if width >= column.least
        ]
        taken = len(lead) + sum(column.width + 1 for column, _ in shown if column.width)
        rest = max(4, width - taken - 1)
        text = lead + " ".join(fitted(cell, column.width or rest) for column, cell in shown)
        segments = [Segment(lead, style), Segment(set_cell_size(text, width)[len(lead) :], style)]
        if self._patches:
            colour = Style(bgcolor=patch) if patch else style
            segments[1:1] = [Segment(" " * PATCH, colour), Segment(" ", style)]
        return Strip(segments)

    def _reveal(self) -> None:
        first, room = round(self.scroll_offset.y), max(1, self.size.height - 1)
        if self.cursor < first:
            self.scroll_to(y=self.cursor, animate=False)
        elif self.cursor >= first + room:
            self.scroll_to(y=self.cursor - room + 1, animate=False)

    def _tell(self) -> None:
        if self.current != self._said:
            self._said = self.current
            self.post_message(self.Highlighted(self, self.current))


def fitted(text: str, width: int) -> str:
    """Return ``text`` on one line exactly ``width`` cells wide, an ellipsis where it was cut."""
    return set_cell_size(shortened(text, width), width)


def shortened(text: str, width: int) -> str:
    """Return ``text`` on one line of at most ``width`` cells, an ellipsis where it was cut."""
    line = " ".join(text.split())
    if cell_len(line) <= width:
        return line
    return set_cell_size(line, width - 1).rstrip() + "…" if width > 1 else "…"[:width]
