"""Titles compared, and the short names that people type for games."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Iterator


def word_set(text: str) -> frozenset[str]:
    """Return the words of ``text``, for tables of words that are read as a line."""
    return frozenset(text.split())


ARTICLES = word_set(
    "the a an "  # English
    "l le la les un une des "  # French
    "der die das ein eine "  # German
    "el los las una "  # Spanish
    "il lo gli uno "  # Italian
    "de het een "  # Dutch
    "o os as um uma"  # Portuguese
)
"""Articles that lists and file names move to the end: 'Harbour, The'."""

_LETTERS = str.maketrans(
    {"ø": "o", "æ": "ae", "œ": "oe", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ı": "i"}
)
_MARKS = re.compile("[\u0300-\u036f]")
_APOSTROPHES = re.compile("['’‘ʼ`´]")
_ELIDED = re.compile(r"^\s*l['’ʼ`´]\s*(?=\w)")
"""An article that is written together with its word, as French, Italian and Catalan do."""
_THOUSANDS = re.compile(r"(?<=\d),(?=\d{3}\b)")
_AFTER = r"(?=$|\s+[-–—:(\[]|[:(\[])"
_MOVED = re.compile(
    rf"^(?P<rest>.+?),\s*(?P<article>{'|'.join(sorted(ARTICLES))}){_AFTER}(?P<after>.*)$"
)
_WORD = re.compile(r"\d+|[^\W\d_]+")


def fold(text: str) -> str:
    """Return ``text`` without case, accents, apostrophes and the other ways to write a sign."""
    plain = unicodedata.normalize("NFKC", text).casefold().translate(_LETTERS)
    plain = _ELIDED.sub("l ", plain)
    plain = _MARKS.sub("", unicodedata.normalize("NFKD", plain))
    plain = unicodedata.normalize("NFC", plain)
    plain = _THOUSANDS.sub("", _APOSTROPHES.sub("", plain))
    return plain.replace("&", " and ").replace("+", " plus ")


def article_first(folded: str) -> str:
    """Return a folded title with an article that was moved to the end at its head again."""
    moved = _MOVED.match(folded.strip())
    if moved is None:
        return folded
    return f"{moved['article']} {moved['rest']}{moved['after']}"


def words_of(folded: str) -> list[str]:
    """Return the words and the numbers of a folded text, in order."""
    return _WORD.findall(folded)


def title_key(title: str) -> str:
    """Return what two titles of the same game have in common.

    Case, accents, punctuation and spacing are passed over, '&' is 'and', and 'Harbour, The'
    is 'The Harbour'; every word and every number counts, in its order and way of writing.
    """
    words = words_of(article_first(fold(title)))
    return " ".join(words) or " ".join(unicodedata.normalize("NFC", title).split()).casefold()


ID_LENGTH = 24
_SEQUEL = 4
"""Digits of a number that still is a sequel's, or a year."""


def game_id(title: str, taken: Collection[str]) -> str:
    """Return a short name for a game that is not in ``taken``: 'tide-2', then 'tide-2-b'.

    It is made of the title's letters and digits, cut between words; numbers survive the
    cut, since they are what tells two games of a series apart.
    """
    stem = _shortened(words_of(article_first(fold(title)))) or "game"
    return next(name for name in _names(stem) if name not in taken)


def _shortened(words: list[str]) -> str:
    if len(words) > 1 and words[0] in {"the", "a", "an", "l"}:
        words = words[1:]
    kept: list[str] = []
    for word in words:
        if kept and len("-".join((*kept, word))) > ID_LENGTH:
            break
        kept.append(word[:ID_LENGTH])
    if len(kept) < len(words) and words[-1].isdecimal() and len(words[-1]) <= _SEQUEL:
        kept.append(words[-1])
    return "-".join(kept)


def _names(stem: str) -> Iterator[str]:
    yield stem
    number = 1
    while True:
        yield f"{stem}-{_letters(number)}"
        number += 1


def _letters(number: int) -> str:
    """Return 1 as 'b', 25 as 'z', 26 as 'aa': letters, for digits would read as a sequel's."""
    letters = ""
    number += 1
    while number:
        number, digit = divmod(number - 1, 26)
        letters = chr(ord("a") + digit) + letters
    return letters
