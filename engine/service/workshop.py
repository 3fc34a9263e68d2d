"""The workshop: a collection with all the parts of the work on it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from datetime import datetime
from pathlib import Path

from engine import cases
from engine.collection import Collection, Finding
from engine.model import Stage, Value
from engine.model.stages import stage_counts
from engine.service.art import Arts
from engine.service.batch import BatchWork
from engine.service.colours import GroupColours
from engine.service.designs import Designs
from engine.service.finishing import Finishing
from engine.service.games import Games
from engine.service.ink import InkUse
from engine.service.kinds import Kinds
from engine.service.pages import Pages
from engine.service.papers import Papers
from engine.service.printers import Printers
from engine.service.printing import Printing
from engine.service.proofs import Proofs
from engine.service.reading import Readings
from engine.service.session import Session, utc_now
from engine.service.setup import Setup
from engine.service.sheets import Sheets
from engine.service.sides import Sides
from engine.service.titles import Titles


class Progress(Value, frozen=True):
    """How many games stand at each stage."""

    games: int
    stages: dict[Stage, int]
    reprints: int = 0
    """Games that wait in the queue again because their design changed after printing."""
    notes: tuple[str, ...] = ()
    """What the person should know of the step just taken."""


class Health(Value, frozen=True):
    """The collection's health."""

    ok: bool
    """Nothing was found."""
    findings: tuple[Finding, ...]


class Workshop:
    """A collection held open, and a part of it for each part of the work."""

    def __init__(self, session: Session) -> None:
        """Put the parts together around one session."""
        self._session = session
        self.games = Games(session)
        self.readings = Readings(session)
        self.proofs = Proofs(session)
        self.designs = Designs(session)
        self.sides = Sides(session, self.designs)
        self.art = Arts(session, self.designs)
        self.titles = Titles(session, self.designs)
        self.colours = GroupColours(session)
        self.batch = BatchWork(session)
        pages = Pages(session, self.proofs)
        self.sheets = Sheets(session, pages)
        self.finishing = Finishing(session, pages)
        self.printing = Printing(session, pages)
        self.setup = Setup(session)
        self.papers = Papers(session, self.setup)
        self.printers = Printers(session, self.setup)
        self.kinds = Kinds(session, self.setup)
        self.ink = InkUse(session, self.proofs)

    @property
    def folder(self) -> Path:
        """The collection's folder."""
        return self._session.folder

    @property
    def name(self) -> str:
        """What to call the collection: its folder's name."""
        return self.folder.resolve().name

    @property
    def read_only(self) -> bool:
        """Whether another program has the collection open."""
        return self._session.collection.read_only

    @property
    def notes(self) -> tuple[str, ...]:
        """What the person should know about how the collection was opened, a sentence each."""
        return self._session.collection.notes

    def change(self, words: str = "") -> AbstractContextManager[None]:
        """Make one change of all that is changed inside: all of it, or nothing if a part fails.

        ``words`` say what was done; without them those of the parts do.
        """
        return self._session.change(words)

    def undo(self) -> str:
        """Take back the last change; return what it was. Raises RefusedError."""
        return self._session.undo()

    def progress(self, notes: Sequence[str] = ()) -> Progress:
        """Return how many games stand at each stage, and ``notes`` with that."""
        standing = self._session.snapshot.standing
        return Progress(
            games=len(standing),
            stages=stage_counts(standing),
            reprints=sum(one.reprint for one in standing.values()),
            notes=tuple(notes),
        )

    @property
    def too_large(self) -> tuple[str, ...]:
        """What fits no sheet of its paper, and the paper that would take it: a sentence each."""
        with self._session.lock:
            return tuple(self._session.snapshot.too_large)

    def check(self) -> Health:
        """Return what is wrong with the collection, with a mend for each."""
        with self._session.lock:
            too_large = self._session.snapshot.too_large
            findings = (*self._session.collection.check(), *map(_homeless, too_large.items()))
        return Health(not findings, findings)

    def close(self) -> None:
        """Let go of the collection."""
        self._session.close()


def _homeless(too_large: tuple[str, tuple[str, ...]]) -> Finding:
    """Return what is wrong with games whose inserts fit no sheet."""
    sentence, games = too_large
    what, _, mend = sentence.removesuffix(".").partition(". ")
    more = f" and {len(games) - 1} more" if len(games) > 1 else ""
    return Finding(what, f"{games[0]}{more}", mend)


def open_workshop(folder: Path, now: Callable[[], datetime] = utc_now) -> Workshop:
    """Open the collection in a folder, made on first use.

    It is read-only when another program holds it. Raises CollectionError or CaseError.
    """
    collection = Collection.open(folder, now=now)
    try:
        return Workshop(Session(collection, cases.load_kinds(folder / "cases"), now))
    except BaseException:
        collection.close()
        raise
