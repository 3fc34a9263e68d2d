"""The collection between two changes, and what follows from it.

Most changes touch a few games of thousands, so that a later snapshot takes over from the one
before what still holds; a property of the tests holds that it is as one made afresh.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from copy import copy
from functools import cached_property
from typing import NamedTuple

import msgspec

from engine.cases import CaseKind
from engine.cases.casing import Casing
from engine.colours.colouring import Colouring, followed
from engine.ganging.papers import Paper, Queue
from engine.lettering import StandIns
from engine.lettering.titler import Titler
from engine.model import Game, Picture, Sheet
from engine.model.errors import InputError
from engine.model.settings import Settings
from engine.model.stages import OnPaper, Place, Standing
from engine.state.proposal import GameLine, Proposal
from engine.state.proposing import Proposer


class Records(NamedTuple):
    """What a collection has on record."""

    games: Mapping[str, Game]
    """By id, in the order of the list."""
    sheets: Mapping[int, Sheet]
    """By number."""
    pictures: Mapping[str, Picture]
    """By name."""
    settings: Settings


class Snapshot:
    """The collection between two changes. Nothing in it changes."""

    def __init__(
        self,
        records: Records,
        kinds: Mapping[str, CaseKind],
        stand_ins: StandIns,
        titler: Titler | None = None,
    ) -> None:
        """Work out what follows from ``records``; ``stand_ins`` finds fonts for what one lacks.

        ``titler`` is that of a snapshot before in which the same games were to be titled alike.
        """
        self._kinds = kinds
        self._stand_ins = stand_ins
        self.recorded = records
        """What the collection has on record, whatever follows from it."""
        settings = records.settings
        self.casing = Casing(kinds, settings)
        self._paper = OnPaper.of(records.sheets.values())
        self.colouring = Colouring(records.games, records.pictures, settings)
        self.games: Mapping[str, Game] = {key: self._followed(key) for key in records.games}
        """By id, in the order of the list, with the colours of their groups."""
        self.standing: Mapping[str, Standing] = {
            key: self._paper.standing(game) for key, game in self.games.items()
        }
        signs = self.colouring.signs
        if titler is None:
            titler = Titler.of(self.casing, settings.lettering, self.games, stand_ins, signs)
        else:
            titler, _ = titler.after(self.games, signs)
        self.proposer = Proposer(self.casing, settings, records.pictures, titler)
        self._proposals: dict[str, Proposal] = {}
        self._lines: dict[str, GameLine] = {}
        """By game, once they were asked for; all of them or none."""

    # --- what was recorded -----------------------------------------------------------------

    @property
    def sheets(self) -> Mapping[int, Sheet]:
        """All sheets, by number."""
        return self.recorded.sheets

    @property
    def pictures(self) -> Mapping[str, Picture]:
        """All pictures, by name."""
        return self.recorded.pictures

    @property
    def settings(self) -> Settings:
        """What was set for the collection."""
        return self.recorded.settings

    @property
    def live_sheets(self) -> list[Sheet]:
        """The sheets that were not withdrawn, in the order of their numbers."""
        return [sheet for _, sheet in sorted(self.sheets.items()) if sheet.withdrawn_at is None]

    # --- the next one ----------------------------------------------------------------------

    def after(
        self, records: Records, changed: Collection[str], pictures: Collection[str] = ()
    ) -> Snapshot:
        """Return the snapshot of later records, in which the games of ``changed`` differ.

        Games that are new or gone are among them. Of ``pictures`` something else was found;
        what else differs is seen.
        """
        if not _alike(self.recorded, records, pictures):
            titler = self.proposer.titler if _titled_alike(self.recorded, records) else None
            return Snapshot(records, self._kinds, self._stand_ins, titler)
        later = copy(self)
        for worked_out in ("papers", "too_large"):
            later.__dict__.pop(worked_out, None)
        later.recorded = records
        if pictures:
            titler = self.proposer.titler
            later.proposer = Proposer(self.casing, records.settings, records.pictures, titler)
        later._bring_up(self, {*changed, *self._showing(pictures)})  # noqa: SLF001  its own kind
        return later

    def _showing(self, pictures: Collection[str]) -> set[str]:
        """Return the games that show, or would show, one of these pictures."""
        wanted = frozenset(pictures)
        if not wanted:
            return set()
        return {key for key, game in self.games.items() if not wanted.isdisjoint(game.pictures)}

    def _bring_up(self, before: Snapshot, changed: set[str]) -> None:
        """Work out anew what hangs on the games of ``changed``."""
        records = self.recorded
        if records.sheets is not before.sheets:
            self._paper = OnPaper.of(records.sheets.values())
            changed |= self._paper.differing(before._paper)
        self.colouring = before.colouring.after(records.games, changed, records.pictures)
        changed |= self.colouring.recoloured(before.colouring)
        listed = records.games.keys() == before.games.keys()
        games, standing = dict(before.games), dict(before.standing)
        for key in changed:
            if key in records.games:
                games[key] = self._followed(key)
                standing[key] = self._paper.standing(games[key])
            elif key in games:
                del games[key], standing[key]
        self.games = games if listed else {key: games[key] for key in records.games}
        self.standing = standing if listed else {key: standing[key] for key in records.games}
        titler, retitled = before.proposer.titler.after(
            {key: games.get(key) for key in changed}, self.colouring.signs
        )
        if titler is not before.proposer.titler:
            self.proposer = Proposer(self.casing, self.settings, self.pictures, titler)
        self._proposals = {
            key: proposal
            for key, proposal in before._proposals.items()
            if key not in changed and key not in retitled
        }
        self._bring_up_lines(before, changed)
        if "_queue" in self.__dict__:  # once it was asked for
            self._queue = before._queue.after(self.games, self.standing, changed, records.sheets)

    def _bring_up_lines(self, before: Snapshot, changed: Collection[str]) -> None:
        if not before._lines or before.games.keys() != self.games.keys():
            self._lines = {}
            return
        batch = set(self.settings.batch)
        self._lines = dict(before._lines)
        for key in {*changed, *(batch ^ set(before.settings.batch))} & self.games.keys():
            self._lines[key] = self._line(key, batch)

    def _followed(self, key: str) -> Game:
        game = self.recorded.games[key]
        return followed(game, self._paper, self.colouring, self.settings.ink)

    # --- what is asked of it ---------------------------------------------------------------

    def game(self, said: str) -> Game:
        """Return the game of an id, a title, or the beginning of just one. Raises InputError."""
        if said in self.games:
            return self.games[said]
        wanted, mend = said.strip().casefold(), "Give its id, or how its title begins"
        if not wanted:
            raise InputError(f"“{said}”", "names no game", mend)
        found = [g for g in self.games.values() if g.title.casefold() == wanted] or [
            g
            for g in self.games.values()
            if g.id.startswith(wanted) or g.title.casefold().startswith(wanted)
        ]
        if len(found) == 1:
            return found[0]
        if found:
            few = ", ".join(game.id for game in found[:5])
            raise InputError(said, f"could be {len(found)} games: {few}", "Say which by its id")
        raise InputError(said, "no such game", mend)

    def sheet(self, number: int) -> Sheet:
        """Return a sheet that is pressed or settled. Raises InputError."""
        sheet = self.sheets.get(number)
        if sheet is None:
            raise InputError(f"sheet {number}", "no such sheet", "spinery sheets lists them")
        if sheet.withdrawn_at is not None:
            raise InputError(
                f"sheet {number}", "was withdrawn", "Its inserts are back in the queue"
            )
        return sheet

    def picture(self, name: str) -> Picture:
        """Return a picture by its name. Raises InputError."""
        found = self.pictures.get(name)
        if found is None:
            raise InputError(name, "is not among the pictures", "Take it in first")
        return found

    def proposal(self, game_id: str) -> Proposal:
        """Return the design of a game as it would be printed now."""
        if game_id not in self._proposals:
            self._proposals[game_id] = self.proposer.propose(
                self.games[game_id], self.standing[game_id], self.colouring
            )
        return self._proposals[game_id]

    def at(self, *places: Place) -> tuple[str, ...]:
        """Return the games that are in these places, in list order."""
        return tuple(key for key, one in self.standing.items() if one.place in places)

    @property
    def lines(self) -> tuple[GameLine, ...]:
        """All games as they stand in a list, in list order."""
        if len(self._lines) != len(self.games):
            batch = set(self.settings.batch)
            self._lines = {key: self._line(key, batch) for key in self.games}
        return tuple(self._lines.values())

    def _line(self, key: str, batch: Collection[str]) -> GameLine:
        game, standing = self.games[key], self.standing[key]
        return GameLine(
            id=key,
            title=game.title,
            series=game.series,
            maker=game.maker,
            genre=game.genre,
            year=game.year,
            notes=game.notes,
            case=self.casing.case_of(game),
            stage=standing.stage,
            sure=self.proposer.art_is_sure(game),
            reprint=standing.reprint,
            batch=key in batch,
            pictured=self.proposer.is_pictured(game),
            declared=game.declared is not None,
        )

    def on_paper(self, game: Game) -> bool:
        """Return whether a game's insert is on paper, good as far as is known, as it is now."""
        return self._paper.holds(game)

    @cached_property
    def too_large(self) -> Mapping[str, tuple[str, ...]]:
        """The games whose inserts fit no sheet of their paper, by the sentence that says so."""
        said: dict[tuple[str, frozenset[str]], str] = {}
        found: dict[str, list[str]] = {}
        for key in self.at(Place.QUEUE, Place.BACKLOG):
            game, design = self.games[key], self.standing[key].design
            kind = design.case if design else self.casing.case_of(game)
            without = frozenset(design.left_out) if design else self.casing.left_out(game)
            if (kind, without) not in said:
                said[kind, without] = self.casing.lacks_room(self.casing.net(kind, without))
            if sentence := said[kind, without]:
                found.setdefault(sentence, []).append(key)
        return {sentence: tuple(games) for sentence, games in found.items()}

    @cached_property
    def _queue(self) -> Queue:
        return Queue.of(self.games, self.standing, self.casing, self.sheets)

    @cached_property
    def papers(self) -> tuple[Paper, ...]:
        """What is to be printed on each stock in use."""
        return self._queue.papers


def _alike(before: Records, after: Records, pictures: Collection[str]) -> bool:
    """Return whether what all games hang on is as it was: the settings, the other pictures."""
    if before.pictures is not after.pictures:
        if before.pictures.keys() != after.pictures.keys():
            return False
        same = (
            after.pictures[name] is one
            for name, one in before.pictures.items()
            if name not in pictures
        )
        if not all(same):
            return False
    if before.settings is after.settings:
        return True
    kept = {name: getattr(before.settings, name) for name in _BESIDE}
    return msgspec.structs.replace(after.settings, **kept) == before.settings


_BESIDE = (
    *("batch", "house", "containers", "case_sizes"),
    *("order", "alphabet", "articles", "by_hand", "dividers"),
)
"""Settings on which no design hangs."""


def _titled_alike(before: Records, after: Records) -> bool:
    """Return whether titles are proposed alike: the same games in cases of the same shape."""
    one, other = before.settings, after.settings
    names = ("lettering", "stock", "stocks", "pose", "poses", "spine", "left_out", "case")
    return before.games.keys() == after.games.keys() and all(
        getattr(one, name) == getattr(other, name) for name in names
    )
