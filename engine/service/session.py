"""A collection held open: its lock, its snapshot, and the one way to change it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, nullcontext
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from threading import RLock
from typing import NamedTuple

import msgspec

from engine import cases, lettering
from engine.cases import CaseKind
from engine.collection import Collection, Edits, Finding, NewFiles
from engine.lettering import StandIns
from engine.model import FontRef, Game, Picture, Sheet
from engine.model.settings import Settings
from engine.state import Records, Snapshot


def utc_now() -> datetime:
    """Return the present moment, to the second, in UTC."""
    return datetime.now(UTC).replace(microsecond=0)


class Pending(NamedTuple):
    """What a change is to set down: whole records, by what names them."""

    games: Mapping[str, Game]
    sheets: Mapping[int, Sheet]
    pictures: Mapping[str, Picture]
    settings: Settings | None
    gone: frozenset[str] = frozenset()
    """Games that are deleted, by id."""

    def with_(self, later: Pending) -> Pending:
        """Return this and what is set down ``later``, which goes before it."""
        return Pending(
            {**self.games, **later.games},
            {**self.sheets, **later.sheets},
            {**self.pictures, **later.pictures},
            later.settings or self.settings,
            self.gone | later.gone,
        )

    def over(self, records: Records) -> Records:
        """Return the records as they will be."""
        games = {**records.games, **self.games}
        if self.gone:
            games = {key: game for key, game in games.items() if key not in self.gone}
        return Records(
            games,
            {**records.sheets, **self.sheets} if self.sheets else records.sheets,
            {**records.pictures, **self.pictures} if self.pictures else records.pictures,
            self.settings or records.settings,
        )


NOTHING = Pending({}, {}, {}, None)


class Session:
    """A collection open to be looked at and changed, by one thread at a time.

    Who takes ``lock`` sees one snapshot until it lets go. What takes long leaves the lock alone
    and works on the snapshot that it took.
    """

    def __init__(
        self, collection: Collection, kinds: Mapping[str, CaseKind], now: Callable[[], datetime]
    ) -> None:
        """Work on ``collection`` with these case kinds, reading the time from ``now``."""
        self.collection = collection
        self.now = now
        self.lock = RLock()
        self.kinds = kinds
        self._stand_ins = StandIns(collection.font_folder, collection.games.values())
        self.snapshot = self._afresh()
        """The collection between two changes."""
        self._gathered: list[tuple[str, Pending]] | None = None
        """What is kept while several edits are made one change, with the words for each."""
        self._files: NewFiles | None = None

    @property
    def folder(self) -> Path:
        """The collection's folder."""
        return self.collection.folder

    def must_write(self, mend: str = "Close it there first") -> None:
        """Raise ReadOnlyError where nothing may be changed, as in another program's collection."""
        if self.collection.read_only:
            raise self.collection.why_read_only("is open in another program", mend)

    @contextmanager
    def change(self, words: str = "") -> Iterator[None]:
        """Make one change of all that is kept inside: written whole at the end, or not at all.

        ``words`` say what was done; without them those of the parts do. What is kept is seen by
        what follows inside, and ``files`` may be brought; those of a change that fails are
        removed. A change within another is part of it.
        """
        with self.lock:
            if self._gathered is not None:
                yield
                return
            before, self._gathered = self.snapshot, []
            # Where nothing may be changed, what follows inside may still be looked at.
            found = self.collection
            with nullcontext() if found.read_only else found.new_files() as self._files:
                try:
                    yield
                    gathered = self._gathered
                finally:
                    self._gathered, self.snapshot = None, before
                if gathered:
                    pending = NOTHING
                    for _, part in gathered:
                        pending = pending.with_(part)
                    said = words or " and ".join(dict.fromkeys(said for said, _ in gathered))
                    self._record(said, pending, self._files)
            self._files = None

    @property
    def files(self) -> NewFiles:
        """Where files are brought that belong to the change that is made."""
        self.must_write()
        if self._files is None or self._gathered is None:
            raise RuntimeError("files belong to a change: bring them inside one")
        return self._files

    def keep(
        self,
        words: str,
        *,
        games: Iterable[Game] = (),
        sheets: Iterable[Sheet] = (),
        pictures: Iterable[Picture] = (),
        settings: Settings | None = None,
        gone: Iterable[str] = (),
    ) -> None:
        """Record what differs, as a change of its own or part of the one that is made.

        ``words`` say what was done: undo shows them. Games that are ``gone`` are deleted. Raises
        ReadOnlyError, InputError, or CollectionError where the disk refuses; nothing has changed
        then, unless it is an UnconfirmedError.
        """
        pending = Pending(
            {game.id: game for game in games},
            {sheet.number: sheet for sheet in sheets},
            {picture.name: picture for picture in pictures},
            settings,
            frozenset(gone),
        )
        with self.lock:
            if self._gathered is None:
                self._record(words, pending)
                return
            self.must_write()
            self._gathered.append((words, pending))
            self.snapshot = self.snapshot.after(
                pending.over(self.snapshot.recorded), pending.games.keys() | pending.gone
            )

    def keep_games(self, verb: str, games: Iterable[Game]) -> None:
        """Record the games that are not as they were: 'accepted Tide and 5 more'.

        The fonts of the machine that stand in on them are copied into the collection.
        """
        present = self.snapshot.games
        changed = [game for game in games if present[game.id] != game]
        if not changed:
            return
        words = named(verb, [game.title for game in changed])
        if not any(lettering.machine_fonts(game.accepted) for game in changed):
            self.keep(words, games=changed)
            return
        with self.change():
            keep = cache(self.keep_font)
            self.keep(
                words,
                games=[
                    msgspec.structs.replace(
                        game, accepted=lettering.keep_fonts(game.accepted, keep)
                    )
                    for game in changed
                ],
            )

    def keep_font(self, font: FontRef) -> FontRef:
        """Copy a font of the machine into the collection; return it as designs name it."""
        return msgspec.structs.replace(font, path=self.files.font(Path(font.path)))

    def note(self, *, games: Iterable[Game] = (), pictures: Iterable[Picture] = ()) -> None:
        """Record what was found out rather than done: undo passes it over. Raises as ``keep``."""
        with self.lock:
            edits = self.collection.note(games=games, pictures=pictures)
            if edits is not None:
                self.bring_up(edits)

    def take_up(self, kinds: Mapping[str, CaseKind]) -> None:
        """Work with these case kinds from now on."""
        with self.lock:
            self.kinds = kinds
            self.snapshot = self._afresh()

    def mend(self, findings: Iterable[Finding]) -> tuple[str, ...]:
        """Mend what the collection can by itself; return a sentence each. Raises as ``keep``."""
        with self.lock:
            said, edits = self.collection.mend(findings)
            if edits is not None:
                self.bring_up(edits)
            return said

    def go_on(self) -> bool:
        """Return whether changes can be made, having tried to where they could not.

        What the other program wrote is read then. Raises CollectionError.
        """
        with self.lock:
            before = self.collection.read_only
            can_write = self.collection.go_on()
            if can_write and before:
                found = self.collection
                self._stand_ins = StandIns(found.font_folder, found.games.values())
                self.take_up(cases.load_kinds(found.case_folder))
            return can_write

    def tried(self, before: Snapshot, settings: Settings, games: Mapping[str, Game]) -> Snapshot:
        """Return what ``before`` would be with these settings and games; keep nothing."""
        records = before.recorded._replace(settings=settings, games=games)
        return Snapshot(records, self.kinds, self._stand_ins)

    def close(self) -> None:
        """Let go of the collection."""
        with self.lock:
            self.collection.close()

    def _record(self, words: str, pending: Pending, files: NewFiles | None = None) -> None:
        edits = self.collection.record(
            words,
            games=pending.games.values(),
            sheets=pending.sheets.values(),
            pictures=pending.pictures.values(),
            settings=pending.settings,
            forget_games=pending.gone,
            files=files,
        )
        if edits is not None:
            self.bring_up(edits)

    def bring_up(self, edits: Edits) -> None:
        """Make the next snapshot, once the collection holds what ``edits`` say.

        Raises UnconfirmedError where the disk did not confirm it.
        """
        self.snapshot = self.snapshot.after(
            self._records(), edits.games.keys(), edits.pictures.keys()
        )
        if edits.doubt is not None:
            raise edits.doubt

    def _records(self) -> Records:
        found = self.collection
        return Records(found.games, found.sheets, found.pictures, found.settings)

    def _afresh(self) -> Snapshot:
        return Snapshot(self._records(), self.kinds, self._stand_ins)


def named(verb: str, things: Sequence[str]) -> str:
    """Return the words for what was done to one thing or many: 'accepted Tide and 5 more'."""
    if not things:
        return verb
    more = len(things) - 1
    return f"{verb} {things[0]}" + (f" and {more} more" if more else "")
