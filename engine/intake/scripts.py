"""Names of other scripts in Latin letters, however they were transliterated.

One title is 'Chayki', 'Chajki' or 'Čajki' by the system that its writer follows (ISO 9, ALA-LC,
ISO 843, Hepburn, or none), so that names are compared by what these have in common.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

_LATIN_ENDS, _LATIN_MORE = "\u0370", ("\u1e00", "\u1eff")
"""Letters from the first on are of other scripts, but for those between the others (Unicode)."""

_ALIKE = (
    ("shch|sch|sh", "s"),  # щ, ш
    ("zh", "z"),  # ж
    ("tch|ch|ts|tz", "c"),  # ч, ц, χ
    ("kh", "h"),  # х
    ("ph", "f"),  # φ
    ("th", "t"),  # θ
    ("ou", "u"),  # ου
    ("mp", "b"),  # μπ
    ("t(?=[kp])", ""),  # っ, as it doubles
    ("x", "ks"),  # ξ
    ("w", "v"),
    ("[jy]", "i"),  # й, я, υ, η
    (r"(.)\1+", r"\1"),
    ("(?<=[scz])i(?=[aou])", ""),  # し before a small vowel
)
"""What one system writes so and another otherwise, and what both are taken for, in turn.
Applied to both names, so that it does no harm where it is taken for another sound."""

_PATTERNS = tuple((re.compile(pattern), sound) for pattern, sound in _ALIKE)


def is_foreign(text: str) -> bool:
    """Return whether a text has letters of another script than Latin."""
    first, last = _LATIN_MORE
    return not text.isascii() and any(
        sign >= _LATIN_ENDS and not first <= sign <= last and sign.isalpha() for sign in text
    )


def in_latin(words: Sequence[str]) -> tuple[str, ...]:
    """Return words of any script in Latin letters, one of many ways to write them.

    Chinese characters are read as Chinese, also where a title is Japanese.
    """
    from anyascii import anyascii

    return tuple(filter(None, (_letters(anyascii(word).lower()) for word in words)))


def sounds(words: Sequence[str]) -> tuple[str, ...]:
    """Return folded Latin words as all ways to transliterate have them, as nearly as can be."""
    return tuple(_sound(word) for word in words)


def _letters(text: str) -> str:
    return "".join(sign for sign in text if sign.isalnum())


def _sound(word: str) -> str:
    for pattern, sound in _PATTERNS:
        word = pattern.sub(sound, word)
    return word


_LOOKS = str.maketrans(
    "авекмнорстухіѕјьαβεζηικμνορτυχωгяипзбчшц0l1",
    "abekmhopctyxisjbabeznikmvoptyxwrrunz6ywuoii",
)
"""Greek and Cyrillic letters that look like a Latin one, as capitals or as small letters, and the
nought, the one and the small l: a reader takes one for the other (after Unicode's UTS #39)."""


def looks(letters: str) -> str:
    """Return folded letters as they look, for what was read off a picture."""
    return letters.translate(_LOOKS)
