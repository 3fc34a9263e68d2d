"""A stretch of the shelf: the edges of a few games side by side, one of them in another colour."""

from __future__ import annotations

from dataclasses import dataclass

from textual.content import Content
from textual.reactive import reactive

from engine import Neighbour, Neighbours
from tui.widgets.flowing import Flowing

HIGH = 3
"""Lines of an edge."""
WIDE = 7
"""Cells of an edge."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """What stands on the stretch."""

    neighbours: Neighbours
    title: str
    """Of the game between them."""
    base: str
    """Its colour, ``#rrggbb``."""


class Spines(Flowing):
    """Edges in their colours, the game that is looked at with a mark above."""

    shown: reactive[Stretch | None] = reactive(None, layout=True)

    def lines(self, width: int) -> list[Content]:
        """Return the mark and the edges, as many of them as there is room for."""
        shown = self.shown
        if shown is None:
            return []
        aside = max(0, (width // WIDE - 1) // 2)
        before = [_edge(one) for one in shown.neighbours.before[-aside:]] if aside else []
        after = [_edge(one) for one in shown.neighbours.after[:aside]]
        here = _words(shown.title, f"bold auto on {shown.base}")
        edges = [*before, here, *after]
        mark = Content(" " * (WIDE * len(before)) + "▼".center(WIDE))
        return [mark, *(Content("").join(edge[n] for edge in edges) for n in range(HIGH))]


def _edge(one: Neighbour) -> list[Content]:
    return _words(one.title, f"{one.colours.text} on {one.colours.base}")


def _words(title: str, style: str) -> list[Content]:
    """Return a title in lines, as far as it goes, with paper between it and the next edge."""
    lines = Content(title).wrap(WIDE - 2)[:HIGH]
    lines += [Content("")] * (HIGH - len(lines))
    return [
        Content(" ").append(line.truncate(WIDE - 2, pad=True)).stylize(style) + Content(" ")
        for line in lines
    ]
