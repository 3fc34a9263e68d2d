from __future__ import annotations

import csv
import io
from collections.abc import Callable
from pathlib import Path

import hypothesis.strategies as st
import pytest
from hypothesis import HealthCheck, given, settings

from engine.intake import ListRow, read_list
from engine.intake.columns import NAMES
from engine.model.errors import ListError
from engine.model.plain import plain

Saves = Callable[..., Path]


def titles(path: Path) -> list[str]:
    return [row.title for row in read_list(path).rows]


def test_every_column_lands_in_its_field(saves: Saves) -> None:
    found = read_list(
        saves(
            "Notes;YEAR;Shelf;Maker;game;Genre;Case kind;Series\n"
            "boxed;1994;B2;Quay House;Tide 2;puzzle;snap shell;Tide\n"
        )
    )
    assert found.notes == ()
    assert found.rows == (
        ListRow(
            title="Tide 2", line=2, series="Tide", maker="Quay House", genre="puzzle",
            year="1994", notes="boxed", case="snap shell", extra={"Shelf": "B2"},
        ),
    )  # fmt: skip


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_any_common_form_reads_the_same(
    saves: Saves, delimiter: str, encoding: str, end: str
) -> None:
    rows = [["title", "maker"], ["Café Quay", "Ünder, Söhne; & Co"], ["Tide 2", ""]]
    out = io.StringIO()
    csv.writer(out, delimiter=delimiter, lineterminator=end).writerows(rows)
    found = read_list(saves(out.getvalue(), encoding=encoding)).rows
    assert [(row.title, row.maker) for row in found] == [tuple(row) for row in rows[1:]]


@pytest.mark.parametrize(("field", "header"), [(f, n) for f, names in NAMES.items() for n in names])
def test_every_name_of_a_column_is_known_in_any_case(saves: Saves, field: str, header: str) -> None:
    head = f' "{header.upper()}:" ,x' if field == "title" else f"title,{header.title()}"
    row = read_list(saves(f"{head}\nTide,here\n".replace(' "', '"').replace('" ', '"'))).rows[0]
    assert getattr(row, field) == ("Tide" if field == "title" else "here")


def test_of_two_columns_for_one_field_the_surer_name_has_it(saves: Saves) -> None:
    (row,) = read_list(saves("Developer,Name,Publisher,Title\nA,B,C,D\n")).rows
    assert (row.title, row.maker) == ("D", "C")
    assert row.extra == {"Developer": "A", "Name": "B"}


def test_other_columns_are_kept_under_some_name(saves: Saves) -> None:
    (row,) = read_list(saves("title,Shelf,,Shelf\nTide,B2,x,B3,y\n")).rows
    assert row.extra == {
        "Shelf": "B2", "column 3": "x", "Shelf (column 4)": "B3", "column 5": "y",
    }  # fmt: skip


def test_quoted_line_breaks_and_quotes(saves: Saves) -> None:
    path = saves('title,notes\n"Tide\nTable","two\nlines, ""quoted"""\nReef,\n')
    first, second = read_list(path).rows
    assert (first.title, first.notes, first.line) == ("Tide Table", 'two\nlines, "quoted"', 2)
    assert (second.title, second.line) == ("Reef", 5)


def test_rows_without_a_title_are_named_and_blank_ones_are_not(saves: Saves) -> None:
    found = read_list(saves("title,maker\nTide,\n,\n\n,Quay House\nReef\n"))
    assert [row.title for row in found.rows] == ["Tide", "Reef"]
    assert found.notes == ("list.csv, line 5: no title. Give one or delete the line.",)


def test_a_second_copy_is_kept_and_told(saves: Saves) -> None:
    found = read_list(saves("title\nTide, The\nReef\nThe Tide\n", name="list.txt"))
    assert len(found.rows) == 3
    (note,) = found.notes
    assert note == (
        "list.txt, line 4: The Tide stands on line 2 too. "
        "It counts as a second one; delete the line if it is not."
    )


