"""Words in names that tell of the copy or of the scan, not of the game."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from engine.intake.titles import word_set

_REGIONS = word_set(
    "usa us europe eu eur euro japan jp jpn world uk france germany spain italy australia "
    "korea china brazil canada asia sweden netherlands pal ntsc "
    "english french german spanish italian dutch japanese multi"
)
_LANGUAGES = word_set("en fr de es it nl pt sv no da fi ja ko zh pl ru")  # ISO 639-1
_PARTS = word_set("disc disk cart side")
_REVISIONS = _PARTS | word_set(
    "rev revision ver version v beta proto prototype demo sample final alt alternate "
    "unlicensed unl reprint"
)
_SCANS = word_set("cover covers front back box boxart art artwork scan scanned label hq lq copy")
_REMARKS = _REGIONS | _LANGUAGES | _REVISIONS | _SCANS

SURE_TAILS = word_set("cover boxart scan scanned hq lq usa eur jpn pal ntsc")
"""At the end of a file's name these are remarks even without brackets."""
TAILS = _REGIONS | _SCANS
"""These may be: 'fight back' may be a whole title."""


def is_remark(words: Sequence[str]) -> bool:
    """Return whether the folded words of a bracket tell only of the copy or the scan.

    A number is a remark only beside a revision ('rev 2'): elsewhere it may be a sequel's.
    """
    if not any(word in _REMARKS for word in words):
        return _is_code(words)
    numbered = any(word in _REVISIONS or word == "multi" for word in words)
    return all(
        word in _REMARKS or (word.isdecimal() and numbered) or _is_letter(word) for word in words
    )


def _is_code(words: Sequence[str]) -> bool:
    """Return whether the words are a letter with or without a number, or nothing at all."""
    rest_is_short = all(word.isdecimal() or _is_letter(word) for word in words[1:])
    return not words or (_is_letter(words[0]) and rest_is_short)


def _is_letter(word: str) -> bool:
    return len(word) == 1 and not word.isdecimal()


def part_of(words: Sequence[str]) -> str:
    """Return which of several discs or sides a remark names: 'disc 2'; empty for none."""
    for word, which in pairwise(words):
        if word in _PARTS and (which.isdecimal() or _is_letter(which)):
            return which
    return ""


def says_only_scan(words: Sequence[str]) -> bool:
    """Return whether a file's whole name is 'cover' or '3', so that its folder names the game."""
    return all(word.isdecimal() or word in _SCANS for word in words)
