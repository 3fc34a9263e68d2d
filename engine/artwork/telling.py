"""Which lines of a picture's lettering are its game's title."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from enum import StrEnum

from engine.model.reading import TextLine

ALIKE = 75.0
"""How alike, of 100, a line and a part of the title are: a reader takes a letter in five of ornate
lettering for another."""

SHORT = 3
"""Lines of no more letters have to be just a word of the title."""

SAID = 0.85
"""Part of the title's letters that its lines must say between them; else a line is missing."""

SCRIPTS = {"LATIN", "CJK", "HIRAGANA", "KATAKANA", "FULLWIDTH", "HALFWIDTH", "KATAKANA-HIRAGANA"}
"""What the reader was trained on, as Unicode names begin."""

AS_LARGE = 0.6
"""How thick a line is, against the thickest of the title, that may be a part of it which the reader
did not make out."""


def title_lines(lines: Sequence[TextLine], shape: float, title: str) -> tuple[bool, ...]:
    """Return for each line whether it may belong to the title, which then must not be lost.

    ``shape`` is the picture's width to its height. Where the lines that are like the title do not
    say all of it, lines as large as they are, or nearly so, are taken for the rest; where no line
    is like it, as on a cover in another script, the largest are.
    """
    wanted = letters(title)
    like = [_is_like(letters(line.text), wanted, title) for line in lines]
    said = sum(
        len(letters(line.text)) for line, is_like in zip(lines, like, strict=True) if is_like
    )
    if said >= SAID * len(wanted):
        return tuple(like)
    thick = [thickness(line, shape) for line in lines]
    largest = max(
        (size for size, is_like in zip(thick, like, strict=True) if is_like or not any(like)),
        default=0.0,
    )
    return tuple(
        is_like or size >= AS_LARGE * largest for size, is_like in zip(thick, like, strict=True)
    )


class Says(StrEnum):
    """Whether lettering says a title."""

    YES = "yes"
    NO = "no"
    PERHAPS = "perhaps"
    """There is lettering that could be the title, or the title's script is one that is not read."""


def says(lines: Sequence[TextLine], title: str) -> Says:
    """Return whether lines say the title, or a part of it."""
    wanted = letters(title)
    if any(_is_like(letters(line.text), wanted, title) for line in lines):
        return Says.YES
    return Says.PERHAPS if lines or not can_read(title) else Says.NO


def can_read(title: str) -> bool:
    """Return whether the reader knows all scripts of a title, as its letters' names tell."""
    return {unicodedata.name(char, "?").split()[0] for char in title if char.isalpha()} <= SCRIPTS


def letters(text: str) -> str:
    """Return the letters and digits of ``text`` without case, accents and spaces."""
    parts = unicodedata.normalize("NFKD", text.casefold())
    return "".join(letter for letter in parts if letter.isalnum())


def thickness(line: TextLine, shape: float) -> float:
    """Return how thick a line is, across the way it runs, as a part of the picture's height."""
    across, down = (line.right - line.left) * shape, line.bottom - line.top
    return across if line.upright else min(down, max(across, down))


def _is_like(said: str, wanted: str, title: str) -> bool:
    if not said or not wanted:
        return False
    if len(said) <= SHORT:
        return any(said == letters(word) for word in title.split())
    from rapidfuzz import fuzz

    return fuzz.partial_ratio(said, wanted) >= ALIKE
