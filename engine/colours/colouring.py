"""The colours of the whole collection: one for each group, or each insert its picture's own.

A colour that was accepted from a group keeps following the group until the insert is printed;
so does the ink mode that a game leaves to the setup. Nothing is rewritten for that: games are
brought up to date when they are looked at, and stored so when they are pressed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from copy import copy
from functools import cached_property, lru_cache

import msgspec

from engine.colours.colour import ink_on, standing_out
from engine.colours.groups import Group, GroupColour, GroupPalette, choose_colours
from engine.model import Colours, Game, InkMode, Picture, Sign, columns
from engine.model.errors import InputError
from engine.model.settings import PICTURE, Settings
from engine.model.stages import OnPaper

PLAIN_BASE = "#3d4f5c"
"""Base colour where no picture gives one: a slate on which white reads at 8.4 to 1."""


class Colouring:
    """Which group each game is in and which colours it has, for one state of the collection."""

    def __init__(
        self, games: Mapping[str, Game], pictures: Mapping[str, Picture], settings: Settings
    ) -> None:
        """Colour ``games`` by the column that the settings name."""
        self.column = settings.colour_by
        self._pictures = pictures
        self._settings = settings
        self._names: dict[str, str] = {}
        """The name of each group by how it reads without regard to capitals, first come."""
        self._members: dict[str, dict[str, Game]] = {}
        if self.column != PICTURE:
            for game in games.values():
                said = value_of(game, self.column)
                if said:
                    name = self._names.setdefault(said.casefold(), said)
                    self._members.setdefault(name, {})[game.id] = game
        self._groups = {name: self._group(name) for name in self._members}

    def after(
        self,
        games: Mapping[str, Game],
        changed: Iterable[str],
        pictures: Mapping[str, Picture] | None = None,
    ) -> Colouring:
        """Return how games are coloured once those of ``changed`` are as in ``games``.

        ``pictures`` are those there are then; None where they are the same.
        """
        if pictures is not None and pictures is not self._pictures:
            later = copy(self)
            later._pictures = pictures  # noqa: SLF001  its own kind
            return later.after(games, changed)
        if self.column == PICTURE:
            return self
        members = dict(self._members)
        touched = set()
        for key in changed:
            game = games.get(key)
            name = self.group_of(game) if game else ""
            before = members.get(name, {}).get(key)
            if game is None or (name and before is None) or self._elsewhere(key, name):
                return Colouring(games, self._pictures, self._settings)
            if before is not None and before is not game:
                members[name] = {**members[name], key: game}
                touched.add(name)
        if not touched:
            return self
        later = copy(self)
        later._members = members  # noqa: SLF001  its own kind
        later._groups = {**self._groups, **{name: later._group(name) for name in touched}}  # noqa: SLF001
        later.__dict__.pop("_by_name", None)
        if later._groups != self._groups:  # noqa: SLF001
            later.__dict__.pop("palette", None)
        return later

    def recoloured(self, before: Colouring) -> set[str]:
        """Return the games whose group had another colour, sign or member list before."""
        if before is self:
            return set()
        mine, theirs = self._by_name, before._by_name
        return {
            key
            for name in mine.keys() | theirs.keys()
            if mine.get(name) != theirs.get(name)
            for key in self._members.get(name, {}).keys() | before._members.get(name, {}).keys()
        }

    def _elsewhere(self, key: str, name: str) -> bool:
        """Return whether a game was in another group than the one it is in now."""
        return not name and any(key in members for members in self._members.values())

    @property
    def pins(self) -> Mapping[str, str]:
        """The colours that the person gave to groups, by the group's name."""
        return self._settings.pins.get(self.column, {})

    @property
    def groups(self) -> dict[str, tuple[Game, ...]]:
        """The games of each group, groups and games in list order."""
        return {name: tuple(games.values()) for name, games in self._members.items()}

    def group_of(self, game: Game) -> str:
        """Return the name of the group a game takes its colour from; empty for none."""
        if self.column == PICTURE:
            return ""
        said = value_of(game, self.column)
        return self._names.get(said.casefold(), said)

    def group_named(self, said: str) -> str:
        """Return the group that a person means by a name. Raises InputError."""
        found = self._names.get(said.strip().casefold())
        if found is None:
            mend = "Set one up with spinery setup --colour-by COLUMN"
            if self._members:
                mend = f"Groups are {', '.join(self._members)}"
            raise InputError(said, "no such group of games", mend)
        return found

    @cached_property
    def palette(self) -> GroupPalette:
        """The colours of all groups: pinned, else as accepted before, else chosen."""
        return _chosen(tuple(self._groups.values()))

    @property
    def signs(self) -> tuple[Sign, ...]:
        """The second signs that some groups have; none where colours tell them all apart."""
        return tuple(sorted({group.sign for group in self.palette.groups} - {Sign.NONE}))

    @cached_property
    def _by_name(self) -> dict[str, GroupColour]:
        return {group.name: group for group in self.palette.groups}

    def from_group(self, game: Game) -> Colours | None:
        """Return the colours of a game's group, None where it is in none."""
        name = self.group_of(game)
        if not name:
            return None
        group = self._by_name[name]
        return colours_on(group.colour, group)

    def proposed(self, game: Game, picture: str | None) -> Colours:
        """Return the colours for a game with this picture: its group's, else its picture's."""
        return self.from_group(game) or self.from_picture(picture)

    def from_picture(self, name: str | None) -> Colours:
        """Return the colours that a picture's side proposes; a slate without one."""
        picture = self._pictures.get(name or "")
        return colours_on(standing_out(picture.side) if picture else PLAIN_BASE)

    def _group(self, name: str) -> Group:
        games = self._members[name].values()
        return Group(
            name=name,
            sides=tuple(filter(None, map(self._side, games))),
            pinned=self.pins.get(name) or self._kept(games),
        )

    def _kept(self, games: Iterable[Game]) -> str:
        """Return the colour that was accepted for a group already, that of most; '' for none."""
        bases = [
            game.accepted.colours.base
            for game in games
            if game.accepted.colours_by == self.column and game.accepted.colours
        ]
        return Counter(bases).most_common(1)[0][0] if bases else ""

    def _side(self, game: Game) -> str:
        """Return the colour of the side of a game's picture, once that is sure; else ''."""
        art, match = game.accepted.art, game.match
        name = art.picture if art else None
        if art is None and match and match.confidence >= self._settings.threshold:
            name = match.picture
        picture = self._pictures.get(name or "")
        return picture.side if picture else ""


