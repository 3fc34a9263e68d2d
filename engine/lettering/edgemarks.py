"""What the columns of the list bring onto the edges: a mark, and a stripe for a second group."""

from __future__ import annotations

import re
from collections.abc import Iterable

from engine.model import Game
from engine.model.columns import value_of

STRIPES = (
    "#e7c0b9",
    "#1f0658",
    "#97400d",
    "#6b89f9",
    "#311618",
    "#6f6f6f",
    "#98b305",
    "#44e1f9",
    "#4256a6",
    "#9d9173",
    "#56465e",
    "#d3eb85",
)
"""Each as far as can be from those before it, to any eye (see ``colours.choose_colours``), so that
a group that comes later leaves the colours of the others alone."""

LONGEST = 4
"""A mark of so many characters stands as it is; of a longer one its words' first letters do."""
LONGEST_NUMBER = 8
"""So does a number or a shelf mark, which has figures in it."""

SAME = "="
"""A mark that begins so is the person's own sign, the same on every edge: '=★'."""


def mark_of(game: Game, column: str) -> str:
    """Return the mark that a column gives a game: what it says, or its first letters.

    A ``column`` that begins with ``SAME`` is no column but the mark itself.
    """
    if column.startswith(SAME):
        return column.removeprefix(SAME).strip()[:LONGEST]
    said = value_of(game, column)
    has_figures = any(sign.isdigit() for sign in said)
    if len(said) <= (LONGEST_NUMBER if has_figures else LONGEST):
        return said
    words = re.findall(r"\w+", said)
    return "".join(word if word.isdigit() else word[0].upper() for word in words)[:LONGEST]


def stripes_of(values: Iterable[str]) -> dict[str, str]:
    """Return a colour for each value but the empty one, in the order in which they first come.

    Where there are more than there are colours, they begin again.
    """
    found = dict.fromkeys(filter(None, values))
    return {said: STRIPES[at % len(STRIPES)] for at, said in enumerate(found)}
