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
    Act(
        "declare",
        "A",
        "Declare",
        "Say of the game, or of all marked, that it is printed or fitted already, or not wanted.",
        _GAMES,
        changes=True,
    ),
    Act(
        "game_history",
        "J",
        "Its history",
        "Tell what was decided for the game, printed and fitted, and when.",
        _GAMES,
    ),
)
"""In and out of the batch, back, and into the case."""

RECORDS: tuple[Act, ...] = (
    Act(
        "record",
        "G",
        "Game",
        "Add, edit or delete a game, or see to its pictures.",
        _GAMES,
        changes=True,
    ),
    Act("add_game", "", "Add game", "Add one game to the list.", _GAMES, changes=True),
    Act(
        "edit_game",
        "",
        "Edit game",
        "Edit the title, the series, the note and the rest of what is written of the game.",
        _GAMES,
        changes=True,
    ),
    Act(
        "own_pictures",
        "",
        "Its pictures",
        "Add a picture to the game, drop one, or say what it shows.",
        _GAMES,
        changes=True,
    ),
    Act(
        "delete_games",
        "",
        "Delete",
        "Delete the game, or all marked, from the list.",
        _GAMES,
        changes=True,
    ),
)
"""What is written of a game. One list leads to all of it, and the palette."""
