"""The order in which a line's characters stand on paper: UAX #9, the bidirectional algorithm."""

from __future__ import annotations

import re
from typing import Literal, NamedTuple
from unicodedata import bidirectional

RIGHT_TO_LEFT = re.compile(
    "[\u0590-\u08ff\u200f\u202a-\u202e\u2066-\u2069\ufb1d-\ufdff\ufe70-\ufeff"
    "\U00010800-\U00010fff\U0001e800-\U0001efff]"
)
"""A character that can make a line run, in part, from right to left (the blocks that the
Unicode Character Database sets aside for R and AL, and the explicit directional controls)."""

# Tag characters are boundary neutral (BN): the algorithm passes over them, and they stay
# with the character before them. One of each half numbers the character they follow, and
# which half comes first on paper tells the direction.
_HIGH = {chr(0xE0020 + digit): digit for digit in range(48)}
_LOW = {chr(0xE0050 + digit): digit for digit in range(48)}


Base = Literal["L", "R"]


class Stretch(NamedTuple):
    """Characters ``start`` to ``end`` of a text, all of one direction."""

    start: int
    end: int
    rightwards: bool
    """Whether they run from left to right."""


def visual_order(text: str, base: Base | None = None) -> tuple[Stretch, ...]:
    """Return the stretches of one line of ``text`` as they stand from left to right.

    The ``base`` direction is that of the first strong character (UAX #9, P2 and P3) where
    none is given. Only the first 2,304 characters are looked at: no line is longer.
    """
    if base != "R" and not RIGHT_TO_LEFT.search(text):
        return (Stretch(0, len(text), rightwards=True),) if text else ()
    text = text[: len(_HIGH) * len(_LOW)]
    stretches: list[Stretch] = []
    for index, rightwards in _visual_characters(text, base):
        if stretches and stretches[-1].rightwards == rightwards:
            start, end, _ = stretches[-1]
            if index == (end if rightwards else start - 1):
                stretches[-1] = Stretch(min(start, index), max(end, index + 1), rightwards)
                continue
        stretches.append(Stretch(index, index + 1, rightwards))
    return tuple(stretches)


def _visual_characters(text: str, base: Base | None) -> list[tuple[int, bool]]:
    """Return the index and the direction of each character, from left to right.

    The library hands back the characters in visual order but not where they came from, so
    each carries its number. After the last number stands one more character, or it would
    count as trailing white space (rule L1): a repetition, which changes no level before it,
    or of a neutral, since a bracket repeated could close another, an exclamation mark.
    """
    import bidi

    high, low = tuple(_HIGH), tuple(_LOW)
    numbered = "".join(
        char + high[index // 48] + low[index % 48] for index, char in enumerate(text)
    )
    last = "!" if bidirectional(text[-1]) == "ON" else text[-1]
    shown = [c for c in bidi.get_display(numbered + last, base_dir=base) if c in _HIGH or c in _LOW]
    return [
        (_HIGH[a] * 48 + _LOW[b], True) if a in _HIGH else (_HIGH[b] * 48 + _LOW[a], False)
        for a, b in zip(shown[::2], shown[1::2], strict=True)
    ]
