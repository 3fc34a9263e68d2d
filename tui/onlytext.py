"""What comes onto the screen is text: nothing in a title or a file name acts on the terminal."""

from __future__ import annotations

from rich.cells import cell_len
from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

from engine import plain


class OnlyText(LineFilter):
    """Takes control characters and overrides of the direction out of every line that is drawn.

    Lists that are taken in and collections that are opened lose them before; names of fonts,
    printers and folders come from elsewhere. Pictures are drawn by segments of control.
    """

    def apply(
        self,
        segments: list[Segment],
        background: Color,  # noqa: ARG002 - other filters need it
    ) -> list[Segment]:
        """Return the segments, as wide as they were."""
        return [
            Segment(_as_wide(text), style, control)
            if not control and plain(text) != text
            else Segment(text, style, control)
            for text, style, control in segments
        ]


def _as_wide(text: str) -> str:
    shown = plain(text)
    return shown + " " * (cell_len(text) - cell_len(shown))


ONLY_TEXT = OnlyText()
