"""The shelf's list: whole, varied, and awkward where real lists are."""

from __future__ import annotations

import csv
import unicodedata
from collections import Counter

import fontpkg_noto_sans
import pytest
from fontTools.ttLib import TTFont

from engine.cases import load_kinds
from engine.demo import LIST
from engine.intake import read_list, title_key


@pytest.fixture(scope="module")
def rows() -> list[dict[str, str]]:
    with LIST.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_no_two_games_share_a_mark_or_a_title(rows: list[dict[str, str]]) -> None:
    assert len(rows) == len({row["Shelf mark"] for row in rows}) == 120
    assert len({title_key(row["Title"]) for row in rows}) == 120


def test_titles_are_as_varied_as_a_shelf(rows: list[dict[str, str]]) -> None:
    titles = [row["Title"] for row in rows]
    scripts = Counter(
        unicodedata.name(next(filter(str.isalpha, title))).split()[0]
        for title in titles
        if any(map(str.isalpha, title))
    )
    assert min(map(len, titles)) == 1
    assert max(map(len, titles)) == 70
    assert scripts["GREEK"] >= 5
    assert scripts["CYRILLIC"] >= 5
    assert sum(": " in title for title in titles) >= 8
    assert sum("&" in title for title in titles) >= 4
    assert 6 <= len({row["Series"] for row in rows} - {""}) <= 9
    assert len({row["Maker"] for row in rows}) == 10


def test_a_third_of_the_games_names_one_of_three_built_in_case_kinds(
    rows: list[dict[str, str]],
) -> None:
    named = Counter(row["Case kind"] for row in rows if row["Case kind"])
    assert len(named) == 3
    assert set(named) <= set(load_kinds())
    assert named.most_common(1)[0][0] == "snap-shell"
    assert 0.25 < named.total() / len(rows) < 0.4


def test_the_font_that_ships_has_every_character_of_every_title(
    rows: list[dict[str, str]],
) -> None:
    path = fontpkg_noto_sans.ROOT / "files" / "NotoSans[wdth,wght].ttf"
    with TTFont(path, lazy=True) as font:
        cmap = font.getBestCmap()
    lettered = "".join(row["Title"] + row["Maker"] for row in rows)
    assert {c for c in lettered + lettered.upper() if ord(c) not in cmap} == set()


def test_intake_reads_the_list_whole(rows: list[dict[str, str]]) -> None:
    taken = read_list(LIST)
    assert [row.title for row in taken.rows] == [row["Title"] for row in rows]
    assert {row.case for row in taken.rows} == {"", "snap-shell", "soft-cassette", "keep-case"}
    assert all({"Shelf mark", "Donor", "Loans"} <= set(row.extra) for row in taken.rows)
    assert any("\n" in row.notes for row in taken.rows)
    assert taken.notes == ()
