"""The order in which games stand on a shelf, and the groups that they stand in."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from itertools import groupby
from math import inf
from types import MappingProxyType
from typing import Any, NamedTuple

import msgspec

from engine.colours import HUE_NAMES, in_row
from engine.intake.numerals import roman
from engine.model import Game, columns
from engine.model.settings import Settings
from engine.shelf.titles import FilingKey, Tongue, filed_words, filing_key, heading

_NONE: Mapping[str, str] = MappingProxyType({})


class Group(NamedTuple):
    """Games that stand together, behind one divider."""

    name: str
    """What the divider says; empty where there is none."""
    games: tuple[Game, ...]


def in_order(
    games: Iterable[Game], settings: Settings, colours: Mapping[str, str] = _NONE
) -> tuple[Game, ...]:
    """Return games in the order in which they stand on the shelf.

    ``colours`` are those of their edges, ``#rrggbb`` by id, for an order that asks for them.
    """
    return tuple(game for group in in_groups(games, settings, colours) for game in group.games)


def in_groups(
    games: Iterable[Game], settings: Settings, colours: Mapping[str, str] = _NONE
) -> tuple[Group, ...]:
    """Return games as ``in_order`` does, in the groups in which they stand, without labels.

    Games that were declared not wanted stand nowhere.
    """
    tongue = tongue_of(settings)
    place = _ORDERS[settings.order](settings, colours)
    filed = sorted(
        (*place(game, title), title, game.id, game)
        for game in games
        if not game.labels and not game.unwanted
        for title in (title_key(game, tongue),)
    )
    return tuple(
        Group(name, tuple(game for *_, game in group))
        for name, group in groupby(filed, key=lambda one: one[1])
    )


def by_letter(games: Iterable[Game], settings: Settings) -> tuple[Group, ...]:
    """Return games by title under their letters, whatever the order on the shelf."""
    return in_groups(games, msgspec.structs.replace(settings, order="title"))


def tongue_of(settings: Settings) -> Tongue:
    """Return the languages by which a collection's titles are filed."""
    return Tongue(settings.alphabet, settings.articles)


def title_key(game: Game, tongue: Tongue) -> FilingKey:
    """Return what a game is filed by among titles: its sort title, if it has one."""
    return filing_key(game.sort_title or game.title, tongue, whole=bool(game.sort_title))


# --- orders ------------------------------------------------------------------------------

_Placed = tuple[Any, str, Any]
"""The place of its group among the others, the group's name, and the place within it; equals
stand by title."""
_Placing = Callable[[Game, FilingKey], _Placed]


def _by_title(settings: Settings, _: Mapping[str, str]) -> _Placing:
    tongue = tongue_of(settings)

    def placed(game: Game, title: FilingKey) -> _Placed:
        said = game.sort_title
        return title, heading(said or game.title, tongue, whole=bool(said)), ()

    return placed


def _by_series(settings: Settings, _: Mapping[str, str]) -> _Placing:
    """Put a series under its name, among the titles of games in none."""
    tongue = tongue_of(settings)

    def placed(game: Game, title: FilingKey) -> _Placed:
        series = game.series.strip()
        if not series:
            return title.words, "", ()
        return filing_key(series, tongue).words, series, _number(game)

    return placed


def _by_column(column: str) -> Callable[[Settings, Mapping[str, str]], _Placing]:
    def by(settings: Settings, _: Mapping[str, str]) -> _Placing:
        tongue = tongue_of(settings)

        def placed(game: Game, _: FilingKey) -> _Placed:
            said = columns.value_of(game, column)
            return (not said, filing_key(said, tongue, whole=True).words), said, ()

        return placed

    return by


def _by_year(_: Settings, __: Mapping[str, str]) -> _Placing:
    def placed(game: Game, _: FilingKey) -> _Placed:
        year = _year(game)
        return year, "" if year == inf else f"{year:g}", ()

    return placed


def _by_colour(_: Settings, colours: Mapping[str, str]) -> _Placing:
    def placed(game: Game, _: FilingKey) -> _Placed:
        colour = colours.get(game.id)
        if colour is None:
            return inf, "", ()
        grey, hue, lightness, name = in_row(colour)
        return HUE_NAMES.index(name), name, (grey, round(hue), lightness)

    return placed


def _by_hand(settings: Settings, _: Mapping[str, str]) -> _Placing:
    """Put what was not put anywhere yet at the end, by title."""
    places = {one: place for place, one in enumerate(settings.by_hand)}

    def placed(game: Game, _: FilingKey) -> _Placed:
        return (), "", places.get(game.id, inf)

    return placed


_ORDERS: Mapping[str, Callable[[Settings, Mapping[str, str]], _Placing]] = {
    "title": _by_title,
    "series": _by_series,
    "maker": _by_column("maker"),
    "genre": _by_column("genre"),
    "year": _by_year,
    "colour": _by_colour,
    "hand": _by_hand,
}


# --- numbers -----------------------------------------------------------------------------

_NUMBERS = ("number", "no", "no.", "nr", "volume", "vol", "part", "episode")
"""Columns of a list that may say which of its series a game is."""
_YEAR = re.compile(r"\b\d{4}\b")


def _number(game: Game) -> tuple[float, float]:
    """Return which of its series a game is, by the list or its title, then its year.

    The one that bears the name of the series alone is its first. Those without a number stand
    after the others.
    """
    said = next(filter(None, (columns.value_of(game, name) for name in _NUMBERS)), "")
    value = _value(said) if said else inf
    if value == inf:
        words = filed_words(game.title)
        named = filed_words(game.series)
        value = next((word for word in reversed(words) if isinstance(word, float)), inf)
        if words == named:
            value = 1.0
    return value, _year(game)


def _value(said: str) -> float:
    found = re.search(r"\d+(?:[.,]\d+)?", said)
    if found:
        return float(found[0].replace(",", "."))
    return float(roman(said.strip().casefold()) or inf)


def _year(game: Game) -> float:
    found = _YEAR.search(game.year)
    return float(found[0]) if found else inf
