"""Finding games among thousands: by words, by what they are, in an order.

Values in, values out. What it takes to look for words and to sort is worked out once for each
game and kept for as long as the game is as it was, so that a letter typed costs a look through
the texts and nothing more.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from enum import StrEnum
from functools import cache, lru_cache
from typing import Any, NamedTuple

from engine.artwork.weighing import COARSE
from engine.model import Stage
from engine.state.proposal import GameLine, Proposal


@cache
def _natural() -> Callable[[str], Any]:
    from natsort import natsort_keygen, ns

    return natsort_keygen(alg=ns.IGNORECASE)


@lru_cache(4096)  # series and makers are asked for again and again
def natural(text: str) -> Any:
    """Return a sort key in which 2 comes before 10."""
    return _natural()(text)


class By(StrEnum):
    """What games are told apart by."""

    STAGE = "stage"
    KIND = "case"
    SERIES = "series"
    MAKER = "maker"
    TRAIT = "games"


class Trait(StrEnum):
    """What a game is or lacks."""

    DOUBTED = "in doubt"
    UNPICTURED = "no picture"
    COARSE = "low resolution"
    UNREADABLE = "unreadable title"
    REPRINT = "to reprint"
    BATCH = "in the batch"
    DECLARED = "declared by you"


JUDGED = frozenset({Trait.COARSE, Trait.UNREADABLE})
"""Traits that only a game's proposal tells, which takes milliseconds for each."""

_PLAIN: Mapping[Trait, Callable[[GameLine], bool]] = {
    Trait.DOUBTED: lambda game: game.in_doubt,
    Trait.UNPICTURED: lambda game: not game.pictured,
    Trait.REPRINT: lambda game: game.reprint,
    Trait.BATCH: lambda game: game.batch,
    Trait.DECLARED: lambda game: game.declared,
}
"""How the others are told."""


class Only(NamedTuple):
    """A condition on games."""

    by: By
    value: str


class Listed(NamedTuple):
    """A game in a list."""

    game: GameLine
    kind: str
    """The name of its case kind."""
    text: str
    """What words are looked for in."""
    keys: Mapping[Order, Any]
    """What it is sorted by in each order."""


_SAID: Mapping[By, Callable[[Listed], str]] = {
    By.STAGE: lambda one: one.game.stage,
    By.KIND: lambda one: one.kind,
    By.SERIES: lambda one: one.game.series,
    By.MAKER: lambda one: one.game.maker,
}
"""What a game is told by."""


class Order(StrEnum):
    """What games are sorted by; equals stay as listed."""

    LISTED = "as listed"
    TITLE = "by title"
    STAGE = "by stage"
    KIND = "by case"
    SERIES = "by series"
    MAKER = "by maker"
    YEAR = "by year"
    DOUBT = "in doubt first"


_STAGES = {stage: place for place, stage in enumerate(Stage)}

_KEYS: Mapping[Order, Callable[[GameLine], Any]] = {
    Order.TITLE: lambda game: natural(game.title),
    Order.STAGE: lambda game: _STAGES[game.stage],
    Order.KIND: lambda game: natural(game.case),
    Order.SERIES: lambda game: (not game.series, natural(game.series)),
    Order.MAKER: lambda game: (not game.maker, natural(game.maker)),
    Order.YEAR: lambda game: (not game.year, natural(game.year)),
    Order.DOUBT: lambda game: (not game.in_doubt, not game.undecided),
}


class Wanted(NamedTuple):
    """What is looked for."""

    words: str = ""
    """Each of them has to be carried."""
    only: frozenset[Only] = frozenset()
    """Of several by the same, one has to hold; of traits, all."""
    order: Order = Order.LISTED

    @property
    def is_narrow(self) -> bool:
        """Whether games are left out."""
        return bool(self.words.strip()) or bool(self.only)

    @property
    def judged(self) -> frozenset[Trait]:
        """The traits for which games have to be judged first."""
        return frozenset(Trait(one.value) for one in self.only if one.by is By.TRAIT) & JUDGED

    @property
    def unjudged(self) -> Wanted:
        """What is wanted without the traits that take judging."""
        only = frozenset(one for one in self.only if one.value not in self.judged)
        return self._replace(only=only)

    def toggled(self, one: Only) -> Wanted:
        """Return what is wanted with one condition more, or less where it was there."""
        return self._replace(only=self.only ^ {one})


