"""The first steps with a collection: what each has come to, and what each choice would do."""

from __future__ import annotations

from collections import Counter
from typing import Annotated

from engine import cases
from engine.cases import Pose
from engine.ganging.strips import most_on
from engine.model import Match, Size, Stock, Value
from engine.model.settings import POSES
from engine.model.units import MM
from engine.service.session import Session
from engine.state import Snapshot


class StartReport(Value, frozen=True):
    """How far a collection is set up."""

    games: int
    pictured: int
    """Games with a picture."""
    doubtful: int
    """Games whose picture is to be confirmed."""
    kind: str
    """The id of the case kind that most games are in, or the usual one."""
    kinds: dict[str, int]
    """Games in each case kind, by its name, most first."""
    stored: str
    """How the cases of that kind are kept, in words."""
    shows: tuple[str, ...]
    """The panels that face the person then."""
    stock: str
    """The name of the paper of that kind."""
    on_sheet: int
    """Inserts of that kind that a sheet of it has room for."""
    measured: str
    """What was measured of the printer on that paper, in words; empty for nothing."""


class KindChoice(Value, frozen=True):
    """A case kind that games could be put in."""

    id: str
    name: str
    games: int
    """Games that are in it now."""
    flat: Annotated[Size, MM]
    """Of its insert, in mm."""
    on_sheet: int
    """Inserts that a sheet of its paper has room for."""
    cautions: tuple[str, ...]


class StorageChoice(Value, frozen=True):
    """A way to keep cases."""

    pose: str
    words: str
    shows: tuple[str, ...]
    """The panels that face the person then."""
    used: bool
    """It is how they are kept now."""


class PaperChoice(Value, frozen=True):
    """A paper to print on."""

    stock: Stock
    own: bool
    """Described by the person."""
    used: bool
    """It is the one in use."""
    on_sheet: int
    """Inserts of the case kind that most games are in, for which a sheet has room."""


class Starting:
    """The first steps with a collection."""

    def __init__(self, session: Session) -> None:
        """Work in ``session``."""
        self._session = session

    def report(self) -> StartReport:
        """Return how far the collection is set up."""
        with self._session.lock:
            snapshot, kind = self._session.snapshot, self._main_kind()
            counts = kind_counts(snapshot)
            games, casing = snapshot.recorded.games.values(), snapshot.casing
            matches = _open_matches(snapshot)
            stock = casing.stock_of(kind)
            calibration = snapshot.settings.calibration_on(stock.id)
            return StartReport(
                games=len(games),
                pictured=len(games) - matches.count(None),
                doubtful=doubtful(snapshot),
                kind=kind,
                kinds={self._session.kinds[one].name: n for one, n in counts.most_common()},
                stored=POSES[casing.pose(kind)],
                shows=tuple(casing.folded(kind).facing),
                stock=stock.name,
                on_sheet=_on_sheet(snapshot, kind, stock),
                measured=calibration.words if calibration else "",
            )

    def kinds(self) -> tuple[KindChoice, ...]:
        """Return the case kinds, each with what its inserts need."""
        with self._session.lock:
            snapshot = self._session.snapshot
            counts = kind_counts(snapshot)
            return tuple(
                KindChoice(
                    id=kind.id,
                    name=kind.name,
                    games=counts[kind.id],
                    flat=snapshot.casing.net(kind.id).size,
                    on_sheet=_on_sheet(snapshot, kind.id, snapshot.casing.stock_of(kind.id)),
                    cautions=kind.cautions,
                )
                for kind in self._session.kinds.values()
            )

    def storage(self) -> tuple[StorageChoice, ...]:
        """Return the ways to keep cases, with what shows of the kind that most games are in."""
        with self._session.lock:
            casing, kind = self._session.snapshot.casing, self._main_kind()
            caliper, left_out = casing.stock_of(kind).caliper, casing.usually_left_out(kind)
            return tuple(
                StorageChoice(
                    pose,
                    words,
                    tuple(
                        cases.fold(
                            self._session.kinds[kind], caliper, pose=Pose(pose), left_out=left_out
                        ).facing
                    ),
                    used=casing.pose(kind) == pose,
                )
                for pose, words in POSES.items()
            )

    def papers(self) -> tuple[PaperChoice, ...]:
        """Return the papers, each with the inserts of the main case kind that it has room for."""
        with self._session.lock:
            snapshot, kind = self._session.snapshot, self._main_kind()
            settings = snapshot.settings
            return tuple(
                PaperChoice(
                    stock=one,
                    own=one.id in settings.own_papers,
                    used=one.id == settings.stock.id,
                    on_sheet=_on_sheet(snapshot, kind, one),
                )
                for one in settings.papers
            )

    def _main_kind(self) -> str:
        snapshot = self._session.snapshot
        counts = kind_counts(snapshot)
        return max(counts, key=counts.__getitem__, default=snapshot.casing.usual)


def kind_counts(snapshot: Snapshot) -> Counter[str]:
    """Return how many games are in each case kind."""
    return Counter(map(snapshot.casing.case_of, snapshot.games.values()))


def doubtful(snapshot: Snapshot) -> int:
    """Return how many games wait for their picture to be confirmed."""
    threshold = snapshot.settings.threshold
    return sum(one is not None and one.confidence < threshold for one in _open_matches(snapshot))


def _open_matches(snapshot: Snapshot) -> list[Match | None]:
    """Return the pictures matched to games whose art is not accepted."""
    games = snapshot.recorded.games.values()
    return [game.match for game in games if game.accepted.art is None]


def _on_sheet(snapshot: Snapshot, kind: str, stock: Stock) -> int:
    casing = snapshot.casing
    forme = snapshot.settings.forme_on(stock)
    return most_on(forme, kind, casing.net(kind).size, turns=casing.turns(kind))
