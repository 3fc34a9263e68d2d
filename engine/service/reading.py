"""Reading the collection's pictures beside the person's work, those that matter first."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from time import monotonic

import msgspec

from engine import reading
from engine.model import Picture, Reading, Value
from engine.model.errors import PictureError
from engine.model.waiting import Cancel, go_on
from engine.service.session import Session

SECONDS = 2.0
"""How long what was read may wait to be kept. A kill costs no more than that."""


class ReadingReport(Value, frozen=True):
    """What is read of the collection's pictures."""

    pictures: int
    read: int
    """Those of them that were read, now or before."""
    can_read: bool
    """What reads them is installed."""
    notes: tuple[str, ...] = ()
    """Pictures that cannot be read, a sentence each."""


Reporting = Callable[[ReadingReport], None]


class Readings:
    """What the collection's pictures say and show."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def report(self, notes: Sequence[str] = ()) -> ReadingReport:
        """Return how far reading has come."""
        pictures = self._session.snapshot.pictures.values()
        read = sum(picture.reading is not None for picture in pictures)
        return ReadingReport(len(pictures), read, reading.can_read(), tuple(notes))

    def found(self) -> tuple[Picture, ...]:
        """Return the pictures with what was found and read in them."""
        return tuple(self._session.snapshot.pictures.values())

    def read(
        self, told: Reporting = lambda _: None, *, cancel: Cancel | None = None
    ) -> ReadingReport:
        """Read the pictures that were not read, those of the batch first, then in list order.

        What is read is kept as it comes, and is no change that undo takes back; ``told`` hears
        how far it has come. This takes about a second a picture, in which other methods answer.
        Raises Cancelled when ``cancel`` says so, and CollectionError where it cannot be kept:
        what was kept before is done.
        """
        self._session.must_write()
        notes: list[str] = []
        if not reading.can_read():
            return self.report()
        paths = {name: self._session.collection.picture_path(name) for name in self._unread()}
        found = reading.read_all(paths, cancel)
        while some := list(_within(SECONDS, found)):
            notes += self._keep(some)
            told(self.report(notes))
            go_on(cancel)
        return self.report(notes)

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


def _within(
    seconds: float, found: Iterator[tuple[str, Reading | PictureError]]
) -> Iterator[tuple[str, Reading | PictureError]]:
    """Yield what comes until so much time has passed; at least one, if there is one."""
    start = monotonic()
    for one in found:
        yield one
        if monotonic() - start >= seconds:
            return
