"""Numbers in names, however they are written: 'IV', 'four', '04' are 4."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

_WORDS = "one two three four five six seven eight nine ten eleven twelve"
_OF_WORD = {word: number for number, word in enumerate(_WORDS.split(), start=1)}

_ROMAN = re.compile(r"^(x{0,3})(ix|iv|v?i{0,3})$")
_UNITS = ("", "i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix")


def roman(word: str) -> int:
    """Return the value of a Roman numeral up to 39, the range of sequels; 0 if it is none."""
    found = _ROMAN.match(word)
    return 10 * len(found[1]) + _UNITS.index(found[2]) if found else 0


def in_digits(words: Sequence[str]) -> Iterator[str]:
    """Yield folded words with their numbers in digits.

    The first word is never a Roman numeral: 'X' and 'I dig' are names.
    """
    for place, word in enumerate(words):
        if word.isdecimal():
            yield str(int(word))
        else:
            number = _OF_WORD.get(word) or (roman(word) if place else 0)
            yield str(number) if number else word
