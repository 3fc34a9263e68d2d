"""How sure it is that two readings name the same game: 1, less what they differ by.

The deductions are chosen so that habits of writing stay above the usual threshold of 0.85,
and anything that could tell two games apart falls below it (common practice, no published
source; the tests hold them to generated lists).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from engine.intake.readings import Heard, NameReading, plainly
from engine.intake.remarks import role_said
from engine.model import PictureRole

ARTICLE_LACKS = 0.02
ARTICLE_DIFFERS = 0.06
REMARKS_DIFFER = 0.02
YEAR_LACKS = 0.02
ROLE = 0.05
"""The file is of the back, a screen or the like, so that the one of the front goes before it."""
LIGHT = 0.03
"""For each small word that only one of them has."""
SPACING = 0.01
TWO_LETTERS = 0.02
"""For a letter with a mark that is written as two: 'ue'."""
ORDER = 0.06
SLIP = 0.06
"""For each letter that is written differently."""
PARTIAL = 0.8
"""The most that names reach when a word of one has no partner in the other."""

SOUND_SLIP = 0.03
"""For each letter that differs where both are written as they sound."""
_SOUNDS = 8
"""One in so many letters may."""

_LIGHT = frozenset({"and", "the", "of"})
_FRONTS = {None, PictureRole.FRONT}
_HEARD = {(Heard.LATIN, Heard.FOREIGN), (Heard.FOREIGN, Heard.LATIN)}


def likeness(title: NameReading, file: NameReading) -> float:
    """Return 0 to 1: 0 for names whose numbers, years or discs differ, 1 for the same name."""
    if title.numbers != file.numbers or _apart(title, file):
        return 0.0
    if title.heard or file.heard:
        heard = (title.heard, file.heard) in _HEARD
        score = _sound(title.joined, file.joined) if heard else 0.0
    else:
        score = _written(title, file)
    score -= title.aside + file.aside
    score -= REMARKS_DIFFER if title.remarks != file.remarks else 0.0
    score -= ROLE if role_said(file.remarks - title.remarks) not in _FRONTS else 0.0
    score -= YEAR_LACKS if title.years != file.years else 0.0
    return max(score, 0.0)


def _written(title: NameReading, file: NameReading) -> float:
    return max(
        _words(title.words, file.words) - _article(title.article, file.article),
        1.0 - SPACING if title.elided == file.elided else 0.0,
    )


def _sound(a: str, b: str) -> float:
    """Return how alike two names sound."""
    from rapidfuzz.distance import OSA

    least = min(len(a), len(b))
    slips = OSA.distance(a, b)
    return 1.0 - SOUND_SLIP * slips if slips <= least // _SOUNDS else PARTIAL * _ratio(a, b)


def _ratio(a: str, b: str) -> float:
    from rapidfuzz import fuzz

    return fuzz.ratio(a, b) / 100.0


def _apart(a: NameReading, b: NameReading) -> bool:
    """Return whether both say which year or which disc, and not the same."""
    years = a.years and b.years and a.years != b.years
    return bool(years or (a.part and b.part and a.part != b.part))


def _article(a: str, b: str) -> float:
    if a == b:
        return 0.0
    english = {a, b} <= {"the", "a", "an", ""}
    return ARTICLE_LACKS if english and not (a and b) else ARTICLE_DIFFERS


def _words(a: Sequence[str], b: Sequence[str]) -> float:
    if tuple(a) == tuple(b):
        return 1.0
    if "".join(a) == "".join(b):
        return 1.0 - SPACING
    if plainly("".join(a)) == plainly("".join(b)):
        return 1.0 - TWO_LETTERS
    if sorted(a) == sorted(b):
        # '2 - Tide' is the second of the files, not 'Tide 2'.
        return PARTIAL if a[0].isdecimal() != b[0].isdecimal() else 1.0 - ORDER
    return _paired(a, b)


def _paired(a: Sequence[str], b: Sequence[str]) -> float:
    """Return the likeness of names that share some words: partners first, then what is left."""
    left, right = _unshared(a, b), _unshared(b, a)
    if "".join(left) == "".join(right):
        return 1.0 - SPACING
    slips = 0
    for word in list(left):
        partner = next((other for other in right if _slips(word, other)), None)
        if partner is not None:
            slips += _slips(word, partner)
            left.remove(word)
            right.remove(partner)
    alone = [*left, *right]
    if all(word in _LIGHT for word in alone):
        return 1.0 - SLIP * slips - LIGHT * len(alone)
    share = (_share(a, left) + _share(b, right)) / 2
    return max(PARTIAL * share - SLIP * slips, 0.0)


def _unshared(a: Sequence[str], b: Sequence[str]) -> list[str]:
    others = list(b)
    alone = []
    for word in a:
        if word in others:
            others.remove(word)
        else:
            alone.append(word)
    return alone


def _share(words: Sequence[str], alone: Sequence[str]) -> float:
    """Return which part of the letters stands in words that found a partner."""
    return 1.0 - sum(map(len, alone)) / sum(map(len, words))


@lru_cache(maxsize=1 << 17)
def _slips(a: str, b: str) -> int:
    """Return how many letters differ if it is one word written two ways, else 0.

    In a word of four letters any other letter makes another word; up to six a changed
    letter still does ('light', 'night'), a dropped or swapped one rarely ('color').
    """
    from rapidfuzz.distance import OSA, Levenshtein

    shorter = min(len(a), len(b))
    if shorter < 5 or a.isdecimal() or b.isdecimal():
        return 0
    slips = int(OSA.distance(a, b, score_cutoff=2))
    if slips > (1 if shorter < 9 else 2):
        return 0
    changed = len(a) == len(b) and Levenshtein.distance(a, b) == slips
    return 0 if changed and shorter < 7 else slips
