"""What the columns of a list say of a game."""

from __future__ import annotations

from collections.abc import Iterable

from engine.model.game import Game

_OWN = ("series", "maker", "genre", "year", "notes")
ABOUT = ("title", *_OWN)
"""What a person writes of a game."""
HOME = "home"
"""Where a game is kept, which no list says: marks can show it."""


def columns(games: Iterable[Game]) -> tuple[str, ...]:
    """Return the columns that any of ``games`` has, by their names."""
    found = dict.fromkeys(_OWN)
    for game in games:
        found.update(dict.fromkeys(game.extra))
    return tuple(found)


def value_of(game: Game, column: str) -> str:
    """Return what a game's row has in a column, named in any case of letters; '' for nothing."""
    wanted = column.strip().casefold()
    if wanted in (*_OWN, HOME):
        return str(getattr(game, wanted)).strip()
    return next(
        (said.strip() for name, said in game.extra.items() if name.strip().casefold() == wanted), ""
    )
