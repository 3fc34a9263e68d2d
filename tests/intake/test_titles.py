from __future__ import annotations

import unicodedata

import hypothesis.strategies as st
import pytest
from hypothesis import example, given

from engine.intake import game_id, title_key
from engine.intake.titles import ID_LENGTH


@pytest.mark.parametrize(
    ("a", "b"),
    [
        ("The Harbour", "Harbour, The"),
        ("The Harbour: Night Watch", "Harbour, The: Night Watch"),
        ("The Harbour - Night Watch", "Harbour, The - Night Watch"),
        ("Le Phare", "phare, le"),
        ("Salt & Rope", "Salt and Rope"),
        ("Café Quay!", "CAFE  QUAY"),
        ("Pilot's Log", "Pilot’s Log"),
        ("Tide-Table", "Tide Table"),
        ("Ｔｉｄｅ ２", "Tide 2"),
        ("Smørbrød Straße", "smorbrod strasse"),
        (unicodedata.normalize("NFC", "Ébène"), unicodedata.normalize("NFD", "Ébène")),
        ("ガンバ", unicodedata.normalize("NFD", "ガンバ")),
    ],
)
def test_the_same_title_written_two_ways(a: str, b: str) -> None:
    assert title_key(a) == title_key(b)


@pytest.mark.parametrize(
    ("a", "b"),
    [
        ("Tide", "Tide 2"),
        ("Tide 2", "Tide 3"),
        ("Tide", "Tides"),
        ("Tide", "Tide+"),
        ("Tide (Trial)", "Tide"),
        ("Harbour", "The Harbour"),
        ("Quay, Theatre", "The Quay"),
        ("カンバ", "ガンバ"),
        ("???", "!!!"),
    ],
)
def test_other_titles_stay_apart(a: str, b: str) -> None:
    assert title_key(a) != title_key(b)


@given(st.text())
@example("\u0f81")  # no word, and written in two ways that are the same (UAX #15)
def test_every_title_is_its_own_equal_whatever_its_case_and_spacing(title: str) -> None:
    assert title_key(title) == title_key(f"  {title} ")
    assert title_key(title) == title_key(unicodedata.normalize("NFC", title))


@pytest.mark.parametrize(
    ("title", "short"),
    [
        ("Tide 2", "tide-2"),
        ("The Harbour", "harbour"),
        ("Harbour, The", "harbour"),
        ("Salt & Rope", "salt-and-rope"),
        ("Café Quay: Night Watch", "cafe-quay-night-watch"),
        ("A Very Long Tale of Ropes and Tides 12", "very-long-tale-of-ropes-12"),
        ("Donaudampfschifffahrtsgesellschaft", "donaudampfschifffahrtsge"),
        ("灯台の夜", "灯台の夜"),
        ("!!!", "game"),
        ("", "game"),
        ("A", "a"),
    ],
)
def test_a_game_is_named_by_its_title(title: str, short: str) -> None:
    assert game_id(title, ()) == short


def test_games_of_one_name_are_told_apart_by_letters_for_digits_are_sequels() -> None:
    taken: list[str] = []
    for _ in range(28):
        taken.append(game_id("Tide 2", taken))
    assert taken[:3] == ["tide-2", "tide-2-b", "tide-2-c"]
    assert taken[24:28] == ["tide-2-y", "tide-2-z", "tide-2-aa", "tide-2-ab"]


@given(st.text(), st.sets(st.text()))
def test_a_name_is_new_short_and_can_be_typed(title: str, taken: set[str]) -> None:
    name = game_id(title, taken)
    assert name not in taken
    assert name == game_id(title, taken)
    assert not name.startswith("-")
    assert name.replace("-", "").isalnum()
    assert len(game_id(title, ())) <= ID_LENGTH + len("-2026")
