"""The collection under some settings, looked at for the figures that settings bear on."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import AbstractContextManager
from enum import StrEnum
from functools import cached_property
from itertools import chain, repeat
from types import MappingProxyType
from typing import Any, Literal, NamedTuple

from engine.cases import FlatNet
from engine.ganging import sheetwork
from engine.ganging.results import CutsReport, SheetReport, SheetState
from engine.ganging.room import full_of
from engine.lettering.titler import Titled
from engine.model import Stage, Value
from engine.model.stages import Place
from engine.model.units import Points
from engine.model.waiting import Cancel, go_on
from engine.service.ink import InkUse
from engine.service.proofs import Proofs
from engine.service.shelved import Shelved
from engine.service.starting import doubtful
from engine.state import Proposal, Snapshot

SOON_CUT = 16
"""The order in which a sheet of more inserts is cut is not looked for here."""


class Measure(StrEnum):
    """What a setting bears on, as a figure."""

    ON_SHEET = "on_sheet"
    """Inserts of one case kind that a sheet has room for."""
    USED = "used"
    """Part of the stock's area that they take, 0 to 1."""
    WIDTH = "width_mm"
    """Of the flat insert."""
    HEIGHT = "height_mm"
    BLEED = "bleed_mm"
    """On that sheet, with its spare room."""
    GUTTER = "gutter_mm"
    CUTS = "cuts"
    """Of that sheet; 0 where it is not cut edge to edge."""
    DISTANCES = "distances"
    """How often a distance is set for them."""
    TURNS = "turns"
    """How often the paper is turned."""
    TO_CONFIRM = "to_confirm"
    """Games whose picture is not sure enough to be taken."""
    FAR = "far"
    """Games still to be printed with a title that cannot be read from the shelf's distance."""
    ABRIDGED = "abridged"
    """Those with an abridged one."""
    SMALLEST = "smallest_pt"
    """The smallest type on any of them; 0 where none has a title."""
    INK = "ink"
    """The ink of the first insert to be printed: the parts of its area that the four inks cover,
    added up, 0 to 4."""


class TitleFigures(NamedTuple):
    """The titles of all inserts still to be printed."""

    far: int
    abridged: int
    smallest: float


class Stands(Value, frozen=True):
    """How the edge of a game stands before the person."""

    panel: str
    """The panel that shows."""
    runs: Literal["", "descending", "ascending"]
    """Which way its title runs; '' where it is level."""
    left: str
    """The title of the game before it on the shelf; '' for none."""
    right: str
    """The title of the one after it; '' for none."""


class SetAs(Value, frozen=True):
    """How the title stands on the first edge of an insert."""

    lines: tuple[str, ...]
    size: Points
    """Of its type."""
    mark: str = ""
    stripe: str = ""
    """The stripe's colour, ``#rrggbb``; empty for none."""


class Means(NamedTuple):
    """What looking takes."""

    lock: AbstractContextManager[Any]
    """Held while a snapshot is asked."""
    proofs: Proofs
    inks: InkUse
    cancel: Cancel | None


