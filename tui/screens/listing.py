"""The games that the Backlog lists: how they are shown, found, and put in order.

What it takes to filter and sort is worked out once for each game, and kept until it changes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache, partial
from typing import Any, NamedTuple

from natsort import natsort_keygen, ns

from engine import GameLine, Stage
from tui.widgets.table import Column, Row

COLUMNS = (
    Column("", 2),
    Column("Title"),
    Column("Stage", 11),
    Column("Case", 22, least=64),
    Column("Series", 18, least=96),
    Column("Maker", 16, least=116),
    Column("Year", 6, least=124),
)

natural = lru_cache(4096)(natsort_keygen(alg=ns.IGNORECASE))
"""Sort keys in which 2 comes before 10; series and makers are asked for again and again."""

_STAGES = {stage: place for place, stage in enumerate(Stage)}


def has_stage(stage: Stage, game: GameLine) -> bool:
    """Return whether a game stands at a stage."""
    return game.stage is stage


SORTS: Mapping[str, Callable[[GameLine], Any]] = {
    "as listed": lambda _: 0,
    "by title": lambda game: natural(game.title),
    "by stage": lambda game: _STAGES[game.stage],
    "by case": lambda game: natural(game.case),
    "by series": lambda game: (not game.series, natural(game.series)),
    "by maker": lambda game: (not game.maker, natural(game.maker)),
}
"""The orders, in which equals stay as listed."""

VIEWS: Mapping[str, Callable[[GameLine], bool]] = {
    "all stages": lambda _: True,
    **{str(stage): partial(has_stage, stage) for stage in Stage},
    "in doubt": lambda game: game.in_doubt,
    "to reprint": lambda game: game.reprint,
    "in the batch": lambda game: game.batch,
}
"""What the stage key shows, one after the other."""


class Listed(NamedTuple):
    """A game in the list."""

    game: GameLine
    row: Row
    text: str
    """What words are looked for in."""
    keys: Mapping[str, Any]
    """What it is sorted by in each of the orders."""


class Wanted(NamedTuple):
    """What is looked for."""

    words: str = ""
    view: str = next(iter(VIEWS))
    sort: str = next(iter(SORTS))

    @property
    def is_narrow(self) -> bool:
        """Whether games are left out."""
        return bool(self.words) or self.view != Wanted().view

    def of(self, entries: Iterable[Listed]) -> list[Listed]:
        """Return the games that are like that, in order."""
        found = list(entries)
        for word in self.words.casefold().split():
            found = [entry for entry in found if word in entry.text]
        if self.view != Wanted().view:
            view = VIEWS[self.view]
            found = [entry for entry in found if view(entry.game)]
        if self.sort != Wanted().sort:
            found.sort(key=lambda entry: entry.keys[self.sort])
        return found


def entries(
    games: Iterable[GameLine], kinds: Mapping[str, str], known: Mapping[str, Listed]
) -> dict[str, Listed]:
    """Return the list by the ids of its games; what is ``known`` of one that is as it was stays.

    ``kinds`` has the names of the case kinds by id.
    """
    return {
        game.id: entry
        if (entry := known.get(game.id)) and entry.game == game
        else _entry(game, kinds.get(game.case, game.case))
        for game in games
    }


def _entry(game: GameLine, kind: str) -> Listed:
    cells = (
        sign(game) + ("▪" if game.batch else " "),
        game.title,
        str(game.stage),
        kind,
        game.series,
        game.maker,
        game.year,
    )
    fields = (game.title, game.series, game.maker, game.genre, game.year, game.notes, kind, game.id)
    return Listed(
        game,
        Row(game.id, cells, faint=game.stage is Stage.FITTED),
        " ".join(fields).casefold(),
        {sort: key(game) for sort, key in SORTS.items()},
    )


def sign(game: GameLine) -> str:
    """Return the sign for what is left to do for a game."""
    if game.reprint:
        return "↻"
    if game.undecided:
        return "○" if game.sure else "?"
    return "✓"


def after(present: str, choices: Mapping[str, object]) -> str:
    """Return the choice after the present one, going round."""
    names = list(choices)
    return names[(names.index(present) + 1) % len(names)]
