"""Text that is broken to the width at hand, its further lines under the first."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterable

from rich.cells import cell_len
from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

LEAST = 8
"""Cells that a text is given beside its head however narrow the room."""


class Flowing(Widget):
    """A widget as high as its lines. ``refresh(layout=True)`` when they change."""

    DEFAULT_CSS = """
    Flowing { width: 1fr; height: auto; }
    """

    @abstractmethod
    def lines(self, width: int) -> list[Content]:
        """Return the lines, none wider than ``width`` cells."""

    def get_content_width(self, container: Size, viewport: Size) -> int:  # noqa: ARG002  Textual's signature
        """Take the whole width."""
        return container.width

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  Textual's signature
        """Be as high as the lines."""
        return len(self.lines(width))

    def render(self) -> Content:
        """Show the lines."""
        return Content("\n").join(self.lines(self.content_size.width))


def hanging(head: Content, body: Content, width: int) -> list[Content]:
    """Return ``body`` in lines of ``width`` cells in all, the first of them after ``head``."""
    lines = body.wrap(max(LEAST, width - head.cell_length)) or [Content("")]
    indent = Content(" " * head.cell_length)
    return [(indent if n else head) + line for n, line in enumerate(lines)]


def joined(items: Iterable[Content], between: str, width: int) -> list[Content]:
    """Return items in lines of at most ``width`` cells, none of them broken."""
    lines: list[Content] = []
    for item in items:
        if lines and lines[-1].cell_length + cell_len(between) + item.cell_length <= width:
            lines[-1] = lines[-1] + between + item
        else:
            lines.append(item)
    return lines
