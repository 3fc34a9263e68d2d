"""Spreadsheets as lists, written by others: openpyxl, and by hand after the standard."""

from __future__ import annotations

import sys
from datetime import date, datetime
from pathlib import Path
from xml.sax.saxutils import escape
from zipfile import ZipFile

import pytest
from openpyxl import Workbook

from engine.intake import read_list, read_titles, sheets_of, spreadsheets
from engine.model.errors import ListError


@pytest.fixture
def here(monkeypatch: pytest.MonkeyPatch) -> None:
    """Read in this process: what a worker process adds, one test of it tells."""
    monkeypatch.setattr(spreadsheets, "read_pages", lambda path: spreadsheets.read(bytes(path)))


def xlsx(path: Path, **sheets: list[list[object]]) -> Path:
    book = Workbook()
    book.remove(book.active)
    for name, rows in sheets.items():
        page = book.create_sheet(name)
        for row in rows:
            page.append(row)
    book.save(path)
    return path


OFFICE = "urn:oasis:names:tc:opendocument:xmlns:"
MIMETYPE = "application/vnd.oasis.opendocument.spreadsheet"


def ods(path: Path, rows: list[list[str]]) -> Path:
    """Write a spreadsheet as OpenDocument 1.3 has it: part 2, 3.3, and part 3, 9.1."""
    cells = "".join(
        "<table:table-row>"
        + "".join(
            f'<table:table-cell office:value-type="string"><text:p>{escape(cell)}</text:p>'
            "</table:table-cell>"
            for cell in row
        )
        + "</table:table-row>"
        for row in rows
    )
    names = " ".join(f'xmlns:{name}="{OFFICE}{name}:1.0"' for name in ("office", "table", "text"))
    content = (
        f'<?xml version="1.0" encoding="UTF-8"?><office:document-content {names} '
        'office:version="1.3"><office:body><office:spreadsheet><table:table table:name="Shelf">'
        f"{cells}</table:table></office:spreadsheet></office:body></office:document-content>"
    )
    manifest = (
        f'<?xml version="1.0"?><manifest:manifest xmlns:manifest="{OFFICE}manifest:1.0">'
        f'<manifest:file-entry manifest:full-path="/" manifest:media-type="{MIMETYPE}"/>'
        '<manifest:file-entry manifest:full-path="content.xml" manifest:media-type="text/xml"/>'
        "</manifest:manifest>"
    )
    with ZipFile(path, "w") as file:
        file.writestr("mimetype", MIMETYPE)
        file.writestr("content.xml", content)
        file.writestr("META-INF/manifest.xml", manifest)
    return path


def test_a_worker_reads_xlsx_as_its_writer_meant_it(tmp_path: Path) -> None:
    rows = [
        ["Game title", "Released", "Lent", "Remark"],
        ["Tide", 1990.0, datetime(1991, 5, 4), " for  ten "],  # noqa: DTZ001  a cell has no zone
        [],
        [None, 1992, None, "no title"],
        ["Moss", 1.5, date(1993, 1, 2), True],
    ]
    found = read_list(xlsx(tmp_path / "games.xlsx", Games=rows))
    assert [(row.title, row.line, row.year) for row in found.rows] == [
        ("Tide", 2, "1990"),
        ("Moss", 5, "1.5"),
    ]
    assert [row.extra["Lent"] for row in found.rows] == ["1991-05-04", "1993-01-02"]
    assert [row.notes for row in found.rows] == ["for  ten", "yes"]
    assert found.columns == {"title": "Game title", "year": "Released", "notes": "Remark"}
    assert found.sheet == "Games"
    assert found.notes == ("games.xlsx, line 4: no title. Give one or delete the line.",)


def test_ods_is_read_as_the_standard_has_it(tmp_path: Path, here: None) -> None:
    path = ods(tmp_path / "games.ods", [["Titel", "Reihe"], ["Møwe & Tang", "Küste"]])
    (row,) = read_list(path).rows
    assert (row.title, row.series) == ("Møwe & Tang", "Küste")


