"""Reading the collection's pictures beside the person's work, those that matter first.

What they say then tells whose they are: games without a picture find theirs.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from time import monotonic

import msgspec

from engine import reading
from engine.model import Picture, Reading, Value
from engine.model.errors import PictureError
from engine.model.waiting import Cancel, go_on
from engine.service import pairing
from engine.service.session import Session, named

SECONDS = 2.0
"""How long what was read may wait to be kept. A kill costs no more than that."""


class ReadingReport(Value, frozen=True):
    """What is read of the collection's pictures."""

    pictures: int
    read: int
    """Those of them that were read, now or before."""
    can_read: bool
    """What reads them is installed."""
    found: int = 0
    """Games whose picture was found, confirmed or doubted by what it says, just now."""
    doubtful: int = 0
    """Games whose picture is to be confirmed."""
    bare: int = 0
    """Games without a picture."""
    notes: tuple[str, ...] = ()
    """Pictures that cannot be read, a sentence each."""

    @property
    def lacking(self) -> str:
        """Return a sentence where nothing can be read; empty where all is well."""
        return "" if self.can_read or self.read == self.pictures else NOT_INSTALLED


NOT_INSTALLED = (
    "Covers are not read, so that less is sure. Install what reads them: "
    "pip install 'spinery[reading]'."
)

Reporting = Callable[[ReadingReport], None]


class Readings:
    """What the collection's pictures say and show."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def report(self, notes: Sequence[str] = (), found: int = 0) -> ReadingReport:
        """Return how far reading has come."""
        recorded = self._session.snapshot.recorded
        undecided = [game for game in recorded.games.values() if game.accepted.art is None]
        matches = [game.match for game in undecided]
        threshold = recorded.settings.threshold
        return ReadingReport(
            pictures=len(recorded.pictures),
            read=sum(one.reading is not None for one in recorded.pictures.values()),
            can_read=reading.can_read(),
            found=found,
            doubtful=sum(match is not None and match.confidence < threshold for match in matches),
            bare=matches.count(None),
            notes=tuple(notes),
        )

    def found(self) -> tuple[Picture, ...]:
        """Return the pictures with what was found and read in them."""
        return tuple(self._session.snapshot.pictures.values())

    def read(
        self, told: Reporting = lambda _: None, *, cancel: Cancel | None = None
    ) -> ReadingReport:
        """Read the pictures that were not read, those of the batch first, then in list order.

        What is read is kept as it comes, and is no change that undo takes back; ``told`` hears
        how far it has come. This takes about a second a picture, in which other methods answer.
        At the end, or where it is stopped, pictures are matched by what they say, as one change.
        Raises Cancelled when ``cancel`` says so, and CollectionError where it cannot be kept:
        what was kept before is done.
        """
        self._session.must_write()
        notes: list[str] = []
        if not reading.can_read():
            return self.report()
        before = self.report().read
        paths = {name: self._session.collection.picture_path(name) for name in self._unread()}
        waiting: list[tuple[str, Reading | PictureError]] = []
        since, found = monotonic(), 0
        try:
            for one in reading.read_all(paths, cancel):
                waiting.append(one)
                if monotonic() - since >= SECONDS:
                    notes += self._keep(waiting)
                    waiting, since = [], monotonic()
                    told(self.report(notes))
                    go_on(cancel)
        finally:
            notes += self._keep(waiting)
            found = self._pair(since=before)
        report = self.report(notes, found)
        if waiting:
            told(report)
        return report

    def _pair(self, since: int) -> int:
        """Give games their pictures by what these say, if any was read; return for how many.

        Looking takes a while for thousands, so that the lock is left alone: games that were changed
        meanwhile keep what they have.
        """
        if self.report().read == since:
            return 0
        seen = self._session.snapshot.recorded
        files = pairing.files_of(seen.pictures.values())
        found = pairing.paired(tuple(seen.games.values()), files)
        with self._session.lock:
            present = self._session.snapshot.recorded.games
            changed = [
                game
                for key, game in found.items()
                if game != seen.games[key] and present.get(key) == seen.games[key]
            ]
            if changed:
                words = named("matched", [game.title for game in changed])
                self._session.keep(f"{words} by what covers say", games=changed)
        return sum(game.match != seen.games[game.id].match for game in changed)

    def _unread(self) -> list[str]:
        """Return the pictures to read, in the order in which they are wanted."""
        snapshot = self._session.snapshot
        batch = set(snapshot.settings.batch)
        games = sorted(snapshot.games.values(), key=lambda game: game.id not in batch)
        wanted = dict.fromkeys(game.match.picture for game in games if game.match)
        wanted |= dict.fromkeys(snapshot.pictures)
        pictures = snapshot.pictures
        return [name for name in wanted if name in pictures and pictures[name].reading is None]

    def _keep(self, found: Sequence[tuple[str, Reading | PictureError]]) -> list[str]:
        """Record what was read; return why the others could not be, a sentence each."""
        with self._session.lock:
            pictures = self._session.snapshot.pictures
            self._session.note(
                pictures=[
                    msgspec.structs.replace(pictures[name], reading=_read(one))
                    for name, one in found
                    if name in pictures
                ]
            )
            return [
                f"{_source(pictures.get(name))}{one.what}."
                for name, one in found
                if isinstance(one, PictureError)
            ]


def _read(found: Reading | PictureError) -> Reading:
    """Return what was read; that it cannot be is kept, too, so that it is not tried again."""
    return found if isinstance(found, Reading) else Reading(failed=True)


def _source(picture: Picture | None) -> str:
    return f"{picture.source}: " if picture else ""
