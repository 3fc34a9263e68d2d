"""Which characters a font has, and who stands in for those it lacks."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple
from unicodedata import name

from engine.lettering.faces import Face, open_face
from engine.model import FontRef

_CONTROL = re.compile(r"[\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufe00-\ufe0f\ufeff]")
"""Characters without a glyph of their own: joiners, directional marks, variation selectors."""


class Missing(NamedTuple):
    """A character that no font in the chain has."""

    char: str
    code: str
    """``U+2603``."""
    name: str
    """Its name in the Unicode Character Database."""

    def __str__(self) -> str:
        """Return it as it is told to a person: ``☃ (U+2603 snowman)``."""
        return f"{self.char} ({self.code} {self.name.lower()})"


def check(text: str, font: FontRef, fallbacks: tuple[FontRef, ...] = ()) -> tuple[Missing, ...]:
    """Return the characters of ``text`` that neither ``font`` nor a fallback has, each once."""
    chosen = fonts_for(text, open_face(font), fallbacks)
    lacking = dict.fromkeys(
        char
        for char, face in zip(text, chosen, strict=True)
        if char not in face.characters and not _goes_along(char)
    )
    return tuple(Missing(char, f"U+{ord(char):04X}", name(char, "unnamed")) for char in lacking)


def fonts_for(text: str, face: Face, fallbacks: tuple[FontRef, ...]) -> list[Face]:
    """Return the font of each character: the first in the chain that has it.

    Marks, figures and punctuation stay with what stands before them where that font has
    them too; spaces and controls always do. What none has stays with ``face``.
    """
    if not lacking(text, face):
        return [face] * len(text)
    first = _chain(face.ref, fallbacks)
    chosen: list[Face] = []
    before = face
    for char in text:
        if char.isalpha() or not (char in before.characters or _goes_along(char)):
            before = first[char]
        chosen.append(before)
    return chosen


def lacking(text: str, face: Face) -> set[str]:
    """Return the characters of a text that a font lacks, but for those without a glyph."""
    return {char for char in set(text) - face.characters if not _goes_along(char)}


class _Chain(dict[str, Face]):
    """The first font that has a character, looked for once."""

    def __init__(self, fonts: tuple[FontRef, ...]) -> None:
        self._faces = tuple(map(open_face, fonts))

    def __missing__(self, char: str) -> Face:
        found = (face for face in self._faces if char in face.characters)
        self[char] = first = next(found, self._faces[0])
        return first


@lru_cache(maxsize=64)
def _chain(font: FontRef, fallbacks: tuple[FontRef, ...]) -> _Chain:
    return _Chain((font, *fallbacks))


def _goes_along(char: str) -> bool:
    return char.isspace() or _CONTROL.match(char) is not None
