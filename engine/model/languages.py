"""Languages of titles: what begins a title and is no part of its name, and how 'and' is said."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple


class Language(NamedTuple):
    """A language, as far as titles are filed in it."""

    name: str
    articles: frozenset[str]
    """Initial articles in the nominative, lower case; one that ends in an apostrophe is written
    together with its word."""
    conjunction: str
    """What the sign & stands for."""


def _language(name: str, articles: str, conjunction: str) -> Language:
    return Language(name, frozenset(articles.split()), conjunction)


LANGUAGES: Mapping[str, Language] = MappingProxyType(
    {
        "en": _language("English", "the a an", "and"),
        "fr": _language("French", "le la les l' un une des", "et"),
        "de": _language("German", "der die das ein eine", "und"),
        "es": _language("Spanish", "el la los las un una", "y"),
        "it": _language("Italian", "il lo la i gli le l' un uno una un'", "e"),
        "nl": _language("Dutch", "de het een t", "en"),
        "pt": _language("Portuguese", "o a os as um uma", "e"),
        "sv": _language("Swedish", "den det en ett", "och"),
        "da": _language("Danish", "den det en et", "og"),
        "nb": _language("Norwegian", "den det en et ei", "og"),
        "hu": _language("Hungarian", "a az egy", "és"),
        "el": _language("Greek", "ο η το οι τα ένας μια ένα", "και"),
        "fi": _language("Finnish", "", "ja"),
        "pl": _language("Polish", "", "i"),
        "cs": _language("Czech", "", "a"),
        "ru": _language("Russian", "", "и"),
        "ja": _language("Japanese", "", ""),
    }
)
"""By ISO 639-1. The articles are those that library catalogues pass over at the head of a title
(MARC 21, appendix F, initial definite and indefinite articles), from memory."""
