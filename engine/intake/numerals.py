"""Numbers in names, however they are written: 'IV', 'four', '04', '4th' and 'quatre' are 4."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

_ROMAN = re.compile(r"^(x{0,3})(ix|iv|v?i{0,3})$")
_UNITS = ("", "i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix")

_ORDINAL = re.compile(r"(?<=\d)(?:st|nd|rd|th|e|er|re|ere|eme|te|ten|ter|tes)\b")
"""What follows the digits of an ordinal, in English, French, Dutch and German."""

ENGLISH = "en"
ELSEWHERE = ("fr", "de", "es", "it", "pt", "nl")
"""The other languages whose numbers are read (ISO 639-1)."""

_TWO = 2.0
"""In these a number has to be this at least: 'un' and 'ein' are articles."""


def roman(word: str) -> int:
    """Return the value of a Roman numeral up to 39, the range of sequels; 0 if it is none."""
    found = _ROMAN.match(word)
    return 10 * len(found[1]) + _UNITS.index(found[2]) if found else 0


def without_ordinals(folded: str) -> str:
    """Return a folded text with the bare numbers of its ordinals: '4th' is '4'."""
    return _ORDINAL.sub("", folded)


def in_digits(words: Sequence[str]) -> Iterator[str]:
    """Yield folded words with their numbers in digits: numerals, and the words of English.

    The first word is never a Roman numeral: 'X' and 'I dig' are names.
    """
    for place, word in enumerate(_spelt_out(" ".join(words), ENGLISH, 0.0).split()):
        if word.isdecimal():
            yield str(int(word))
        else:
            number = roman(word) if place else 0
            yield str(number) if number else word


def read_elsewhere(words: Sequence[str]) -> str:
    """Return words as they are written, their numbers in digits, in another language than English.

    The first language that knows any decides; '' if none does.
    """
    languages = {language for word in words for language in _known_in(word)}
    text = " ".join(words)
    found = (_spelt_out(text, language, _TWO) for language in ELSEWHERE if language in languages)
    return next((digits for digits in found if digits != text), "")


@lru_cache(maxsize=1 << 16)
def _known_in(word: str) -> tuple[str, ...]:
    """Return the languages in which a word is a number, or the beginning of one."""
    return tuple(language for language in ELSEWHERE if _spelt_out(word, language, _TWO) != word)


def _spelt_out(text: str, language: str, least: float) -> str:
    from text_to_num import alpha2digit

    return without_ordinals(str(alpha2digit(text, language, least)))
