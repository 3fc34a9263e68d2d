"""The workshop: a collection with all the parts of the work on it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager, suppress
from datetime import datetime
from pathlib import Path

import msgspec

from engine import cases
from engine.collection import Collection, Finding, restoring
from engine.collection.files import reason
from engine.collection.folders import collection_name
from engine.collection.restoring import Restored
from engine.model import Stage, Value
from engine.model.errors import CollectionError, RefusedError
from engine.model.stages import stage_counts
from engine.model.waiting import Cancel
from engine.service import exporting
from engine.service.art import Arts
from engine.service.batch import BatchWork
from engine.service.choosing import Choosing
from engine.service.colours import GroupColours
from engine.service.declaring import Declaring
from engine.service.designs import Designs
from engine.service.dividers import Dividers
from engine.service.effects import Effects
from engine.service.exporting import ExportReport
from engine.service.finishing import Finishing
from engine.service.games import Games
from engine.service.history import History
from engine.service.index import Index
from engine.service.ink import InkUse
from engine.service.kinds import Kinds
from engine.service.pages import Pages
from engine.service.papers import Papers
from engine.service.printers import Printers
from engine.service.printing import Printing
from engine.service.proofs import Proofs
from engine.service.reading import Readings
from engine.service.room import Room
from engine.service.session import Session, utc_now
from engine.service.setup import Setup
from engine.service.sheets import Sheets
from engine.service.shelf import ShelfWork
from engine.service.sides import Sides
from engine.service.starting import Starting
from engine.service.supplies import SuppliesWork
from engine.service.titles import Titles
from engine.shelf.pace import Pace


class Progress(Value, frozen=True):
    """How many games stand at each stage."""

    games: int
    stages: dict[Stage, int]
    reprints: int = 0
    """Games that wait in the queue again because their design changed after printing."""
    notes: tuple[str, ...] = ()
    """What the person should know of the step just taken."""
    pace: Pace | None = None
    """How fast the work goes; None where it was not asked for."""
    sheets_left: int | None = None
    """That the plan for all that is left still takes; None where it was not asked for."""


class Health(Value, frozen=True):
    """The collection's health."""

    ok: bool
    """Nothing was found."""
    findings: tuple[Finding, ...]
    mended: tuple[str, ...] = ()
    """What was mended just now, a sentence each."""


class Workshop:
    """A collection held open, and a part of it for each part of the work."""

    def __init__(self, session: Session) -> None:
        """Put the parts together around one session."""
        self._session = session
        self.games = Games(session)
        self.starting = Starting(session)
        self.readings = Readings(session)
        self.proofs = Proofs(session)
        self.choosing = Choosing(session, self.proofs)
        self.designs = Designs(session)
        self.sides = Sides(session, self.designs)
        self.art = Arts(session, self.designs)
        self.titles = Titles(session, self.designs)
        self.colours = GroupColours(session)
        self.batch = BatchWork(session)
        self.declaring = Declaring(session)
        pages = Pages(session, self.proofs)
        self.sheets = Sheets(session, pages)
        self.finishing = Finishing(session, pages)
        self.printing = Printing(session, pages)
        self.setup = Setup(session)
        self.history = History(session, self.setup)
        self.papers = Papers(session, self.setup)
        self.printers = Printers(session, self.setup)
        self.kinds = Kinds(session, self.setup)
        self.shelf = ShelfWork(session, self.proofs, self.setup)
        self.ink = InkUse(session, self.proofs)
        self.effects = Effects(session, self.setup, self.proofs, self.ink)
        self.room = Room(session)
        self.index = Index(session)
        self.dividers = Dividers(session)
        self.supplies = SuppliesWork(session, self.ink)

    @property
    def folder(self) -> Path:
        """The collection's folder."""
        return self._session.folder

    @property
    def name(self) -> str:
        """What to call the collection."""
        return collection_name(self.folder)

    @property
    def read_only(self) -> bool:
        """Whether nothing can be changed, as where another program has the collection open."""
        return self._session.collection.read_only

    @property
    def may_go_on(self) -> bool:
        """Whether what keeps this program from changing anything may end: see ``go_on``."""
        return self._session.collection.may_go_on

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
        return self.history.undo().words

    def outlook(self, cancel: Cancel | None = None, notes: Sequence[str] = ()) -> Progress:
        """Return how many games stand at each stage, the pace, and the sheets that are left.

        Planning them may take seconds, in which other methods answer. Raises Cancelled when
        ``cancel`` says so.
        """
        sheets = self.sheets.plan(cancel).sheets
        return msgspec.structs.replace(
            self.progress(notes), pace=self.supplies.pace(), sheets_left=sheets
        )

    def progress(self, notes: Sequence[str] = ()) -> Progress:
        """Return how many games stand at each stage, and ``notes`` with that."""
        snapshot = self._session.snapshot
        standing = {k: one for k, one in snapshot.standing.items() if not snapshot.games[k].labels}
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

    def mend(self) -> Health:
        """Mend what can be mended without a decision, the file copied to the backups first.

        Return how the collection is then. Raises ReadOnlyError, or CollectionError where the
        disk refuses.
        """
        with self._session.lock:
            findings = self._session.collection.check()
            mended = [*self._session.mend(findings), *self._written_again(findings)]
        return msgspec.structs.replace(self.check(), mended=tuple(mended))

    def _written_again(self, findings: Sequence[Finding]) -> Iterator[str]:
        """Write the pages that are gone; those that would be others now stay findings."""
        gone = {one.where for one in findings if one.mends}
        for number in self._session.snapshot.sheets:
            path = self._session.collection.sheet_path(number)
            if str(path) in gone and not path.exists():
                with suppress(RefusedError):
                    self.printing.again([number])
                    yield f"Sheet {number}: its page is written again."

    def export(self, folder: Path) -> ExportReport:
        """Write the collection out into a new folder, as CSV, JSON and files.

        Raises InputError for a folder that holds something, CollectionError where the disk refuses.
        """
        return exporting.export(self._session, folder)

    def go_on(self) -> bool:
        """Return whether changes can be made, having tried to where they could not.

        Once the other program that had the collection open has ended, what it wrote is read and
        changes can be made here. Raises CollectionError where it cannot be read.
        """
        return self._session.go_on()

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
        return Workshop(Session(collection, cases.load_kinds(collection.case_folder), now))
    except OSError as error:
        collection.close()
        what = f"it cannot be read ({reason(error)})"
        raise CollectionError(str(folder), what, "See to the disk and do it again") from error
    except BaseException:
        collection.close()
        raise


def restore(folder: Path, name: str = "", now: Callable[[], datetime] = utc_now) -> Restored:
    """Go back to a backup of the collection in a folder; see ``restoring.restore``."""
    return restoring.restore(folder, name, now)
