"""The key by which a title is filed.

Titles are filed word by word as they are written, not as they are spoken; nothing comes before
something (ALA Filing Rules, 1980; Library of Congress Filing Rules, 1980). What is passed over,
and what counts as what, stands at each step below. Rules are quoted from memory.

Letters, accents and scripts follow the Unicode Collation Algorithm (Unicode Technical Standard
10) in the order of CLDR, with the alphabet of the collection's language, which ICU knows.
Words are compared by their letters alone (first strength); accents, then case, decide between
titles that are otherwise alike.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from enum import Enum, auto
from functools import lru_cache
from itertools import groupby, pairwise
from typing import TYPE_CHECKING, NamedTuple

from engine.intake.numerals import roman
from engine.model.languages import LANGUAGES

if TYPE_CHECKING:
    from icu import Collator


class Tongue(NamedTuple):
    """The languages by which titles are filed (ISO 639-1)."""

    alphabet: str = "en"
    """Gives the order of letters, and the word for the sign &."""
    articles: tuple[str, ...] = ("en",)
    """Have initial articles that are passed over. Those of one are words of another, 'die' and
    'an', so they are passed over only where a person asks for their language."""


ENGLISH = Tongue()

Word = tuple[bool, float, bytes]
"""A number by its value, before all words; a word by its letters."""


class FilingKey(NamedTuple):
    """What titles are sorted by."""

    words: tuple[Word, ...]
    otherwise: bytes
    """Tells apart by accents and case what is the same word for word."""
    title: str


@lru_cache(maxsize=1 << 14)
def filing_key(title: str, tongue: Tongue = ENGLISH, *, whole: bool = False) -> FilingKey:
    """Return what a title is filed by, among others in the same ``tongue``.

    A ``whole`` one keeps its article: it is what a person wants it to be filed under.
    """
    words = filed_words(title, tongue, whole=whole)
    first, full = _collators(tongue.alphabet)
    keys = tuple(
        (True, 0.0, bytes(first.getSortKey(word))) if isinstance(word, str) else (False, word, b"")
        for word in words
    )
    return FilingKey(keys, bytes(full.getSortKey(" ".join(map(str, words)))), title)


def filed_words(
    title: str, tongue: Tongue = ENGLISH, *, whole: bool = False
) -> tuple[str | float, ...]:
    """Return the words and numbers by which a title is filed, the article away."""
    words = [*_numbered(_parts(_spelt(title if whole else _bare(title, tongue), tongue)))]
    return tuple(words if whole else _without_article(words, tongue))


# --- articles ----------------------------------------------------------------------------

_ARTICLES = frozenset().union(*(one.articles for one in LANGUAGES.values()))
_MOVED = re.compile(
    rf"^(?P<rest>.+?),\s*(?:{'|'.join(sorted(map(re.escape, _ARTICLES)))})"
    r"(?P<after>\s+[-–—:(\[].*|[:(\[].*)?$",
    re.IGNORECASE,
)
_ELIDED = re.compile(r"^\s*(\w{1,3})['’ʼ`´]\s*(?=\w)")

_LETTER_A = frozenset({"to", "is", "and", "for", "plus"})
"""After these 'a' is the letter, not the article: 'A to Z' is filed under A."""


def _bare(title: str, tongue: Tongue) -> str:
    """Return a title without an article at its end, 'Harbour, The', or in its first word."""
    moved = _MOVED.match(title.strip())
    if moved:
        return f"{moved['rest']}{moved['after'] or ''}"
    found = _ELIDED.match(title)
    elided = f"{found[1].casefold()}'" if found else ""
    known = any(elided in LANGUAGES[one].articles for one in tongue.articles)
    return title[found.end() :] if found and known else title


def _without_article(words: Sequence[str | float], tongue: Tongue) -> Sequence[str | float]:
    """Pass over an initial article in the nominative (ALA 1980, 4.2), unless it stands alone.

    Where it begins the name of a person or a place it counts (4.1), which only a person knows:
    such a title has its sort title.
    """
    articles = {one for known in tongue.articles for one in LANGUAGES[known].articles}
    head, *rest = words or [""]
    if not rest or not isinstance(head, str):
        return words
    is_letter = head.casefold() == "a" and str(rest[0]).casefold() in _LETTER_A
    return rest if head.casefold() in articles and not is_letter else words


# --- words and numbers -------------------------------------------------------------------

_THOUSANDS = re.compile(r"(?<=\d)[,\u00a0\u202f'’](?=\d{3}(?!\d))")
_APOSTROPHE = re.compile(r"(?<=\w)['’ʼ`´](?=\w)")
_JOINING = frozenset({"-", "‐", "'", "’"})


def _spelt(title: str, tongue: Tongue) -> str:
    """Return a title with its signs in letters.

    An apostrophe is passed over (ALA 1980, 2). The ampersand is filed as the word it stands for,
    in the language of the alphabet (an option of ALA 1980). A number's thousands are not parted.
    """
    conjunction = LANGUAGES[tongue.alphabet].conjunction
    text = unicodedata.normalize("NFC", title)
    text = _APOSTROPHE.sub("", _THOUSANDS.sub("", text))
    return text.replace("&", f" {conjunction} ").replace("+", " plus ")


def _parts(text: str) -> Iterator[tuple[str, bool]]:
    """Yield each run of letters and each number, and whether a part of the title ends there.

    All else parts words, hyphens too (Library of Congress 1980), and counts for nothing.
    """
    runs = [(kind, "".join(run)) for kind, run in groupby(text, _kind)]
    for (kind, run), (_, gap) in pairwise([*runs, (_Kind.GAP, ":")]):
        if kind is not _Kind.GAP:
            yield run, bool(gap.strip()) and gap not in _JOINING and not gap.isalnum()


class _Kind(Enum):
    GAP = auto()
    LETTERS = auto()
    DIGITS = auto()


def _kind(sign: str) -> _Kind:
    kind = unicodedata.category(sign)
    if kind in {"Nd", "No"}:
        return _Kind.DIGITS
    return _Kind.LETTERS if kind[0] in "LMN" else _Kind.GAP


def _numbered(parts: Iterator[tuple[str, bool]]) -> Iterator[str | float]:
    """Yield words, and the values of numbers however they are written.

    Numerals go before letters by their value, Roman ones among them (ALA 1980, 8; Library of
    Congress 1980). A title's first word is no Roman numeral, and one of a single letter is
    only where a part of the title ends, as a sequel's does: 'Tide V', 'Tide V: Ebb', but
    'I Dig' and 'Plan X Again'.
    """
    for place, (word, ends) in enumerate(parts):
        if _kind(word[0]) is _Kind.DIGITS:
            yield _value(word)
            continue
        sure = len(word) > 1 or (ends and word.isupper())
        value = roman(word.casefold()) if place and sure else 0
        yield float(value) if value else word


def _value(number: str) -> float:
    """Return the value of digits of any script, with fractions and raised ones: '2½', '²'."""
    digits = "".join(sign for sign in number if sign.isdecimal())
    return float(digits or 0) + sum(unicodedata.numeric(s) for s in number if not s.isdecimal())


# --- collation ---------------------------------------------------------------------------


@lru_cache(maxsize=8)
def _collators(language: str) -> tuple[Collator, Collator]:
    """Return what compares letters alone, and what compares accents and case too."""
    from icu import Collator, Locale

    first, full = (Collator.createInstance(Locale(language)) for _ in range(2))
    first.setStrength(Collator.PRIMARY)
    full.setStrength(Collator.TERTIARY)
    return first, full


OTHER = "#"
"""The heading of titles that begin with a number or a sign."""

_SCRIPTS = ("el", "ru", "he", "ar", "ka", "hi", "th", "ja", "ko", "zh")
"""Languages whose alphabets are known beside the collection's own, one for each script."""


@lru_cache(maxsize=1 << 14)
def heading(title: str, tongue: Tongue = ENGLISH, *, whole: bool = False) -> str:
    """Return the letter under which a title is filed: 'É' under E, a number under OTHER."""
    words = filed_words(title, tongue, whole=whole)
    if not words or not isinstance(words[0], str):
        return OTHER
    return _letters(tongue.alphabet).get(words[0])


class _Letters:
    """The letters of every alphabet, as an index has them."""

    def __init__(self, language: str) -> None:
        from icu import AlphabeticIndex, Locale

        index = AlphabeticIndex(Locale(language))
        index.maxLabelCount = 2000
        for script in _SCRIPTS:
            index.addLabels(Locale(script))
        self._labels = [label for label, _ in index]
        self._index = index.buildImmutableIndex()

    def get(self, word: str) -> str:
        label: str = self._labels[self._index.getBucketIndex(word)]
        return OTHER if label == "…" else label


@lru_cache(maxsize=8)
def _letters(language: str) -> _Letters:
    return _Letters(language)
