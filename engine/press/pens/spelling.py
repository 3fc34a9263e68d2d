"""What the glyphs of a page say: the characters each stands for, as readers take them.

Readers gather the characters of a page's glyphs from left to right and turn stretches that
run from right to left about (ISO 32000-1, 14.8.2.3.3), so such runs are told glyph by glyph.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple
from unicodedata import bidirectional

from engine.model import Glyph, TextRun


class Letter(NamedTuple):
    """A glyph and what it stands for."""

    glyph: Glyph
    text: str
    """May be empty where the run states its text as a whole."""


class Spelt(NamedTuple):
    """A run as it is told to readers."""

    letters: tuple[Letter, ...]
    rest: tuple[Glyph, ...] = ()
    """Glyphs that say nothing: dots set apart from their letter, vowel signs, marks."""
    whole: bool = True
    """Whether the glyphs one by one spell the text; else it has to be stated beside them."""


def spell(run: TextRun, advance: Callable[[int], float]) -> Spelt:
    """Return what the glyphs of ``run`` say; ``advance`` gives the width of a glyph."""
    if any(bidirectional(char) in {"R", "AL"} for char in run.text):
        return _leftwards(run, advance)
    texts = spelling(run)
    letters = tuple(Letter(glyph, text) for glyph, text in zip(run.glyphs, texts, strict=True))
    return Spelt(letters, whole=all(texts) and "".join(texts) == run.text)


def spelling(run: TextRun) -> tuple[str, ...]:
    """Return what each glyph of ``run`` stands for, so that all together spell its text.

    A cluster of as many glyphs as characters is shared out one to one; of any other, the
    first glyph stands for all of it and the rest for nothing.
    """
    spelt: list[str] = []
    for text, members in _clusters(run):
        if len(text) == len(members):
            spelt.extend(text)
        else:
            spelt.extend([text, *[""] * (len(members) - 1)])
    return tuple(spelt)


def _leftwards(run: TextRun, advance: Callable[[int], float]) -> Spelt:
    """Return a run some of which reads leftwards: of a cluster its widest glyph, the letter."""
    letters: list[Letter] = []
    rest: list[Glyph] = []
    for text, members in _clusters(run):
        widest = max(members, key=lambda glyph: advance(glyph.gid))
        letters.append(Letter(widest, text))
        rest += [glyph for glyph in members if glyph is not widest]
    return Spelt(tuple(letters), tuple(rest))


def _clusters(run: TextRun) -> list[tuple[str, list[Glyph]]]:
    """Return the characters and the glyphs of each cluster, from left to right."""
    starts = sorted({glyph.cluster for glyph in run.glyphs})
    ends = dict(zip(starts, [*starts[1:], len(run.text)], strict=False))
    found: dict[int, list[Glyph]] = {}
    for glyph in run.glyphs:
        found.setdefault(glyph.cluster, []).append(glyph)
    return [
        (run.text[0 if start == starts[0] else start : ends[start]], members)
        for start, members in found.items()
    ]
