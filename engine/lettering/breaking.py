"""Where a title may be broken into lines: UAX #14, the Unicode line breaking algorithm.

Classes of characters and the full rules are a library's. Its walk through the rules takes
milliseconds for a title, so what ordinary titles need (words, punctuation, ideographs) is
decided here from the same classes; anything else is left to the library.
"""

from __future__ import annotations

import re
from functools import lru_cache
from operator import add
from unicodedata import category, east_asian_width

_LETTERS = {
    "AL": "a",
    "HL": "b",
    "CM": "m",
    "NU": "n",
    "SP": "s",
    "ID": "i",
    "H2": "i",
    "H3": "i",
    "NS": "c",
    "CJ": "c",
    "CL": "c",
    "EX": "c",
    "IS": "p",
    "CP": "r",
    "HY": "h",
    "BA": "d",
    "QU": "q",
    "IN": "e",
}
"""A letter for each line breaking class; classes that behave alike here share one."""


_NEIGHBOURS = {
    "a": ("abemnoscprhdq", "iO"),
    "b": ("abemnoscprhq", "iO"),
    "m": ("abemnoscprhd", "iO"),
    "n": ("abenoscprdq", "iO"),
    "s": ("s", "abenioOd"),
    "i": ("ecprshd", "abnioO"),
    "c": ("ecps", "abnioO"),
    "o": ("abecnioO", ""),
    "O": ("abecnioO", ""),
    "p": ("abecprshd", "i"),
    "r": ("abencprs", "i"),
    "h": ("es", "abi"),
    "d": ("es", "anio"),
    "q": ("ean", ""),
    "e": ("ecprshdq", "abnioO"),
}
"""What may follow a class: without a break before it, with one. Pairs that are not here have
rules that reach further than from one character to the next."""

_RULES = {
    left + right: allowed
    for left, sides in _NEIGHBOURS.items()
    for allowed, rights in zip((False, True), sides, strict=True)
    for right in rights
}


class _BreakPairs(dict[str, bool]):
    """Whether a line may end between two characters; KeyError leaves it to the library."""

    def __missing__(self, pair: str) -> bool:
        self[pair] = allowed = _RULES["".join(map(_class, pair))]
        return allowed


_PAIRS = _BreakPairs()

_HEBREW_HYPHEN = re.compile(r"[\u05d0-\u05f2][^\w\s]*-[^\u05d0-\u05f2]")
"""LB21a: what follows such a hyphen decides."""


@lru_cache(maxsize=4096)
def breaks(text: str) -> tuple[int, ...]:
    """Return the indices at which a line of ``text`` may end, its own end left out."""
    if not text or _class(text[0]) not in "abnioO" or _HEBREW_HYPHEN.search(text):
        return library_breaks(text)
    # Between spaces a hyphen breaks as a dash does; elsewhere LB20a looks at both its sides.
    plain = text.replace(" - ", " \u2013 ")
    try:
        return tuple([at for at, pair in enumerate(map(add, plain, plain[1:]), 1) if _PAIRS[pair]])
    except KeyError:
        return library_breaks(text)


def library_breaks(text: str) -> tuple[int, ...]:
    """Return the same by the library's walk through all the rules."""
    from uniseg.linebreak import line_break_boundaries

    return tuple(index for index in line_break_boundaries(text) if 0 < index < len(text))


@lru_cache(maxsize=4096)
def _class(char: str) -> str:
    """Return the letter of a character's class; x where there is none."""
    from uniseg.linebreak import line_break

    name = line_break(char).name
    if name == "OP":  # LB30 holds for narrow brackets only
        return "O" if east_asian_width(char) in {"W", "F", "H"} else "o"
    if name == "SA":  # LB1, where no dictionary of the language is to hand
        return "m" if category(char) in {"Mn", "Mc"} else "a"
    if "\u0591" <= char <= "\u05c7":  # Hebrew points: LB21a looks past them
        return "x"
    return _LETTERS.get(name, "x")
