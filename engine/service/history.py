"""What was done to a collection and to one game, taken back, done again, gone back to."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import datetime
from functools import cache
from operator import attrgetter

import msgspec

from engine.collection import Edit, Edits
from engine.collection.backups import time_of
from engine.model import Game, Instant, Picture, Sheet, Value
from engine.model.errors import RefusedError
from engine.model.naming import There
from engine.model.settings import Settings
from engine.service import differing
from engine.service.session import Session
from engine.service.setup import Setup

_SAME: Edit[Game] = Edit(None, None)


class Step(Value, frozen=True):
    """A step back or forth in what was done."""

    words: str
    """What was taken back, or done again."""
    changes: int
    """How many changes that were."""
    differs: tuple[str, ...]
    """What came out different, a line each: what it was, and what it is now."""


class ChangeLine(Value, frozen=True):
    """A change that can be undone, or done again."""

    number: int
    """It grows with time; by it a change is gone back to."""
    at: Instant
    words: str
    undone: bool
    """It was taken back, and can be done again."""
    differs: tuple[str, ...]
    """What it made different, a line each: what it was before, and after."""


class Event(Value, frozen=True):
    """Something that happened to a game."""

    at: Instant
    words: str
    differs: tuple[str, ...] = ()
    """What was different after it, of the game only; empty where that is no longer kept."""


class Day(Value, frozen=True):
    """A backup: what the collection held when it was opened once."""

    name: str
    """Of its file; by it that day is gone back to."""
    at: Instant


class History:
    """What was done to a collection."""

    def __init__(self, session: Session, setup: Setup) -> None:
        """Work in ``session``."""
        self._session = session
        self._setup = setup

    def lines(self) -> tuple[ChangeLine, ...]:
        """Return the changes that can be undone or done again, the latest first."""
        with self._session.lock:
            done = list(self._session.collection.past())
            pictures = self._pictures(edits for _, edits in done)
            there = cache(self._setup.there)
            told = [
                ChangeLine(
                    past.number,
                    past.change.at,
                    past.change.words,
                    past.change.undone,
                    tuple(self._differs(edits, pictures, there)),
                )
                for past, edits in done
            ]
        return tuple(sorted(told, key=attrgetter("number"), reverse=True))

    def of_game(self, game: str) -> tuple[Event, ...]:
        """Return what happened to a game, the first thing first. Raises InputError.

        What is no longer kept for undoing is read off the game and its sheets: when it came, when
        its art and its title were accepted, when it was printed and fitted.
        """
        with self._session.lock:
            found = self._session.snapshot.game(game)
            sheets = self._session.collection.sheets
            done = [one for one in self._session.collection.past() if not one[0].change.undone]
            pictures = self._pictures(edits for _, edits in done)
            events = [
                Event(past.change.at, past.change.words, tuple(differs))
                for past, edits in reversed(done)
                if (differs := self._of_game(found.id, edits, pictures)) is not None
            ]
            came = any(
                edits.games[found.id].old is None for _, edits in done if found.id in edits.games
            )
            first = done[-1][0].change.at if done else None
            earlier = () if came else on_record(self._session.collection.games[found.id], sheets)
        before = [one for one in earlier if first is None or one.at < first]
        return tuple(sorted((*before, *events), key=attrgetter("at")))

    def undo(self) -> Step:
        """Take back the last change. Raises RefusedError where there is none."""
        with self._session.lock:
            return self._step(self._session.collection.undo(), "There is nothing to take back")

    def redo(self) -> Step:
        """Do again what was taken back last. Raises RefusedError where there is nothing."""
        with self._session.lock:
            return self._step(self._session.collection.redo(), "There is nothing to do again")

    def go_to(self, number: int) -> Step:
        """Go back, or forth, to where things stood after a change; 0 stands before them all.

        Raises RefusedError where that change is not kept, or is the last one made.
        """
        with self._session.lock:
            collection = self._session.collection
            if number and number not in collection.changes:
                raise RefusedError(str(number), "no such change is kept", "Choose one of the list")
            way = collection.way_to(number)
            step = self._step(collection.go_to(number), "That is where things stand")
            return msgspec.structs.replace(step, changes=len(way))

    def days(self) -> tuple[Day, ...]:
        """Return the backups that can be gone back to, the newest first."""
        timed = ((copy.name, time_of(copy)) for copy in self._session.collection.copies)
        return tuple(Day(name, at) for name, at in timed if at is not None)

    def go_to_day(self, name: str) -> Step:
        """Make all as a backup holds it, as one change, which undo takes back.

        Raises RefusedError where there is no such backup, or nothing differs, ReadOnlyError, or
        CollectionError where it cannot be read.
        """
        with self._session.lock:
            day = next((one for one in self.days() if one.name == name), None)
            if day is None:
                raise RefusedError(name, "no such backup", "Choose one of the list")
            copy = next(c for c in self._session.collection.copies if c.name == name)
            words = f"went back to {day.at:%Y-%m-%d %H:%M} UTC"
            return self._step(self._session.collection.become(copy, words), "That is as it is now")

    # --- what differs ------------------------------------------------------------------------

    def _step(self, edits: Edits | None, otherwise: str) -> Step:
        if edits is None:
            raise RefusedError("", otherwise)
        self._session.bring_up(edits)
        differs = self._differs(edits, self._pictures([edits]), self._setup.there)
        return Step(edits.words, 1, tuple(differs))

    def _differs(
        self, edits: Edits, pictures: Mapping[str, Picture], there: Callable[[], There]
    ) -> list[str]:
        """Return what a change made different; ``there`` is asked only where settings are."""
        lines = differing.game_lines(edits.games.values(), pictures, self._kinds)
        lines += differing.sheet_lines(edits.sheets)
        lines += differing.picture_lines(edits.pictures.values())
        if edits.settings is not None:
            old, new = edits.settings
            lines += differing.setting_lines(old or Settings(), new or Settings(), there())
        return lines

    def _of_game(
        self, game: str, edits: Edits, pictures: Mapping[str, Picture]
    ) -> list[str] | None:
        """Return what a change made different for one game; None where it did not touch it."""
        on = {
            number: edit
            for number, edit in edits.sheets.items()
            if any(one.game == game for sheet in edit if sheet for one in sheet.placements)
        }
        edit = edits.games.get(game)
        if edit is None and not on:
            return None
        old, new = edit or _SAME
        told = differing.differences(old, new, pictures, self._kinds) if old and new else ()
        return [*told, *differing.sheet_lines(on)]

    def _pictures(self, changes: Iterable[Edits]) -> Mapping[str, Picture]:
        """Return the pictures that are there, and those that ``changes`` brought or took away."""
        gone = {
            name: one
            for edits in changes
            for name, edit in edits.pictures.items()
            if (one := edit.old or edit.new) is not None
        }
        return {**gone, **self._session.snapshot.pictures}

    @property
    def _kinds(self) -> dict[str, str]:
        return {kind.id: kind.name for kind in self._session.kinds.values()}


def on_record(game: Game, sheets: Mapping[int, Sheet]) -> Iterator[Event]:
    """Yield what the records themselves tell of a game."""

    def event(at: datetime | None, words: str) -> Iterator[Event]:
        if at is not None:
            yield Event(at, words)

    yield Event(game.added_at, "taken in")
    yield from event(game.accepted.art_at, "art accepted")
    yield from event(game.accepted.title_at, "title accepted")
    for sheet in sheets.values():
        own = [one for one in sheet.placements if one.game == game.id]
        if own:
            bad = all(one.spoiled for one in own)
            yield Event(sheet.pressed_at, f"pressed on sheet {sheet.number}")
            yield from event(
                sheet.settled_at, f"{'spoiled' if bad else 'printed'} on sheet {sheet.number}"
            )
            yield from event(sheet.withdrawn_at, f"sheet {sheet.number} withdrawn")
    if game.fitted is not None:
        yield Event(game.fitted.at, "put in its case")