def listed(
    games: Iterable[GameLine], kinds: Mapping[str, str], known: Mapping[str, Listed]
) -> dict[str, Listed]:
    """Return the list by the ids of its games; what is ``known`` of one that is as it was stays.

    ``kinds`` has the names of the case kinds by id.
    """
    return {
        game.id: one
        if (one := known.get(game.id)) and (one.game is game or one.game == game)
        else _listed(game, kinds.get(game.case, game.case))
        for game in games
    }


def _listed(game: GameLine, kind: str) -> Listed:
    fields = (game.title, game.series, game.maker, game.genre, game.year, game.notes, kind, game.id)
    keys = {order: key(game) for order, key in _KEYS.items()}
    return Listed(game, kind, "\n".join(fields).casefold(), keys)


def in_order(games: Iterable[Listed], order: Order) -> list[Listed]:
    """Return games in an order; equals stay as they come."""
    if order is Order.LISTED:
        return list(games)
    return sorted(games, key=lambda one: one.keys[order])


def having(games: list[Listed], words: str) -> list[Listed]:
    """Return the games that carry every word somewhere, as they come."""
    for word in words.casefold().split():
        games = [one for one in games if word in one.text]
    return games


def being(
    games: Iterable[Listed],
    only: Iterable[Only],
    judged: Mapping[str, frozenset[Trait]],
) -> list[Listed]:
    """Return the games of which the conditions hold, as they come.

    ``judged`` has those of ``JUDGED`` that are so of each game; one that is not judged has none.
    """
    found = list(games)
    values: dict[By, set[str]] = {}
    for by, value in only:
        if by is By.TRAIT:
            found = _with_trait(found, Trait(value), judged)
        else:
            values.setdefault(by, set()).add(value)
    for by, wanted in values.items():
        said = _SAID[by]
        found = [one for one in found if said(one) in wanted]
    return found


def _with_trait(
    games: Iterable[Listed], trait: Trait, judged: Mapping[str, frozenset[Trait]]
) -> list[Listed]:
    if trait in JUDGED:
        ids = {game for game, traits in judged.items() if trait in traits}
        return [one for one in games if one.game.id in ids]
    holds = _PLAIN[trait]
    return [one for one in games if holds(one.game)]


def conditions(games: Sequence[Listed]) -> dict[Only, int | None]:
    """Return every condition that can be put to games, with how many it holds of.

    None where they would have to be judged. Stages and traits come first, then what the games
    say, in its order.
    """
    counts: dict[Only, int | None] = {}
    for trait in Trait:
        holds = _PLAIN.get(trait)
        counts[Only(By.TRAIT, trait)] = holds and sum(holds(one.game) for one in games)
    stages = Counter(one.game.stage for one in games)
    counts |= {Only(By.STAGE, stage): stages[stage] for stage in Stage if stages[stage]}
    for by in (By.KIND, By.SERIES, By.MAKER):
        values = Counter(map(_SAID[by], games))
        counts |= {Only(by, value): values[value] for value in sorted(values, key=natural) if value}
    return counts


def traits_of(proposal: Proposal) -> frozenset[Trait]:
    """Return which of the judged traits a game has as it would print now."""
    art = proposal.art
    others = [one.ppi for one in art.others]
    coarse = any(0.0 < ppi < COARSE for ppi in (art.ppi, *others))
    found = {
        Trait.COARSE: coarse,
        Trait.UNREADABLE: not all(edge.reaches for edge in proposal.edges),
    }
    return frozenset(trait for trait, so in found.items() if so)
