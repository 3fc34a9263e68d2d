"""The Backlog: finding and marking games among all."""

from __future__ import annotations

from tui.act import BACKLOG, Act

_BACKLOG = (BACKLOG,)

BACKLOG_ACTIONS: tuple[Act, ...] = (
    Act(
        "mark",
        "space",
        "Mark",
        "Mark the game, or unmark it, and go to the next.",
        _BACKLOG,
        leads=_BACKLOG,
    ),
    Act("mark_all", "m", "Mark all", "Mark all games shown, or unmark them.", _BACKLOG),
    Act(
        "filter",
        "slash",
        "Filter",
        "Show only games that carry the words typed.",
        _BACKLOG,
        leads=_BACKLOG,
    ),
    Act(
        "stage",
        "v",
        "Stage",
        "Show one stage after the other, then all again.",
        _BACKLOG,
        leads=_BACKLOG,
    ),
    Act("sort", "o", "Sort", "Sort by the next column.", _BACKLOG, leads=_BACKLOG),
    Act("clear", "escape", "Clear", "Clear the marks; again, the filter.", _BACKLOG),
)