def test_a_guessed_encoding_is_told(saves: Saves) -> None:
    found = read_list(saves("title\nCafé Quay\nTide\n", encoding="cp1252"))
    assert found.notes == (
        "list.csv: read as Windows-1252. If letters look wrong, save it as UTF-8.",
    )


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        ("Tide\nReef, The\n\n  Quay: Night; Day \n", ["Tide", "Reef, The", "Quay: Night; Day"]),
        ("- Tide\n* Reef\n• Quay\n", ["Tide", "Reef", "Quay"]),
        ("Name\nTide\n", ["Tide"]),
        ("Notes\nTide\n", ["Notes", "Tide"]),
        ("Tide\rReef\r", ["Tide", "Reef"]),
        ("Tide \u2028 Table\n", ["Tide Table"]),
        ('"Tide"\n', ['"Tide"']),
        ("Tide", ["Tide"]),
    ],
)
def test_plain_text_is_a_title_a_line(saves: Saves, content: str, expected: list[str]) -> None:
    assert titles(saves(content, name="list.txt")) == expected


def test_a_column_of_titles_without_a_header_is_plain_text_too(saves: Saves) -> None:
    assert titles(saves("Tide\nReef\n", name="list.csv")) == ["Tide", "Reef"]


def test_the_line_by_which_spreadsheets_tell_the_delimiter(saves: Saves) -> None:
    (row,) = read_list(saves("sep=;\r\ntitle;maker\r\nTide, The;Quay\r\n")).rows
    assert (row.title, row.maker, row.line) == ("Tide, The", "Quay", 3)


def test_quotation_marks_as_letters_in_a_table_with_tabs(saves: Saves) -> None:
    path = saves('title\tmaker\n"Tide" Table\tA\n5" Reef\tB\n', name="list.tsv")
    assert titles(path) == ['"Tide" Table', '5" Reef']


def test_blank_lines_before_the_header(saves: Saves) -> None:
    (row,) = read_list(saves("\n,,\ntitle,year\nTide,1994\n")).rows
    assert (row.year, row.line) == ("1994", 4)


def test_what_stands_above_the_header_is_left_out(saves: Saves) -> None:
    path = saves("Games in the attic (March);;\n\nNo.;Title;Maker\n1;Tide;Quay\n2;Game;Name\n")
    found = read_list(path)
    assert [(row.title, row.maker, row.line) for row in found.rows] == [
        ("Tide", "Quay", 4), ("Game", "Name", 5)
    ]  # fmt: skip
    assert found.notes == (
        "list.csv: the columns are named in line 3; what stands above it is left out.",
    )


@pytest.mark.parametrize(
    ("content", "name"),
    [
        ("Tide\nMoss\nTotal: 70\n", "list.txt"),
        ("No.;Title;Paid\n1;Tide;4\n2;Moss;5.50\n;Summe:;9,50\n", "list.csv"),
        ("Title,Year\nTide,1994\nMoss,1995\nΣύνολο,2\n", "list.csv"),
    ],
)
def test_the_total_beneath_a_list_is_no_game(saves: Saves, content: str, name: str) -> None:
    found = read_list(saves(content, name=name))
    assert [row.title for row in found.rows] == ["Tide", "Moss"]
    (note,) = found.notes
    assert note.endswith("is taken for the total of the list and left out.")


@pytest.mark.parametrize(
    "content",
    ["title,year\nTide,1994\nTotal,1998\n", "title\nTide\nTotal\n", "title\nTotal: 1\nTide\n",
     "title\nTotal: 1\n", "title\nTide\nTotal Tide: 1\n"],
)  # fmt: skip
def test_a_game_that_is_called_total_is_kept(saves: Saves, content: str) -> None:
    found = read_list(saves(content))
    assert (len(found.rows), found.notes) == (content.count("\n") - 1, ())


