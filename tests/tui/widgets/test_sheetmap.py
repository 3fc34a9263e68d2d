"""The map of a sheet: to scale, nothing over another, lines joined."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from rich.style import Style

from engine import SheetReport, SheetState
from engine.model import Forme, Placement, Stock
from tui.widgets.sheetmap import CELL_RATIO, Canvas, CellBox, CellScale, insert_box, wrapped

A4 = Stock(id="a4", name="A4", width=210.0, height=297.0)
"""ISO 216:2007."""


def sheet(*placements: Placement) -> SheetReport:
    return SheetReport(
        number=None, state=SheetState.OPEN, forme=Forme(A4), placements=placements, used=0.5
    )


def place(x: float, y: float, width: float, height: float) -> Placement:
    return Placement(game="g", case="c", design="d", x=x, y=y, width=width, height=height)


@given(st.integers(12, 120), st.integers(8, 60))
def test_the_stock_fits_and_keeps_its_shape(columns: int, rows: int) -> None:
    box = CellScale.fitting(sheet(), columns, rows).box(0, 0, A4.width, A4.height)
    assert box.left == box.top == 0
    assert box.right < columns
    assert box.bottom < rows
    assert columns - 1 - box.right <= 1 or rows - 1 - box.bottom <= 1, "as large as it can be"
    assert abs(box.right / CELL_RATIO * A4.height / A4.width - box.bottom) <= 2


@given(
    st.integers(20, 100),
    st.floats(5, 90),
    st.floats(5, 90),
    st.floats(2, 20),
)
def test_neighbours_share_a_line_at_most(
    columns: int, first: float, second: float, gutter: float
) -> None:
    scale = CellScale.fitting(sheet(), columns, 200)
    left = insert_box(scale, place(10, 10, first, 50))
    right = insert_box(scale, place(10 + first + gutter, 10, second, 50))
    assert left.right <= right.left


def test_y_grows_upwards_on_the_stock_and_downwards_on_the_screen() -> None:
    scale = CellScale.fitting(sheet(), 60, 40)
    low, high = (insert_box(scale, place(10, y, 60, 60)) for y in (10, 200))
    assert high.bottom < low.top


def test_lines_that_meet_are_joined() -> None:
    canvas = Canvas(7, 3)
    canvas.outline(CellBox(0, 0, 3, 2), "look")
    canvas.outline(CellBox(3, 0, 6, 2), "look")
    drawn = [s.text for s in canvas.strips({"look": Style(), "map--desk": Style()})]
    assert drawn == ["┌──┬──┐", "│  │  │", "└──┴──┘"]


@given(st.text(alphabet="abc 灯台", max_size=40), st.integers(2, 12))
def test_wrapped_titles_stay_within_their_box(text: str, width: int) -> None:
    assert all(cell_len(line) <= width for line in wrapped(text, width))
