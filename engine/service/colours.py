"""The colours of groups: seen, pinned, and taken by games."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Annotated

import msgspec

from engine import colours as colour_science
from engine import ganging
from engine.colours import Deficiency, Origin, colouring
from engine.ganging import papers
from engine.ganging.strips import roomy
from engine.model import Colours, Game, Value
from engine.model.errors import RefusedError
from engine.model.settings import PICTURE
from engine.model.units import SPREAD, rounded
from engine.service import deciding
from engine.service.session import Session

NORMAL = "normal"
"""Full colour vision, beside the three deficiencies."""


class GroupReport(Value, frozen=True):
    """A group of games that share a colour."""

    name: str
    games: tuple[str, ...]
    """Their ids, in list order."""
    colours: Annotated[Colours, SPREAD]
    origin: str
    """pinned: the person's; kept: accepted before; pictures: theirs agree; chosen: set apart."""
    printed: int
    """Inserts on paper in the group's colour."""
    reprint: tuple[str, ...]
    """Games whose insert is on paper in an earlier colour of the group."""


class ColoursReport(Value, frozen=True):
    """The colours of all groups, and how well they are told apart."""

    by: str
    """The column of the groups; ``picture`` where there are none."""
    columns: tuple[str, ...]
    """Those that can be chosen."""
    groups: tuple[GroupReport, ...]
    smallest: Annotated[float | None, rounded(2)]
    """The least CIEDE2000 difference of two groups to any eye; None for fewer than two."""
    closest: tuple[str, str] | None
    seen: Annotated[dict[str, float], rounded(2)]
    """The least difference to each eye: normal, protan, deutan, tritan."""
    note: str
    """What to say where the groups cannot be told apart by colour."""
    own: int
    """Games in a group and not printed that have a colour of their own."""
    printed_sheets: int
    """Sheets that it takes to print again all that is on paper in a group's colour."""
    reprint_sheets: int
    """Sheets that it takes to print again what is on paper in an earlier colour."""


class ColourChoice(Value, frozen=True):
    """A base colour that suits a game."""

    base: str
    words: str
    """Where it comes from."""


