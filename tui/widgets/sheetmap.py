"""A sheet drawn to scale in cells, each insert with its number."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.geometry import Region
from textual.message import Message
from textual.reactive import reactive
from textual.strip import Strip
from textual.widget import Widget

from engine import Placement, SheetReport, WorkKind, WorkStep
from tui.widgets.table import shortened

CELL_RATIO = 2.0
"""A cell is about twice as high as it is wide in every common terminal font."""

SPOILED = "╱"
"""The sign of a spoiled insert."""
ASIDE = "·"
"""Fills what is not in hand: it has to be told without colours too."""
CHECKED = "✓"
"""The sign of one that was looked at, or is cut free."""

_UP, _RIGHT, _DOWN, _LEFT = 1, 2, 4, 8
_LINES = " ╵╶└╷│┌├╴┘─┴┐┤┬┼"
"""Box-drawing signs by the sum of the ways in which their strokes go."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A sheet as it is to be drawn."""

    sheet: SheetReport
    titles: tuple[str, ...]
    """One for each placement."""
    spoiled: frozenset[int] = frozenset()
    """Places of placements, counted from 0."""
    at: int | None = None
    """The place of the one highlighted."""
    checked: frozenset[int] = frozenset()
    """Places of those that were looked at, or cut free."""
    step: WorkStep | None = None
    """The step of the work in hand: only its pieces are drawn as paper."""

    def in_hand(self, placement: Placement) -> bool:
        """Whether an insert is on a piece in hand; without a step all are."""
        x, y = placement.x + placement.width / 2, placement.y + placement.height / 2
        return self.step is None or any(
            0 < x - piece.x < piece.width and 0 < y - piece.y < piece.height
            for piece in self.step.pieces
        )


class CellBox(NamedTuple):
    """A rectangle of cells, its border included."""

    left: int
    top: int
    right: int
    bottom: int

    def holds(self, column: int, row: int) -> bool:
        """Whether a cell lies on or within the border."""
        return self.left <= column <= self.right and self.top <= row <= self.bottom


@dataclass(frozen=True, slots=True)
class CellScale:
    """How millimetres of a stock become cells."""

    height: float
    """Of the stock, in mm."""
    row: float
    """Millimetres to a row of cells."""

    @classmethod
    def fitting(cls, sheet: SheetReport, columns: int, rows: int) -> CellScale:
        """Return the largest scale at which the stock's outline fits into so many cells."""
        stock = sheet.forme.stock
        by_height = stock.height / max(1, rows - 1)
        by_width = stock.width * CELL_RATIO / max(1, columns - 1)
        return cls(stock.height, max(by_height, by_width))

    def box(self, x: float, y: float, width: float, height: float) -> CellBox:
        """Return the cells of a rectangle given in mm from the stock's lower left."""
        across = CELL_RATIO / self.row
        return CellBox(
            round(x * across),
            round((self.height - y - height) / self.row),
            round((x + width) * across),
            round((self.height - y) / self.row),
        )