class Looked:
    """One state of the collection, worked out as far as it is asked for."""

    def __init__(self, snapshot: Snapshot, kind: str, means: Means) -> None:
        """Look at ``snapshot`` for inserts of ``kind``."""
        self.snapshot = snapshot
        self.kind = kind
        self._lock, self._proofs, self._inks, self._cancel = means

    @cached_property
    def net(self) -> FlatNet:
        """An insert of the kind, laid flat."""
        return self.snapshot.casing.net(self.kind)

    @cached_property
    def sheet(self) -> SheetReport:
        """A sheet full of the kind: the games that are to be printed, then nameless inserts."""
        casing, settings = self.snapshot.casing, self.snapshot.settings
        full = full_of(
            casing.forme_of(self.kind), self.kind, self.net.size, turns=casing.turns(self.kind)
        ).widened(settings)
        games = chain(self.to_print, repeat(""))
        return SheetReport(
            number=None,
            state=SheetState.READY,
            forme=full.forme,
            placements=tuple(
                one.placed(game, None)
                for one, game in zip(full.layout.from_top, games, strict=False)
            ),
            used=full.layout.used,
        )

    @cached_property
    def cuts(self) -> CutsReport | None:
        """How that sheet is cut; None where the best order would take seconds to find."""
        return sheetwork.cuts(self.sheet) if len(self.sheet.placements) <= SOON_CUT else None

    @cached_property
    def to_print(self) -> tuple[str, ...]:
        """The games of the kind that are still to be printed; where none is, all of the kind."""
        games, case_of = self.snapshot.games, self.snapshot.casing.case_of
        left = self.snapshot.at(Place.BACKLOG, Place.QUEUE)
        found = tuple(key for key in left if case_of(games[key]) == self.kind)
        return found or tuple(
            key
            for key, game in games.items()
            if self.snapshot.standing[key].stage is not Stage.UNWANTED
            and case_of(game) == self.kind
        )

    def proposal(self, game: str) -> Proposal:
        """Return a game's design as it would be printed."""
        with self._lock:
            return self.snapshot.proposal(game)

    @cached_property
    def ink(self) -> float:
        """The ink of the first insert to be printed, 0 to 4; 0 without one."""
        if not self.to_print:
            return 0.0
        coverage, _ = self._inks.printed(self.snapshot, self.to_print[0])
        return sum(coverage) / 100

    @cached_property
    def titles(self) -> TitleFigures:
        """What there is to say of the titles. Raises Cancelled."""
        far = abridged = 0
        smallest = float("inf")
        for key in self.snapshot.at(Place.BACKLOG, Place.QUEUE):
            go_on(self._cancel)
            edges = self.titled(key).edges
            far += not all(edge.reaches for edge in edges)
            abridged += any(edge.steps for edge in edges)
            smallest = min((smallest, *(edge.size for edge in edges if edge.lines)))
        return TitleFigures(far, abridged, smallest if smallest < float("inf") else 0.0)

    def set_as(self, key: str) -> SetAs:
        """Return how a game's title is set; no lines where its insert has no edge."""
        one = next(iter(self.titled(key).titles), None)
        return SetAs(one.lines, one.size, one.mark, one.stripe) if one else SetAs((), 0.0)

    @cached_property
    def shelf(self) -> Shelved:
        """All edges as they stand."""
        return Shelved(self.snapshot, self._proofs, self._lock)

    def stands(self, key: str) -> Stands:
        """Return how a game's edge stands. Raises Cancelled."""
        go_on(self._cancel)
        games, order = self.snapshot.games, self.shelf.order
        at, panel = order.index(key), self.shelf.faced_of(key).panel
        beside = [games[order[n]].title if 0 <= n < len(order) else "" for n in (at - 1, at + 1)]
        return Stands(panel.name, panel.runs.value if panel.runs else "", *beside)

    def titled(self, key: str) -> Titled:
        """Return how a game's title stands on its edges."""
        game = self.snapshot.games[key]
        with self._lock:
            net = self.snapshot.casing.net_of(game)
            return self.snapshot.proposer.titler.titled(game, net)


MEASURES: Mapping[Measure, Callable[[Looked], float | None]] = MappingProxyType(
    {
        Measure.ON_SHEET: lambda seen: len(seen.sheet.placements),
        Measure.USED: lambda seen: seen.sheet.used,
        Measure.WIDTH: lambda seen: seen.net.size.width,
        Measure.HEIGHT: lambda seen: seen.net.size.height,
        Measure.BLEED: lambda seen: seen.sheet.forme.bleed,
        Measure.GUTTER: lambda seen: seen.sheet.forme.gutter,
        Measure.CUTS: lambda seen: len(seen.cuts.cuts) if seen.cuts else None,
        Measure.DISTANCES: lambda seen: seen.cuts.settings if seen.cuts else None,
        Measure.TURNS: lambda seen: seen.cuts.turns if seen.cuts else None,
        Measure.TO_CONFIRM: lambda seen: doubtful(seen.snapshot),
        Measure.FAR: lambda seen: seen.titles.far,
        Measure.ABRIDGED: lambda seen: seen.titles.abridged,
        Measure.SMALLEST: lambda seen: seen.titles.smallest,
        Measure.INK: lambda seen: seen.ink,
    }
)
"""How each figure is taken; None where it is not known soon."""
