"""The Backlog: finding and marking games among all."""

from __future__ import annotations

from tui.act import BACKLOG, SHELF, Act

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
        "mark_to",
        "M",
        "Mark to here",
        "Mark all games from the one last marked to this one.",
        _BACKLOG,
    ),
    Act(
        "filter",
        "slash",
        "Search",
        "Show only games that carry the words typed; on the Shelf, go to the game they name best.",
        (BACKLOG, SHELF),
        leads=_BACKLOG,
    ),
    Act(
        "only",
        "v",
        "Show only",
        "Show only games of a stage, case, series or maker, or that lack something; choose "
        "several to narrow further.",
        _BACKLOG,
        leads=_BACKLOG,
    ),
    Act("sort", "o", "Sort", "Sort by the next column.", _BACKLOG, leads=_BACKLOG),
    Act(
        "pace",
        "L",
        "Pace",
        "Show the games done week by week, the pace, and what is left at it.",
        _BACKLOG,
    ),
    Act("clear", "escape", "Clear", "Clear the marks; again, the filter.", _BACKLOG),
)