class SheetMap(Widget):
    """The map of one sheet."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "map--desk",
        "map--stock",
        "map--insert",
        "map--at",
        "map--spoiled",
        "map--rest",
        "map--hand",
        "map--blade",
    }

    DEFAULT_CSS = """
    SheetMap {
        & .map--desk { background: $background; }
        & .map--stock { color: $secondary; background: $surface; }
        & .map--insert { color: $foreground; background: $surface; }
        & .map--spoiled { color: $error; background: $surface; }
        & .map--rest { color: $secondary; background: $background; }
        & .map--hand { color: $primary; background: $surface; text-style: bold; }
        & .map--blade { color: $error; background: $surface; text-style: bold; }
        & .map--at { color: $background; background: $primary; text-style: bold; }
    }
    """

    drawn: reactive[Drawn | None] = reactive(None)

    class InsertClicked(Message):
        """An insert was clicked."""

        def __init__(self, place: int) -> None:
            super().__init__()
            self.place = place
            """Counted from 0."""

    def scale(self) -> CellScale | None:
        """Return the scale in use, or none while there is nothing to draw."""
        if self.drawn is None or self.size.height < 3 or self.size.width < 3:
            return None
        return CellScale.fitting(self.drawn.sheet, self.size.width, self.size.height)

    def render_lines(self, crop: Region) -> list[Strip]:
        """Draw the map anew: it is small, and what it shows has changed."""
        self._strips = self._draw()
        return super().render_lines(crop)

    def render_line(self, y: int) -> Strip:
        """Return one line of the map."""
        if y < len(self._strips):
            return self._strips[y]
        return Strip.blank(self.size.width, self.get_component_rich_style("map--desk"))

    def on_click(self, event: events.Click) -> None:
        """Tell which insert was clicked."""
        scale = self.scale()
        if scale is None or self.drawn is None:
            return
        for place, placement in enumerate(self.drawn.sheet.placements):
            if insert_box(scale, placement).holds(event.x, event.y):
                self.post_message(self.InsertClicked(place))
                return

    def _draw(self) -> list[Strip]:
        scale = self.scale()
        if scale is None or self.drawn is None:
            return []
        canvas = Canvas(self.size.width, self.size.height)
        draw_paper(canvas, scale, self.drawn)
        for place, placement in enumerate(self.drawn.sheet.placements):
            _draw_insert(canvas, insert_box(scale, placement), self.drawn, place)
        if self.drawn.step is not None:
            draw_blade(canvas, scale, self.drawn.step)
        return canvas.strips(
            {name: self.get_component_rich_style(name) for name in self.COMPONENT_CLASSES}
        )


def draw_paper(canvas: Canvas, scale: CellScale, drawn: Drawn) -> None:
    """Draw the stock, or what of it is in hand."""
    stock = drawn.sheet.forme.stock
    whole = scale.box(0, 0, stock.width, stock.height)
    if drawn.step is None:
        canvas.fill(whole, " ", "map--stock")
        canvas.fill(scale.box(*drawn.sheet.forme.field), "·", "map--stock")
        canvas.outline(whole, "map--stock")
        return
    canvas.fill(whole, ASIDE, "map--rest")
    canvas.outline(whole, "map--rest")
    for piece in drawn.step.pieces:
        canvas.fill(scale.box(*piece), " ", "map--hand")
        canvas.outline(scale.box(*piece), "map--hand")


def _draw_insert(canvas: Canvas, box: CellBox, drawn: Drawn, place: int) -> None:
    spoiled = place in drawn.spoiled
    look = "map--spoiled" if spoiled else "map--insert"
    if not drawn.in_hand(drawn.sheet.placements[place]):
        look = "map--rest"
    ground = ASIDE if look == "map--rest" else SPOILED if spoiled else " "
    canvas.outline(box, look)
    canvas.fill(box, ground, "map--at" if place == drawn.at else look)
    seen = f" {CHECKED}" if place in drawn.checked else ""
    canvas.write(box, f"{place + 1}{seen}", drawn.titles[place])


def draw_blade(canvas: Canvas, scale: CellScale, step: WorkStep) -> None:
    """Draw where a step scores, dashed, or cuts."""
    upright, level = ("┆", "┄") if step.kind is WorkKind.SCORE else ("┃", "━")
    for line in step.lines:
        box = scale.box(*line)
        is_upright = line.height > line.width
        canvas.line(box, upright if is_upright else level, "map--blade")


def insert_box(scale: CellScale, placement: Placement) -> CellBox:
    """Return the cells of a placement."""
    return scale.box(placement.x, placement.y, placement.width, placement.height)


class Canvas:
    """Cells that fills, lines and words are drawn on; lines that meet are joined."""

    def __init__(self, columns: int, rows: int) -> None:
        self._columns = columns
        self._rows = rows
        self._strokes = [[0] * columns for _ in range(rows)]
        self._signs = [[""] * columns for _ in range(rows)]
        self._looks = [["map--desk"] * columns for _ in range(rows)]

    def outline(self, box: CellBox, look: str) -> None:
        """Draw the border of a box."""
        for column in range(box.left, box.right):
            for row in (box.top, box.bottom):
                self._stroke(column, row, _RIGHT, look)
                self._stroke(column + 1, row, _LEFT, look)
        for row in range(box.top, box.bottom):
            for column in (box.left, box.right):
                self._stroke(column, row, _DOWN, look)
                self._stroke(column, row + 1, _UP, look)

    def fill(self, box: CellBox, sign: str, look: str) -> None:
        """Fill the inside of a box."""
        for row in range(box.top + 1, box.bottom):
            for column in range(box.left + 1, box.right):
                self._put(column, row, sign, look)

    def line(self, box: CellBox, sign: str, look: str) -> None:
        """Draw a line of one sign over what is there; ``box`` is one cell wide or high."""
        for column in range(box.left, box.right + 1):
            for row in range(box.top, box.bottom + 1):
                self._put(column, row, sign, look)

    def write(self, box: CellBox, number: str, title: str) -> None:
        """Write a number at the head of a box and as much of a title below as fits."""
        room = box.right - box.left - 1
        inside = range(box.top + 1, box.bottom)
        if not inside:
            self._text(box.left + 1, box.top, number, room)
            return
        self._text(box.left + 1, inside[0], number, room)
        for row, words in zip(inside[1:], wrapped(title, room), strict=False):
            self._text(box.left + 1, row, words, room)

    def strips(self, looks: dict[str, Style]) -> list[Strip]:
        """Return the lines."""
        return [
            Strip(
                [
                    Segment(sign or _LINES[stroke], looks[look])
                    for sign, stroke, look in zip(signs, strokes, row_looks, strict=True)
                    if sign != _COVERED
                ],
                self._columns,
            ).simplify()
            for signs, strokes, row_looks in zip(
                self._signs, self._strokes, self._looks, strict=True
            )
        ]

    def _within(self, column: int, row: int) -> bool:
        return 0 <= column < self._columns and 0 <= row < self._rows

    def _stroke(self, column: int, row: int, way: int, look: str) -> None:
        if self._within(column, row):
            self._strokes[row][column] |= way
            self._signs[row][column] = ""
            self._looks[row][column] = look

    def _put(self, column: int, row: int, sign: str, look: str = "") -> None:
        if self._within(column, row):
            self._signs[row][column] = sign
            self._looks[row][column] = look or self._looks[row][column]

    def _text(self, column: int, row: int, words: str, room: int) -> None:
        for sign in shortened(words, room) if room > 0 else "":
            self._put(column, row, sign)
            if cell_len(sign) == 2:
                self._put(column + 1, row, _COVERED)
            column += max(1, cell_len(sign))


_COVERED = "\0"
"""Stands in a cell that a wide character before it covers."""


def wrapped(text: str, width: int) -> list[str]:
    """Return ``text`` in lines of at most ``width`` cells, longer words cut."""
    lines: list[str] = []
    for word in text.split():
        if lines and cell_len(lines[-1]) + 1 + cell_len(word) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(shortened(word, width))
    return lines
