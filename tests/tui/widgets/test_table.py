"""The table: widths in cells, the cursor, and only what is in sight."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len
from textual.app import App, ComposeResult

from tui.widgets.table import Column, Row, Table, fitted

ROWS = [Row(f"{n}", (f"game {n}", "listed")) for n in range(10_000)]


class Shelf(App[None]):
    def compose(self) -> ComposeResult:
        yield Table((Column("Title"), Column("Stage", 8, least=30)), marks=True)


def lines(table: Table) -> list[str]:
    return [table.render_line(y).text for y in range(table.size.height)]


@settings(max_examples=60)
@given(st.text(), st.integers(2, 40))
def test_a_text_takes_exactly_its_cells(text: str, width: int) -> None:
    assert cell_len(fitted(text, width)) == width


@given(st.text(alphabet="灯台の港abc ", min_size=1), st.integers(4, 12))
def test_a_text_that_was_cut_ends_in_an_ellipsis(text: str, width: int) -> None:
    line = " ".join(text.split())
    assert ("…" in fitted(text, width)) == (cell_len(line) > width)


async def test_ten_thousand_rows_scroll_with_the_cursor() -> None:
    async with Shelf().run_test(size=(60, 12)) as pilot:
        table = pilot.app.query_one(Table)
        table.show(ROWS)
        await pilot.press("end")
        await pilot.pause()
        assert table.current == "9999"
        assert "› " in lines(table)[-1]
        assert "game 9999" in lines(table)[-1]
        await pilot.press("pageup", "home", "down")
        await pilot.pause()
        assert table.current == "1"
        assert "game 0" in lines(table)[1]


async def test_the_cursor_follows_its_row_and_else_keeps_its_place() -> None:
    async with Shelf().run_test(size=(60, 12)) as pilot:
        table = pilot.app.query_one(Table)
        table.show(ROWS[:5])
        table.cursor = 2
        table.show(list(reversed(ROWS[:5])))
        assert table.current == "2"
        table.show([row for row in ROWS[:5] if row.id != "2"])
        assert table.current == "3"
        table.show(ROWS[:1])
        assert table.current == "0"
        table.show(())
        assert table.current is None


async def test_columns_give_way_on_a_narrow_table() -> None:
    async with Shelf().run_test(size=(28, 6)) as pilot:
        table = pilot.app.query_one(Table)
        table.show([Row("a", ("灯台のあるとても長い題名の遊び", "listed"))])
        table.marked = frozenset("a")
        await pilot.pause()
        assert "Stage" not in lines(table)[0]
        assert all(cell_len(line) == table.size.width for line in lines(table))
        assert lines(table)[1].startswith("›◆ ")
