"""How the games that the Backlog lists are shown; how they are found is the engine's."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import overload

from textual.content import Content
from textual.reactive import reactive

from engine import By, GameLine, Listed, Only, Stage, Trait, Wanted
from tui.widgets.flowing import LEAST, Flowing, joined
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

NEEDS: Mapping[str, Callable[[GameLine], bool]] = {
    "accept": lambda game: game.undecided,
    "accept_sure": lambda game: game.undecided,
    "reopen": lambda game: game.stage is not Stage.LISTED and not game.declared,
    "bring": lambda game: not game.batch,
    "drop": lambda game: game.batch,
    "fit": lambda game: game.stage is Stage.PRINTED,
}
"""What one of the games has to be for an action to make sense."""

DONE = frozenset({Stage.FITTED, Stage.UNWANTED})
"""Nothing is left to do: drawn paler."""


def rows(listed: Mapping[str, Listed], known: Mapping[str, Row]) -> dict[str, Row]:
    """Return the row of each game; what is ``known`` of one that is as it was stays."""
    return {
        key: row if (row := known.get(key)) and row.of is one else _row(one)
        for key, one in listed.items()
    }


class FoundRows(Sequence[Row]):
    """The rows of games found, looked up when they are drawn: thousands between two keys cost."""

    def __init__(self, found: Sequence[Listed], shown: Mapping[str, Row]) -> None:
        """Take what was found, and the rows of all games."""
        self._found = found
        self._shown = shown

    def __len__(self) -> int:
        """Return how many there are."""
        return len(self._found)

    @overload
    def __getitem__(self, place: int) -> Row: ...
    @overload
    def __getitem__(self, place: slice) -> Sequence[Row]: ...
    def __getitem__(self, place: int | slice) -> Row | Sequence[Row]:
        """Return the row in a place, or those of some."""
        if isinstance(place, slice):
            return FoundRows(self._found[place], self._shown)
        return self._shown[self._found[place].game.id]


def _row(one: Listed) -> Row:
    game = one.game
    cells = (
        sign(game) + ("▪" if game.batch else " "),
        game.title,
        str(game.stage),
        one.kind,
        game.series,
        game.maker,
        game.year,
    )
    return Row(game.id, cells, faint=game.stage in DONE, of=one)


def sign(game: GameLine) -> str:
    """Return the sign for what is left to do for a game."""
    if game.stage is Stage.UNWANTED:
        return "×"
    if game.reprint:
        return "↻"
    if game.undecided:
        return "○" if game.sure else "?"
    return "✓"


SIGNS = ("◆ marked", "○ sure", "? in doubt", "✓ done", "↻ reprint", "▪ batch")
"""What the signs before a title stand for."""


class Status(Flowing):
    """What is shown and marked, and what the signs in the table stand for."""

    said = reactive("", layout=True)

    def lines(self, width: int) -> list[Content]:
        """Return what is said, then sign by sign, none parted from its word."""
        *before, last = Content(self.said).wrap(max(LEAST, width)) or [Content("")]
        return [*before, *joined((last + Content("  "), *map(Content, SIGNS)), "  ", width)]


Able = Mapping[str, frozenset[str]]
"""The games for which each action makes sense that does not for all."""


def able(
    listed: Mapping[str, Listed], before: Mapping[str, Listed], known: Able | None
) -> dict[str, frozenset[str]]:
    """Return for which games each action makes sense; ``known`` is what it was ``before``."""
    if known is None or listed.keys() != before.keys():
        before, known = {}, dict.fromkeys(NEEDS, frozenset())
    changed = {key: one.game for key, one in listed.items() if before.get(key) is not one}
    return {
        act: (known[act] - changed.keys()).union(key for key, g in changed.items() if needs(g))
        for act, needs in NEEDS.items()
    }


def after(present: str, choices: Mapping[str, object] | type) -> str:
    """Return the choice after the present one, going round."""
    names = list(choices)
    return names[(names.index(present) + 1) % len(names)]


# --- conditions -------------------------------------------------------------------------

CONDITION_COLUMNS = (Column("", 1), Column("only"), Column("of", 8), Column("games", 6))

ALL = "all"
"""In the place of a condition: none."""


def condition_rows(counts: Mapping[Only, int | None], wanted: Wanted, words: str) -> list[Row]:
    """Return the conditions that carry ``words``, those that hold now marked, all games first."""
    said = words.casefold().split()
    found = [Row(ALL, ("", "all games", "", ""))] if wanted.only and not said else []
    for one, count in counts.items():
        name = f"{one.by} {one.value}".casefold()
        if all(word in name for word in said):
            on = "◆" if one in wanted.only else ""
            cells = (on, one.value, str(one.by), "" if count is None else f"{count}")
            found.append(Row(condition_id(one), cells))
    return found


def condition_id(one: Only) -> str:
    """Return what names a condition in a table."""
    return f"{one.by}:{one.value}"


def condition_of(said: str) -> Only:
    """Return the condition of that name."""
    by, _, value = said.partition(":")
    return Only(By(by), Trait(value) if by == By.TRAIT else value)


def wanted_words(wanted: Wanted) -> str:
    """Return what is shown and in which order: 'in doubt · Quayworks · by title'."""
    only = sorted(wanted.only, key=lambda one: (list(By).index(one.by), one.value))
    parts = [str(one.value) for one in reversed(only)] or ["all games"]
    if wanted.words.strip():
        parts.append(f"“{wanted.words.strip()}”")
    return " · ".join((*parts, wanted.order))