def test_a_title_among_titles_is_no_header(saves: Saves) -> None:
    assert titles(saves("Tide\nGame, The\nMoss\n", name="list.txt")) == [
        "Tide", "Game, The", "Moss"
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("content", "name", "what"),
    [
        ("", "list.csv", "the list is empty. Give it a title on each line"),
        (" \n\n\t\n", "list.txt", "the list is empty. Give it a title on each line"),
        ("title,maker\n", "list.csv", "no line has a title. Give each game a title"),
        ("title,maker\n,Quay\n", "list.csv", "no line has a title. Give each game a title"),
        ("series,maker\nTide,Quay\n", "list.csv",
         "no column holds the titles (it has: series, maker). Name one of the columns 'title'"),
        ("a;b\n1;2\n", "list.csv",
         "no column holds the titles (it has: a, b). Name one of the columns 'title'"),
        ("maker\nQuay\n", "list.csv",
         "no column holds the titles (it has: maker). Name one of the columns 'title'"),
        ("series\tmaker\nTide\tQuay\n", "list.txt",
         "no column holds the titles (it has: series, maker). Name one of the columns 'title'"),
    ],
)  # fmt: skip
def test_a_list_of_no_use_is_told_in_a_sentence(
    saves: Saves, content: str, name: str, what: str
) -> None:
    path = saves(content, name=name)
    with pytest.raises(ListError) as told:
        read_list(path)
    assert str(told.value) == f"{path}: {what}."


@pytest.mark.parametrize("row", ['"Tide,Quay', '"Tide" Table,Quay'])
def test_a_quotation_mark_out_of_place_is_named_by_its_line(saves: Saves, row: str) -> None:
    path = saves(f"title,maker\nReef,A\n{row}\nQuay,B\n")
    with pytest.raises(ListError) as told:
        read_list(path)
    assert str(told.value) == (
        f"{path}, line 3: a quotation mark is opened here and not closed, or closed too early. "
        "Write it twice where it belongs to the text."
    )


def test_a_quotation_mark_near_the_head_of_a_long_table_is_named_too(saves: Saves) -> None:
    """What follows it is more than the longest cell that is read."""
    path = saves('title,maker\nReef,A\n"Tide,Quay\n' + "Quay,B\n" * 20_000)
    with pytest.raises(ListError, match="line 3: a quotation mark is opened here and not closed"):
        read_list(path)


def test_a_header_that_is_lost_where_quotation_marks_are_letters_is_told(saves: Saves) -> None:
    path = saves('"blue\tbox"\ntitle\tyear\n"Tide" Table\t1994\n', name="list.tsv")
    with pytest.raises(ListError, match="no column holds the titles"):
        read_list(path)


def test_what_is_no_file_is_told_in_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(ListError, match=r"nowhere\.csv: there is no such file\. Check the name"):
        read_list(tmp_path / "nowhere.csv")
    with pytest.raises(ListError, match=r": this is a folder\. Name the list in it"):
        read_list(tmp_path)
    with pytest.raises(ListError, match=r": this is no file\. Name the list itself"):
        read_list(Path("/dev/zero"))


def test_a_file_too_large_for_a_list_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "huge.csv"
    with path.open("wb") as file:
        file.truncate(65 << 20)
    with pytest.raises(ListError, match="this is too large for a list"):
        read_list(path)


CELL = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), max_size=20)
TITLE = CELL.filter(lambda title: plain(title).split())


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(
        st.tuples(TITLE, CELL, CELL),
        min_size=1,
        max_size=8,
    ),
    st.sampled_from(",;\t|"),
)
def test_what_a_writer_of_csv_wrote_is_read_as_it_was(
    saves: Saves, rows: list[tuple[str, str, str]], delimiter: str
) -> None:
    out = io.StringIO()
    csv.writer(out, delimiter=delimiter).writerows([("Title", "Maker", "Shelf"), *rows])
    found = read_list(saves(out.getvalue())).rows
    wanted = [
        (" ".join(plain(title).split()), maker.strip(), other.strip())
        for title, maker, other in rows
    ]
    assert [(row.title, row.maker, row.extra.get("Shelf", "")) for row in found] == wanted


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.binary(max_size=200), st.sampled_from(["list.csv", "list.txt", "list.tsv"]))
def test_no_file_gives_anything_but_games_or_a_sentence(
    saves: Saves, content: bytes, name: str
) -> None:
    try:
        said = [row.title for row in read_list(saves(content, name=name)).rows]
    except ListError as error:
        said = [error.what]
    assert said
    assert all(each.split() for each in said)
