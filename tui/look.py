"""The looks of the terminal program: light and dark, each in all colours, in 256 and in sixteen."""

from __future__ import annotations

from rich.segment import Segment
from rich.style import Style
from textual.color import Color
from textual.filter import LineFilter
from textual.theme import Theme

from tui.terminal import Terminal

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

PAPER_256 = Theme(
    name="paper-256",
    dark=False,
    primary="#005f5f",
    secondary="#585858",
    accent="#870000",
    foreground="#262626",
    background="#eeeeee",
    surface="#ffffff",
    panel="#d7d7d7",
    warning="#5f5f00",
    error="#af0000",
    success="#005f00",
)

LAMP_256 = Theme(
    name="lamp-256",
    dark=True,
    primary="#87afaf",
    secondary="#d7af87",
    accent="#ffaf87",
    foreground="#e4e4e4",
    background="#1c1c1c",
    surface="#262626",
    panel="#3a3a3a",
    warning="#d7af5f",
    error="#ff8787",
    success="#87d787",
)
"""These two are of xterm's 256 colours: the nearest of those to warm white are pink and yellow."""

LOOKS = (PAPER, LAMP, PAPER_16, LAMP_16, PAPER_256, LAMP_256)
FEW = (PAPER_16.name, LAMP_16.name)
"""The names of those in sixteen colours."""


_UNDERLINED = Style(bold=False, underline=True)
_NOT_BOLD = Style(bold=False)


class NotBrighter(LineFilter):
    """Underlines what would be bold and dark, for many terminals of sixteen colours brighten it.

    Black becomes grey there (xterm's "boldColors"; the console of Linux has no other bold).
    """

    def apply(
        self,
        segments: list[Segment],
        background: Color,  # noqa: ARG002 - other filters need it
    ) -> list[Segment]:
        """Return the segments, as wide as they were."""
        return [part for one in segments for part in _not_brighter(one)]


def _not_brighter(segment: Segment) -> list[Segment]:
    text, style, control = segment
    if style is None or not style.bold or not _is_dark(style):
        return [segment]
    plain = style + _NOT_BOLD
    if style.reverse:
        return [Segment(text, plain, control)]
    shown = text.strip(" ")
    before, _, after = text.partition(shown) if shown else (text, "", "")
    parts = ((before, plain), (shown, style + _UNDERLINED), (after, plain))
    return [Segment(part, its, control) for part, its in parts if part]


def _is_dark(style: Style) -> bool:
    colour = style.color and style.color.triplet
    return bool(colour) and Color(*colour).brightness < 0.5


NOT_BRIGHTER = NotBrighter()


def look_of(terminal: Terminal) -> Theme:
    """Return the look for a terminal, by its ground and its colours."""
    return LOOKS[terminal.dark + 2 * terminal.few_colours + 4 * terminal.palette]


def other(look: str) -> Theme:
    """Return the dark look for the light one of a name, and the light for the dark."""
    place = next(place for place, one in enumerate(LOOKS) if one.name == look)
    return LOOKS[place ^ 1]
