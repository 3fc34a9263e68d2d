"""The roll: each game as far as the titles of others hang on it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import NamedTuple

from engine.cases.casing import Casing
from engine.lettering.abridging import Dictionary
from engine.lettering.changes import brought_up
from engine.lettering.edgemarks import mark_of, stripes_of
from engine.lettering.names import Names, forms
from engine.model import Game
from engine.model.columns import value_of
from engine.model.settings import Lettering


class Entry(NamedTuple):
    """A game on the roll."""

    title: str
    case: str
    left_out: frozenset[str]
    words: str
    """What the person wrote on its edges, where no abridging comes to that."""
    mark: str
    group: str
    """What the column of the stripes says."""

    @property
    def called(self) -> tuple[str, ...]:
        """Its title, and how else it is worded."""
        return (self.title, self.words) if self.words else (self.title,)

    def stands_on(self, case: str, panel: str) -> bool:
        """Return whether its title stands on an edge of a case kind."""
        return self.case == case and panel not in self.left_out


class Roll(NamedTuple):
    """All games of a collection. Made by ``Roll.of``; nothing in it changes."""

    casing: Casing
    chosen: Lettering
    dictionary: Dictionary
    """The person's own short forms."""
    entries: Mapping[str, Entry]
    names: Names
    """What all games are called or may be."""
    stripes: Mapping[str, str]
    """The colours of stripes by what the column says."""

    @classmethod
    def of(cls, casing: Casing, chosen: Lettering, games: Mapping[str, Game]) -> Roll:
        """Enter ``games`` as they are cased, and lettered as was ``chosen``."""
        new = cls(casing, chosen, tuple(chosen.dictionary.items()), {}, Names(tuple), {})
        entries = {game.id: new.entry(game) for game in games.values()}
        names = Names(partial(_names, entries), new.dictionary)
        return new._replace(entries=entries, names=names, stripes=new._striped(entries))

    def titles(self, case: str, panel: str) -> dict[str, str]:
        """Return the titles that stand on an edge of a case kind, by game."""
        return {key: one.title for key, one in self.entries.items() if one.stands_on(case, panel)}

    def stripe(self, game: str) -> str:
        """Return the colour of a game's stripe; empty for none."""
        return self.stripes.get(self.entries[game].group, "")

    def after(self, changed: Mapping[str, Game | None]) -> RollChange:
        """Return the roll once some games have changed, come (last), or gone (None)."""
        now = {key: None if game is None else self.entry(game) for key, game in changed.items()}
        now = {key: one for key, one in now.items() if one != self.entries.get(key)}
        if not now:
            return RollChange(self, now)
        entries = brought_up(self.entries, now)
        names, touched = self._renamed(entries, now)
        stripes = self._striped(entries) if self._hits_stripes(now) else self.stripes
        roll = self._replace(entries=entries, names=names, stripes=stripes)
        return RollChange(roll, now, touched, roll.restriped_since(self))

    def restriped_since(self, before: Roll) -> frozenset[str]:
        """Return the games that have another stripe by what the column says of others."""
        shifted = {
            group
            for group, colour in before.stripes.items()
            if self.stripes.get(group, colour) != colour
        }
        if not shifted:
            return frozenset()
        return frozenset(key for key, one in self.entries.items() if one.group in shifted)

    def entry(self, game: Game) -> Entry:
        """Return what the roll says of a game."""
        chosen = self.chosen
        return Entry(
            title=game.title,
            case=self.casing.case_of(game),
            left_out=self.casing.left_out(game),
            words=self._own_words(game),
            mark=mark_of(game, chosen.mark) if chosen.mark else "",
            group=value_of(game, chosen.stripe) if chosen.stripe else "",
        )

    def _renamed(
        self, entries: Mapping[str, Entry], changed: Mapping[str, Entry | None]
    ) -> tuple[Names, frozenset[str]]:
        """Return the names brought up, the same where none changed, and the forms it concerns."""
        gone = [name for key in changed if key in self.entries for name in self.entries[key].called]
        come = [name for one in changed.values() if one for name in one.called]
        if gone == come:
            return self.names, frozenset()
        return self.names.after(partial(_names, entries), gone, come)

    def _striped(self, entries: Mapping[str, Entry]) -> dict[str, str]:
        if not self.chosen.stripe:
            return {}
        return stripes_of(one.group for one in entries.values())

    def _hits_stripes(self, changed: Mapping[str, Entry | None]) -> bool:
        """Return whether the order in which values first come may be another one now."""
        had = {key: one.group for key in changed if (one := self.entries.get(key))}
        return any((one.group if one else "") != had.get(key, "") for key, one in changed.items())

    def _own_words(self, game: Game) -> str:
        said = (" ".join(title.lines) for title in game.accepted.title or ())
        others = (words for words in said if words != game.title)
        return next(
            (
                words
                for words in others
                if words.casefold() not in forms(game.title, self.dictionary)
            ),
            "",
        )


class RollChange(NamedTuple):
    """What came of changing games."""

    roll: Roll
    """The same where nothing that it says changed."""
    entries: Mapping[str, Entry | None]
    """Those that changed, by game; None of one that is gone."""
    forms: frozenset[str] = frozenset()
    """What games are called, or may be, that others are too or are no more."""
    restriped: frozenset[str] = frozenset()
    """The games whose stripes have another colour, though they did not change."""


def _names(entries: Mapping[str, Entry]) -> Iterator[str]:
    return (name for entry in entries.values() for name in entry.called)
