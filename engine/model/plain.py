"""Text from strangers as it may be shown and printed: nothing in it acts on what shows it."""

from __future__ import annotations

import re

_BREAKS = re.compile("[\t\n\x0b\x0c\r\x1c-\x1f\x85\u2028\u2029]+")
_ACTING = (
    "\0-\x08\x0e-\x1b\x7f-\x84\x86-\x9f\u202a-\u202e\u2066-\u2069\ufeff\ufff9-\ufffb"
    "\U000e0000-\U000e007f"
)
"""Control characters, of which terminals make commands (ECMA-48); overrides of the direction, which
turn round what stands beside them (UAX #9, 2.1 to 2.3; joiners and plain marks stay, since words of
many scripts are written with them); unseen notes and tags."""

_ACTS = re.compile(f"[{_ACTING}]")
_HALVES = re.compile("[\ud800-\udfff]")
_FAULTY = re.compile(f"[\ud800-\udfff{_ACTING}\t\n\x0b\x0c\r\x1c-\x1f\x85\u2028\u2029]")


def plain(text: str) -> str:
    """Return ``text`` in one line, without what acts on a terminal or on the text beside it.

    Halves of characters, which no page or file can hold, become U+FFFD.
    """
    if _is_usual(text) or _FAULTY.search(text) is None:
        return text
    return _HALVES.sub("\ufffd", _ACTS.sub("", _BREAKS.sub(" ", text)))


def _is_usual(text: str) -> bool:
    """Return whether nothing can be wrong with ``text``: asked of every text of a collection."""
    return text.isascii() and text.isprintable()


LONGEST = 500
"""Characters of a title and the like: no edge has room for more."""


def brief(text: str) -> str:
    """Return what ``plain`` does, no longer than LONGEST."""
    return plain(text)[:LONGEST]


def plain_lines(text: str) -> str:
    """Return what ``plain`` does of each line of ``text``."""
    if _is_usual(text):
        return text
    return "\n".join(map(plain, text.split("\n")))
