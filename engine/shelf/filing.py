"""The order in which titles are filed on a shelf.

ALA Filing Rules (1980), 4.2: an initial article in the nominative is passed over; 4.1: not
where it begins the name of a person or a place. Library of Congress Filing Rules: numerals
before letters, by their value; hyphenated words as two; diacritics passed over.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from types import MappingProxyType
from typing import cast

from natsort import natsort_keygen, ns

from engine.intake.titles import article_first, fold, words_of
from engine.model import Game
from engine.model.settings import Settings

ENGLISH = frozenset({"the", "a", "an"})
"""Passed over by default. Articles of other languages are words in English ('die', 'an'),
so they are passed over only where a person asks for their language."""

_LETTER_A = frozenset({"to", "is", "and", "for", "plus"})
"""After these 'a' is the letter, not the article: 'A to Z' is filed under A."""

FilingKey = tuple[tuple[str | int | float, ...], str]

_natural = natsort_keygen(alg=ns.INT)


_NONE: Mapping[str, str] = MappingProxyType({})


def in_order(
    games: Iterable[Game],
    settings: Settings,  # noqa: ARG001  says which order, once there are others
    colours: Mapping[str, str] = _NONE,  # noqa: ARG001
) -> tuple[Game, ...]:
    """Return games in the order in which they stand on the shelf.

    ``colours`` are those of their edges, ``#rrggbb`` by id, for an order that asks for them.
    """
    return tuple(sorted(games, key=lambda game: (filing_key(game.title), game.id)))


def filing_key(title: str, articles: Collection[str] = ENGLISH) -> FilingKey:
    """Return what titles are sorted by; among equals the title itself decides."""
    words = words_of(article_first(fold(title)))
    if len(words) > 1 and words[0] in articles and not _is_letter(words):
        words = words[1:]
    return cast("FilingKey", (_natural(" ".join(words)), title))


def _is_letter(words: list[str]) -> bool:
    return words[0] == "a" and words[1] in _LETTER_A