def test_a_single_column_is_a_title_a_line(tmp_path: Path, here: None) -> None:
    found = read_list(xlsx(tmp_path / "a.xlsx", A=[[None, "Tide"], [None, "Moss, Part 2"]]))
    assert [row.title for row in found.rows] == ["Tide", "Moss, Part 2"]
    assert found.columns == {}


def test_of_several_sheets_the_one_with_titles_is_read(tmp_path: Path, here: None) -> None:
    path = xlsx(tmp_path / "a.xlsx", Loans=[["who"], ["Ann"]], Shelf=[["name"], ["Tide"]], E=[])
    assert sheets_of(path) == ("Shelf", "Loans")
    assert read_list(path).sheet == "Shelf"
    assert read_list(path, " shelf").rows[0].title == "Tide"
    with pytest.raises(ListError, match=r"has no sheet Attic\. Its sheets: Loans, Shelf"):
        read_list(path, "Attic")


def test_what_a_sheet_says_of_itself_above_its_header_is_left_out(
    tmp_path: Path, here: None
) -> None:
    rows = [["Blue box"], [], [None, "Name of game", "Paid"], [1, "Tide", 4], [2, "Moss", 5]]
    path = xlsx(tmp_path / "a.xlsx", Loans=[["who"], ["Ann"]], Mine=rows)
    found = read_list(path)
    assert [(row.title, row.line, row.extra["Paid"]) for row in found.rows] == [
        ("Tide", 4, "4"), ("Moss", 5, "5")
    ]  # fmt: skip
    assert found.notes == (
        "a.xlsx: the columns are named in line 3; what stands above it is left out.",
    )


def test_where_it_is_open_which_sheet_is_meant_they_are_named(tmp_path: Path, here: None) -> None:
    path = xlsx(tmp_path / "a.xlsx", One=[["title"], ["Tide"]], Two=[["title"], ["Moss"]])
    with pytest.raises(ListError, match=r"has 2 sheets: One, Two\. Say which .*--sheet NAME"):
        read_list(path)


@pytest.mark.parametrize(
    ("rows", "what"),
    [([], "the list is empty"), ([["who", "what"], ["Ann", "x"]], "no column holds the titles")],
)
def test_a_spreadsheet_without_titles_says_so(rows, what, tmp_path: Path, here: None) -> None:
    with pytest.raises(ListError, match=what):
        read_list(xlsx(tmp_path / "a.xlsx", A=rows))


def test_an_archive_that_is_no_spreadsheet_is_refused(tmp_path: Path, here: None) -> None:
    path = tmp_path / "games.xlsx"
    with ZipFile(path, "w") as file:
        file.writestr("games.csv", "title\nTide\n")
    with pytest.raises(ListError, match=r"no spreadsheet that can be read.*XLSX, ODS or CSV"):
        read_list(path)


def test_a_sheet_of_a_text_is_refused(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("Tide\n", encoding="utf-8")
    with pytest.raises(ListError, match=r"this is no spreadsheet\. Leave the sheet One out"):
        read_list(tmp_path / "a.txt", "One")


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere no process is held to its memory")
def test_what_claims_a_cell_far_away_costs_a_sentence(tmp_path: Path) -> None:
    book = Workbook()
    book.active["A1"], book.active["XFD1048576"] = "title", "x"
    book.save(tmp_path / "far.xlsx")
    with pytest.raises(ListError, match=r"far\.xlsx: cannot be opened: it .*Save the list as CSV"):
        read_list(tmp_path / "far.xlsx")


def test_pasted_titles_are_a_list(tmp_path: Path) -> None:
    assert [row.title for row in read_titles("Tide\r\nMoss, Part 2\r\n").rows] == [
        "Tide",
        "Moss, Part 2",
    ]
    table = read_titles("name\tseries\nTide\tSea\n")
    assert (table.rows[0].series, table.columns["series"]) == ("Sea", "series")
    with pytest.raises(ListError, match="pasted titles: the list is empty"):
        read_titles(" \n")
