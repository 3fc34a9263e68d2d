"""Filing order against published rules.

Rules of the ALA Filing Rules (1980) and the Library of Congress Filing Rules (1980), and examples
of Unicode Technical Standard 10 (sections 1.1 and 1.2), all from memory.
"""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.model import Game
from engine.model.settings import Settings
from engine.shelf import filing_key, in_groups, in_order
from engine.shelf.titles import Tongue, heading
from tests.conftest import Clock

NOW = Clock()()


def mixed(titles: list[str], seed: str) -> list[str]:
    found = titles.copy()
    random.Random(seed).shuffle(found)
    return found


@pytest.mark.parametrize(
    ("rule", "in_turn"),
    [
        ("ALA 4.2: an initial article is passed over", ["Harbour", "The Inlet", "A Jetty"]),
        ("... written first or last", ["The Harbour", "Harbour, The: Dusk", "Inlet, An"]),
        ("... but not where it is the letter", ["A to Z of Knots", "Abyss", "The Zenith"]),
        ("... nor where it stands alone", ["A", "Buoy", "The"]),
        ("... nor one of a language nobody asked for", ["Dice", "Die Flut", "Dike"]),
        ("LC: numerals before letters, by their value", ["2 Tides", "10 Tides", "Anchor"]),
        ("... within a title too", ["Tide 2", "Tide 10", "Tide Again"]),
        ("... thousands parted or not", ["999 Knots", "1,000 Knots", "1001 Knots"]),
        ("ALA 8: Roman numerals among the Arabic", ["Tide", "Tide II", "Tide 3", "Tide IX: Ebb"]),
        ("... a single letter only at an end", ["Plan 9", "Plan X", "Plan V Again", "Plan Y"]),
        ("... and no first word", ["Dig Deep", "I Dig", "X Marks"]),
        ("ALA 1: what is spelt is filed as spelt", ["3 Buoys", "Three Buoys", "Two Buoys"]),
        ("LC: hyphenated words are two", ["Sea Wall", "Sea-Wrack", "Seal"]),
        ("LC: diacritics are passed over", ["Ebb", "Écluse", "Eddy"]),
        ("... and so are apostrophes", ["Gulls", "Gull\u2019s Nest", "Gulls Rest"]),
        ("ALA 1: the ampersand as its word", ["Rope and Anchor", "Rope & Buoy", "Rope and Cask"]),
        ("... 'El Paso' is filed under E", ["Eider", "El Paso", "Elver"]),
        ("nothing before something", ["Tide", "Tide Table", "Tideway"]),
        ("UTS 10, 1.1: letters", ["role", "roles", "rule"]),
        ("... then accents", ["role", "rôle", "roles"]),
        ("... then case", ["role", "Role", "rôle"]),
        ("... accents from the left", ["cote", "coté", "côte", "côté"]),
        ("... ligatures", ["Odd", "Œuvre", "Of"]),
        ("DUCET: Latin, Greek, Cyrillic, Hebrew, Arabic, kana, Han",
         ["Zebra", "Άγκυρα", "Ωκεανός", "Маяк", "ים", "بحر", "かもめ", "港"]),
    ],
)  # fmt: skip
def test_titles_are_filed_as_the_rules_say(rule: str, in_turn: list[str]) -> None:
    assert sorted(mixed(in_turn, rule), key=filing_key) == in_turn, rule


@pytest.mark.parametrize(
    ("tongue", "in_turn"),
    [
        (Tongue("fr", ("fr",)), ["La Marée", "Nuit", "L'Océan", "Le Phare", "Les Vagues"]),
        (Tongue("de", ("de",)), ["Öde Insel", "Die Ödnis", "Ofen"]),
        (Tongue("sv", ("sv",)), ["Hav", "Zon", "Ål", "Ängel", "Ö"]),
        (Tongue("es", ("es",)), ["Nube", "El Nudo", "Ñandú", "Ola"]),
        (Tongue("en", ("en", "de")), ["Die Ebbe", "The Eddy", "Flut"]),
    ],
)
def test_each_language_has_its_articles_and_its_alphabet(
    tongue: Tongue, in_turn: list[str]
) -> None:
    """UTS 10, 1.1: 'z < ö' in Swedish, 'ö < z' in German; ñ is a letter of Spanish (CLDR)."""
    shuffled = mixed(in_turn, in_turn[0])
    assert sorted(shuffled, key=lambda title: filing_key(title, tongue)) == in_turn