class GroupColours:
    """One colour for each group of games."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def report(self) -> ColoursReport:
        """Return the colours of all groups, what tells them apart, and what is printed in them."""
        with self._session.lock:
            snapshot = self._session.snapshot
            by = snapshot.colouring
            palette = by.palette
            groups = tuple(self._group(name) for name in by.groups)
            printed = [g for games in by.groups.values() for g in games if self._held(g)]
            outdated = [game for group in groups for game in group.reprint]
            seen = _seen([group.colours.base for group in groups])
            return ColoursReport(
                by=by.column,
                columns=(PICTURE, *colouring.columns_of(snapshot.games.values())),
                groups=groups,
                smallest=min(seen.values(), default=None),
                closest=palette.closest,
                seen=seen,
                note=palette.note,
                own=len(self._on_their_own()),
                printed_sheets=self._sheets_for(printed),
                reprint_sheets=self._sheets_for(snapshot.games[game] for game in outdated),
            )

    def pin(self, pins: Mapping[str, str | None]) -> ColoursReport:
        """Give groups these colours, ``#rrggbb``; None leaves a group's colour to be chosen.

        Every insert that follows its group and is not printed yet takes it. Raises InputError.
        """
        with self._session.lock:
            by = self._session.snapshot.colouring
            wanted = {
                by.group_named(said): deciding.colours(base).base if base else ""
                for said, base in pins.items()
            }
            merged = {**by.pins, **wanted}
            self._set_pins({name: base for name, base in merged.items() if base})
            return self.report()

    def follow(self, ids: Sequence[str] = ()) -> ColoursReport:
        """Let games take the colours of their groups, printed ones too: they are printed again.

        Without games, all that have a colour taken and are not on paper. Raises InputError, or
        RefusedError for a game in no group.
        """
        with self._session.lock:
            snapshot = self._session.snapshot
            by = snapshot.colouring
            games = [snapshot.game(game) for game in ids] if ids else self._on_their_own()
            changed = []
            for game in games:
                colours = by.from_group(game)
                if colours is None:
                    raise RefusedError(
                        game.title,
                        "is in no group",
                        f'The list says nothing of it under "{by.column}"',
                    )
                changed.append(deciding.change_colours(game, colours, by.column))
            self._session.keep_games("coloured", changed)
            return self.report()

    def choices(self, game: str) -> tuple[ColourChoice, ...]:
        """Return the base colours that suit a game: its group's, then its picture's."""
        with self._session.lock:
            snapshot = self._session.snapshot
            found = snapshot.game(game)
            by, art = snapshot.colouring, snapshot.proposal(found.id).design.art
            group = by.from_group(found)
            name = art.picture or (found.match.picture if found.match else "")
            picture = snapshot.pictures.get(name)
            choices = {group.base: f"{by.column}: {by.group_of(found)}"} if group else {}
            sides = (picture.side, *picture.palette) if picture else ()
            for nth, colour in enumerate(sides):
                words = "its picture" if nth else "its picture's side"
                choices.setdefault(colour_science.standing_out(colour), words)
            return tuple(ColourChoice(base, words) for base, words in choices.items())

    def _set_pins(self, pins: Mapping[str, str]) -> None:
        settings, column = self._session.snapshot.settings, self._session.snapshot.colouring.column
        columns = {**settings.pins, column: dict(pins)}
        new = msgspec.structs.replace(
            settings, pins={name: given for name, given in columns.items() if given}
        )
        if new != settings:
            self._session.keep("changed the colours of groups", settings=new)

    def _group(self, name: str) -> GroupReport:
        by = self._session.snapshot.colouring
        games = [self._session.snapshot.games[game.id] for game in by.groups[name]]
        (chosen,) = (group for group in by.palette.groups if group.name == name)
        origin = str(chosen.origin)
        if chosen.origin is Origin.PINNED and name not in by.pins:
            origin = "kept"
        colours = colouring.colours_on(chosen.colour, chosen)
        held = [game for game in games if self._held(game)]
        earlier = tuple(game.id for game in held if game.accepted.colours != colours)
        return GroupReport(
            name=name,
            games=tuple(game.id for game in games),
            colours=colours,
            origin=origin,
            printed=len(held) - len(earlier),
            reprint=earlier,
        )

    def _on_their_own(self) -> list[Game]:
        """Return the games in a group and not printed that have a colour of their own."""
        return [
            game
            for game in self._session.snapshot.games.values()
            if game.accepted.colours is not None
            and not game.accepted.colours_by
            and self._session.snapshot.colouring.group_of(game)
            and not self._session.snapshot.on_paper(game)
        ]

    def _held(self, game: Game) -> bool:
        """Return whether a game's insert is on paper in a colour of its group."""
        present = self._session.snapshot.games[game.id]
        return bool(present.accepted.colours_by) and self._session.snapshot.on_paper(present)

    def _sheets_for(self, games: Iterable[Game]) -> int:
        """Return how many sheets it takes to print these games' inserts again."""
        casing = self._session.snapshot.casing
        by_stock: dict[str, list[Game]] = {}
        formes = {}
        for game in games:
            forme = casing.forme_of(casing.case_of(game))
            formes[forme.stock.id] = forme
            by_stock.setdefault(forme.stock.id, []).append(game)
        sheets = 0
        for stock, same in by_stock.items():
            inserts = papers.footprints(same, casing)
            sheets += ganging.plan(inserts, roomy(formes[stock], inserts)).sheets
        return sheets


def _seen(bases: Sequence[str]) -> dict[str, float]:
    """Return the least difference of two colours to each eye; nothing for fewer than two."""
    if len(bases) < 2:
        return {}
    eyes = {NORMAL: list(bases)}
    for kind in Deficiency:
        eyes[str(kind)] = [colour_science.seen_as(base, kind) for base in bases]
    return {
        eye: min(
            colour_science.difference(one, other)
            for n, one in enumerate(seen)
            for other in seen[n + 1 :]
        )
        for eye, seen in eyes.items()
    }
