"""Invented titles, makers' names, slogans and small text; the same for the same seed."""

from __future__ import annotations

from random import Random
from typing import NamedTuple

WORDS = """
Amber Bramble Copper Dapple Ember Fennel Gorse Hollow Ivory Juniper Kelp Linden Marrow Nettle Ochre
Pewter Quarry Russet Saffron Thistle Umber Velvet Willow Yarrow Zinc Cinder Plum Oyster Tin Slate

Anchor Bridge Causeway Dune Estuary Ferry Gate Harbour Inlet Jetty Keel Lantern Mill Niche Orchard
Pier Quay Ridge Signal Tower Umbrella Valley Wharf Yard Kite Compass Stair Garden Clock Tram
"""
FIRST, SECOND = (words.split() for words in WORDS.split("\n\n"))
ELSEWHERE = (
    "Θαλασσινός Δρόμος",
    "Πέτρινο Γεφύρι",
    "Ξύλινος Φάρος",
    "Тихая Гавань",
    "Медный Фонарь",
    "Сад за Рекой",
)
"""In other scripts, for one cover in some fifty."""
ABROAD = ("みなとの灯台", "紙の舟と風", "ブリキの時計塔", "はちみつ通り", "夜の渡し船")
"""What stands on a cover that the list calls by a Latin title, for one in some fifty."""

MAKERS = (
    "Corkboard & Daughters",
    "Tin Kettle Works",
    "Halfpenny Press",
    "Saltbox Soft",
    "Mossgate",
    "Lamp & Ladder",
    "Two Herons",
)
SLOGANS = (
    "Find the way home before dark",
    "For one or two players",
    "With a map of the island",
    "Every tide brings something",
    "Mind the third step",
    "A quiet game about loud weather",
    "Winner of nothing yet",
)
BLURBS = (
    "The ferry leaves at noon and you have",
    "lost the only ticket. Ask the miller,",
    "climb the tower, count the lanterns,",
    "and do not trust the weathercock.",
    "Forty rooms, nine keys, one long day.",
    "Save at any bench by the water.",
    "Works with a link cable and a friend.",
)


class Name(NamedTuple):
    """What a game is called."""

    listed: str
    """In the list; no two are alike."""
    printed: str
    """On its cover."""


def names(seed: str, count: int) -> list[Name]:
    """Return the names of so many games, of one to six words."""
    dice = Random(f"names {seed}")
    found = dict.fromkeys(dice.sample(ELSEWHERE, min(len(ELSEWHERE), count // 50)))
    while len(found) < count:
        found[_title(dice)] = None
    listed = [Name(title, title) for title in found]
    for place, title in enumerate(dice.sample(ABROAD, min(len(ABROAD), count // 50))):
        listed[-1 - place] = listed[-1 - place]._replace(printed=title)
    dice.shuffle(listed)
    return listed


def _title(dice: Random) -> str:
    one, other = dice.sample(FIRST, 2)
    place, thing = dice.sample(SECOND, 2)
    return dice.choice(
        (
            f"{one} {place}",
            f"{one} {place}",
            f"{place} of {one}",
            f"The {one} {place}",
            f"{one}{place.lower()}",
            f"{one} {place} {dice.randint(2, 9)}",
            f"{one} {place} and {thing}",
            f"The {place} at {one} {thing}",
            f"{one} & {other}",
        )
    )
