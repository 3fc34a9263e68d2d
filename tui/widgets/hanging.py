"""Text whose further lines stand under the first, beside a head."""

from __future__ import annotations

from textual.content import Content

LEAST = 8
"""Cells that the text is given however narrow the room."""


def hanging(head: Content, body: Content, width: int) -> list[Content]:
    """Return ``body`` in lines of ``width`` cells in all, the first of them after ``head``."""
    lines = body.wrap(max(LEAST, width - head.cell_length)) or [Content("")]
    indent = Content(" " * head.cell_length)
    return [(indent if n else head) + line for n, line in enumerate(lines)]