def test_equal_titles_keep_one_order() -> None:
    assert sorted(["the tide", "The Tide", "Tide"], key=filing_key) == sorted(
        ["Tide", "the tide", "The Tide"], key=filing_key
    )


@settings(max_examples=30)
@given(st.lists(st.text(max_size=12), max_size=6))
def test_any_text_is_filed(titles: list[str]) -> None:
    found = sorted(titles, key=filing_key)
    assert found == sorted(set(found), key=filing_key) or len(found) > len(set(found))
    assert all(map(heading, titles))


@pytest.mark.parametrize(
    ("title", "letter"),
    [("Écluse", "E"), ("The Harbour", "H"), ("2 Tides", "#"), ("!", "#"), ("Маяк", "М"),
     ("Ολα", "Ο"), ("Œuvre", "O"), ("\U00012000", "#")],
)  # fmt: skip
def test_a_title_stands_under_its_letter(title: str, letter: str) -> None:
    assert heading(title) == letter


# --- games -------------------------------------------------------------------------------


def game(title: str, **more: object) -> Game:
    return Game(id=title.lower(), title=title, added_at=NOW, **more)  # type: ignore[arg-type]


def filed(games: list[Game], chosen: Settings, colours: dict[str, str] | None = None) -> str:
    """Return the groups and their games in a line."""
    shuffled = games.copy()
    random.Random(chosen.order).shuffle(shuffled)
    groups = in_groups(shuffled, chosen, colours or {})
    flat = [one for group in groups for one in group.games]
    assert flat == list(in_order(shuffled, chosen, colours or {}))
    return " | ".join(f"{g.name}: {', '.join(one.title for one in g.games)}" for g in groups)


GAMES = [
    game("Anchor", maker="Quay", genre="puzzle", year="1991"),
    game("Tide", series="Tide", maker="The Attic", genre="chase", year="1990"),
    game("Ebb", series="Tide", maker="The Attic", genre="chase", extra={"No": "3"}, year="2001-05"),
    game("Tide II: Flow", series="Tide", genre="chase", maker="Quay"),
    game("Zephyr", maker="Attic", year="1990"),
]


@pytest.mark.parametrize(
    ("order", "found"),
    [
        ("title", "A: Anchor | E: Ebb | T: Tide, Tide II: Flow | Z: Zephyr"),
        ("series", ": Anchor | Tide: Tide, Tide II: Flow, Ebb | : Zephyr"),
        ("maker", "Attic: Zephyr | Quay: Anchor, Tide II: Flow | The Attic: Ebb, Tide"),
        ("genre", "chase: Ebb, Tide, Tide II: Flow | puzzle: Anchor | : Zephyr"),
        ("year", "1990: Tide, Zephyr | 1991: Anchor | 2001: Ebb | : Tide II: Flow"),
        ("hand", ": Zephyr, Ebb, Anchor, Tide, Tide II: Flow"),
        ("colour", "red: Tide | green: Ebb, Anchor | grey: Zephyr | : Tide II: Flow"),
    ],
)
def test_games_stand_in_the_order_that_is_set(order: str, found: str) -> None:
    chosen = Settings(order=order, by_hand=("zephyr", "ebb"))  # type: ignore[arg-type]
    colours = {"anchor": "#9be29b", "tide": "#b01020", "ebb": "#206020", "zephyr": "#808080"}
    assert filed(GAMES, chosen, colours) == found


def test_a_sort_title_goes_before_the_title_and_keeps_its_article() -> None:
    games = [game("El Faro", sort_title="El Faro"), game("Faja"), game("11th", sort_title="Elf")]
    chosen = Settings(alphabet="es", articles=("es",))
    assert filed(games, chosen) == "E: El Faro, 11th | F: Faja"
