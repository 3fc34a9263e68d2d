"""The list of an export: every game comes back as it was, and no spreadsheet runs a cell of it.

What starts a formula is what OWASP lists ('CSV Injection'); the csv module of Python reads the
table by RFC 4180.
"""

from __future__ import annotations

import csv
import io
from datetime import UTC, datetime
from pathlib import Path, PurePosixPath

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.intake.exported import file_names, games_as_csv, is_export, read_games
from engine.intake.lists import read_list
from engine.model import Accepted, Art, EdgeTitle, Game, Match, PictureRole, SidePicture
from engine.model.errors import ListError
from engine.model.plain import plain

AT = datetime(2026, 3, 1, 12, 30, tzinfo=UTC)
WHERE = Path("games.csv")
TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=12) | st.sampled_from(
    ["=1+1", "+1", "-1", "@sum", "'=1", "''", "\t=1", "\r=1", 'a,b;c\t"d"', "two\r\nlines\n", "id"]
)
GAMES = st.lists(
    st.builds(
        Game,
        id=TEXT,
        title=TEXT,
        added_at=st.just(AT),
        series=TEXT,
        notes=TEXT,
        extra=st.dictionaries(TEXT.filter(bool) | st.just("title"), TEXT.filter(plain), max_size=3),
        match=st.none() | st.builds(Match, picture=TEXT, confidence=st.floats(0, 1)),
        accepted=st.builds(Accepted, art=st.none() | st.builds(Art, picture=TEXT)),
    ),
    max_size=4,
)


@settings(max_examples=25)
@given(GAMES)
def test_games_come_back_as_they_were(games: list[Game]) -> None:
    listed = games_as_csv(games, {})
    assert is_export(listed)
    assert list(read_games(listed, WHERE)) == games
    for row in csv.reader(io.StringIO(listed, newline="")):
        assert not [cell for cell in row if cell.startswith(("=", "+", "-", "@", "\t", "\r"))]


def test_a_list_that_a_spreadsheet_saved_again_is_read(tmp_path: Path) -> None:
    title = EdgeTitle("spine", ("-Tide",), 9.5)
    side = SidePicture("b.png", PictureRole.BACK)
    game = Game("tide", "=Tide", AT, accepted=Accepted(title=(title,)), sides=(side,))
    rows = csv.reader(io.StringIO(games_as_csv([game], {}), newline=""))
    path = tmp_path / "saved.csv"
    with path.open("w", encoding="utf-8-sig", newline="") as file:
        csv.writer(file, delimiter=";", quoting=csv.QUOTE_ALL).writerows(rows)
    (row,) = read_list(path).rows
    assert row.known == game


def test_a_row_that_was_made_unreadable_is_named() -> None:
    spoilt = games_as_csv([Game("tide", "Tide", AT), Game("reef", "Reef", AT)], {}).replace(
        "reef,Reef,,,,,,,2026", "reef,Reef,,,,,,,March 2026"
    )
    with pytest.raises(ListError, match=r"games\.csv, game 2: it is not as it was exported"):
        read_games(spoilt, WHERE)


@settings(max_examples=25)
@given(
    st.lists(
        st.text(max_size=30) | st.sampled_from(["../../a", "/etc/b.png", "C:\\con.png", "é" * 300])
    )
)
def test_pictures_get_names_that_are_safe_anywhere(sources: list[str]) -> None:
    """What Windows refuses is of Microsoft's 'Naming Files, Paths, and Namespaces'."""
    names = file_names({f"{number:020x}.png": each for number, each in enumerate(sources)})
    assert len({name.casefold() for name in names.values()}) == len(sources)
    for name in names.values():
        parts = PurePosixPath(name).parts
        assert not PurePosixPath(name).is_absolute()
        assert not {"..", ".", ""} & set(parts)
        for part in parts:
            assert not set(part) & set('<>:"|?*\\')
            assert part.isprintable()
            assert part.rstrip(". ") == part
            assert len(part.encode()) <= 255
            assert part.partition(".")[0].casefold() not in {"con", "prn", "aux", "nul", "com1"}


def test_a_picture_keeps_its_name_and_two_of_one_name_keep_both() -> None:
    sources = {"1.png": "covers/Tide.png", "2.png": "covers/tide.PNG", "3.jpg": "Reef"}
    assert file_names(sources) == {
        "1.png": "covers/Tide.png",
        "2.png": "covers/tide (2).PNG",
        "3.jpg": "Reef.jpg",
    }
