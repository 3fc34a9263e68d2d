from __future__ import annotations

import random

import pytest

from engine.shelf import filing_key


@pytest.mark.parametrize(
    ("rule", "in_order"),
    [
        ("ALA 1980, 4.2: an initial article is passed over", ["Harbour", "The Inlet", "A Jetty"]),
        ("... written first or last", ["The Harbour", "Harbour, The: Dusk", "Inlet, An"]),
        ("... but not where it is the letter", ["A to Z of Knots", "Abyss", "The Zenith"]),
        ("... nor where it stands alone", ["A", "Buoy", "The"]),
        ("LC: numerals before letters, by their value", ["2 Tides", "10 Tides", "Anchor"]),
        ("... within a title too", ["Tide 2", "Tide 10", "Tide Again"]),
        ("LC: hyphenated words are two", ["Sea Wall", "Sea-Wrack", "Seal"]),
        ("LC: diacritics are passed over", ["Ebb", "Écluse", "Eddy"]),
        ("... 'El Paso' is filed under E", ["Eider", "El Paso", "Elver"]),
        ("nothing before something", ["Tide", "Tide Table", "Tideway"]),
    ],
)
def test_titles_are_filed_as_the_rules_say(rule: str, in_order: list[str]) -> None:
    mixed = in_order.copy()
    random.Random(rule).shuffle(mixed)
    assert sorted(mixed, key=filing_key) == in_order, rule


def test_articles_of_another_language_are_passed_over_when_asked_for() -> None:
    french = {"le", "la", "les", "l"}
    titles = ["La Marée", "Le Phare", "Les Vagues"]
    assert sorted([*titles, "Nuit"], key=lambda title: filing_key(title, french)) == [
        "La Marée", "Nuit", "Le Phare", "Les Vagues",
    ]  # fmt: skip


def test_equal_titles_keep_one_order() -> None:
    assert sorted(["the tide", "The Tide", "Tide"], key=filing_key) == sorted(
        ["Tide", "the tide", "The Tide"], key=filing_key
    )
