"""What is done to games: on the Bench to the current one, on the Backlog to all that are marked."""

from __future__ import annotations

from tui.act import BACKLOG, BENCH, Act

_GAMES = (BENCH, BACKLOG)
_BACKLOG = (BACKLOG,)

DECIDING: tuple[Act, ...] = (
    Act(
        "accept",
        "enter",
        "Accept",
        "Accept everything proposed for the game and go to the next; "
        "when the batch is done, bring the next batch.",
        _GAMES,
        changes=True,
        leads=_GAMES,
    ),
    Act(
        "accept_sure",
        "y",
        "Accept sure",
        "Accept the proposals of all games of the batch, or of all marked, that are sure.",
        _GAMES,
        changes=True,
        leads=(BENCH,),
    ),
    Act(
        "next_batch",
        "g",
        "Bring next",
        "Fill today's batch with the games that fill a sheet soonest, on the Backlog only with "
        "those shown or marked, and say what comes of it.",
        _GAMES,
        changes=True,
    ),
    Act(
        "change_case",
        "c",
        "Case",
        "Put the game, or all marked, in another kind of case.",
        _GAMES,
        changes=True,
    ),
)
"""The decisions, and the next games to take them for."""

HANDLING: tuple[Act, ...] = (
    Act(
        "bring",
        "plus",
        "Bring",
        "Bring the game, or all marked, into today's batch.",
        _BACKLOG,
        changes=True,
        leads=_BACKLOG,
    ),
    Act(
        "drop",
        "minus",
        "Drop",
        "Drop the game, or all marked, from today's batch.",
        _GAMES,
        changes=True,
    ),
    Act(
        "reopen",
        "r",
        "Reopen",
        "Take back what was accepted for the game or for all marked.",
        _GAMES,
        changes=True,
    ),
    Act(
        "fit",
        "f",
        "Fit in case",
        "Note that the printed insert is in its case, for the game or for all marked.",
        _GAMES,
        changes=True,
        leads=_BACKLOG,
    ),
)
"""In and out of the batch, back, and into the case."""
