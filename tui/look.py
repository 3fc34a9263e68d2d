"""The looks of the terminal program: light and dark, each in all colours and in sixteen."""

from __future__ import annotations

from textual.theme import Theme

PAPER = Theme(
    name="paper",
    dark=False,
    primary="#2f5f5b",
    secondary="#6b5b3e",
    accent="#8a3b1e",
    foreground="#2a2723",
    background="#efe8d8",
    surface="#f8f3e7",
    panel="#e2d8c1",
    warning="#7a4a00",
    error="#9b1c1c",
    success="#2d5f33",
)

LAMP = Theme(
    name="lamp",
    dark=True,
    primary="#8fc0b4",
    secondary="#c9b48a",
    accent="#e3a57a",
    foreground="#e6dfd0",
    background="#1d1b18",
    surface="#262320",
    panel="#35302a",
    warning="#e6bb6a",
    error="#ef8e85",
    success="#9ac79a",
)

PAPER_16 = Theme(
    name="paper-16",
    dark=False,
    primary="#0000aa",
    secondary="#0000aa",
    accent="#aa0000",
    foreground="#000000",
    background="#ffffff",
    surface="#ffffff",
    panel="#55ffff",
    warning="#aa0000",
    error="#aa00aa",
    success="#0000aa",
)

LAMP_16 = Theme(
    name="lamp-16",
    dark=True,
    primary="#00aaaa",
    secondary="#aaaaaa",
    accent="#ffff55",
    foreground="#ffffff",
    background="#000000",
    surface="#000000",
    panel="#0000aa",
    warning="#ffff55",
    error="#ff55ff",
    success="#55ff55",
)
"""These two are of the sixteen colours that every terminal has, as they are shown by default."""

LOOKS = (PAPER, LAMP, PAPER_16, LAMP_16)


def look_of(*, dark: bool, few_colours: bool) -> Theme:
    """Return the look for a terminal, by its ground and its colours."""
    return LOOKS[dark + 2 * few_colours]


def other(look: str) -> Theme:
    """Return the dark look for the light one of a name, and the light for the dark."""
    place = next(place for place, one in enumerate(LOOKS) if one.name == look)
    return LOOKS[place ^ 1]