def colours_on(base: str, group: GroupColour | None = None) -> Colours:
    """Return a base colour with the ink that reads on it: 4.58 to 1 at least, on any colour."""
    text = ink_on(base)
    return Colours(base=base, text=text, sign=group.sign) if group else Colours(base, text)


@lru_cache(maxsize=8)
def _chosen(groups: tuple[Group, ...]) -> GroupPalette:
    """Return the colours of groups, worked out once: some dozens of groups take seconds."""
    return choose_colours(groups)


def value_of(game: Game, column: str) -> str:
    """Return what the list says of a game in a column, '' for nothing."""
    return " ".join(columns.value_of(game, column).split())


def columns_of(games: Iterable[Game]) -> tuple[str, ...]:
    """Return the columns by which games can be coloured: those that say something of any."""
    present = list(games)
    return tuple(
        column
        for column in columns.columns(present)
        if any(value_of(game, column) for game in present)
    )


def followed(game: Game, paper: OnPaper, colouring: Colouring, ink: InkMode) -> Game:
    """Return a game with the colours of its group and the ink mode of the setup.

    Left as they are: its own colours and mode, and whatever is on paper already. A game that
    does not change is the same object.
    """
    a = game.accepted
    colours = (colouring.from_group(game) if a.colours_by else None) or a.colours
    mode = a.ink if a.own_ink else ink
    if (colours, mode) == (a.colours, a.ink) or paper.holds(game):
        return game
    return msgspec.structs.replace(
        game, accepted=msgspec.structs.replace(a, colours=colours, ink=mode)
    )
