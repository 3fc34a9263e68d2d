"""Case kinds: how they look flat and folded, a person's own, and its trial cut."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Annotated, NamedTuple

import msgspec

from engine import cases
from engine.cases import (
    CLEARANCE,
    CaseKind,
    CaseShape,
    Dimension,
    Fits,
    FlatNet,
    Folded,
    Misfit,
    Pose,
)
from engine.cases.library import known_kind
from engine.collection import write_out
from engine.lettering import StandIns
from engine.model import Size, Value, cautions
from engine.model.errors import CaseError, InputError, RefusedError
from engine.model.settings import Settings
from engine.model.units import MM, Mm
from engine.press import foldedview, netdrawing
from engine.service.session import Session
from engine.service.setup import Setup
from engine.state import Records, Snapshot

RESERVED = "new"
"""No kind is called so: on the command line the word makes one."""

_DIMENSIONS: Mapping[str, Dimension] = {"width": "width", "height": "height"}


class KindLine(Value, frozen=True):
    """A case kind in a list."""

    id: str
    name: str
    games: int
    """Games of the collection in it."""
    cautions: tuple[str, ...] = ()
    """What to mind when this case is prepared, a sentence each."""
    own: bool = False
    """It is described by a file in the collection, new or in place of one that ships."""
    pose: str = msgspec.field(default="shelf", name="stored")
    """How these cases are kept: shelf, drawer or stack."""
    left_out: tuple[str, ...] = ()
    """Panels that the setup leaves out of these inserts, sorted."""


class KindReport(Value, frozen=True):
    """A case kind with its net on the stock in use."""

    line: KindLine
    kind: CaseKind
    net: FlatNet
    folded: Folded


class KindDraft(Value, frozen=True):
    """A case of one's own while it is being described."""

    id: str
    flat: Annotated[Size, MM]
    """Of its flat net, in mm."""
    folded: Annotated[tuple[float, ...], MM]
    """Width, height and depth of the folded insert over all, in mm."""
    doubts: tuple[str, ...]
    """What is implausible about the measurements, a sentence each."""
    net: bytes
    """A PNG of the flat net with its dimensions."""
    view: bytes
    """A PNG of the folded insert."""


class TrialSide(Value, frozen=True):
    """A length that can be read off a trial cut."""

    panel: str
    dimension: str = msgspec.field(name="side")
    """``width`` or ``height`` of the panel as it lies flat."""
    length: Mm
    """In mm, as drawn."""


class TrialReport(Value, frozen=True):
    """A trial cut that was written."""

    file: str
    sides: tuple[TrialSide, ...]
    notes: tuple[str, ...] = ()
    """The cautions for cutting and for this case, a sentence each."""


class Measured(NamedTuple):
    """A person's own case as they measured it."""

    shape: CaseShape
    name: str
    measures: Mapping[str, float]
    """In mm, by the keys of ``cases.QUESTIONS``."""
    fits: Fits = Fits.INSIDE
    clearance: float = CLEARANCE
    """See ``CaseKind.clearance``."""
    pose: Pose = Pose.SHELF

    @property
    def doubts(self) -> tuple[str, ...]:
        """What is implausible about what was measured so far, a sentence each."""
        return cases.doubts(self.shape, self.measures)

    @property
    def kind(self) -> CaseKind:
        """The case kind. Raises CaseError that names what is missing or wrong."""
        return cases.draft(
            self.shape,
            self.name,
            self.measures,
            fits=self.fits,
            clearance=self.clearance,
            pose=self.pose,
        )


class Kinds:
    """The case kinds that there are, and those a person adds.

    A kind of one's own is a file in the collection's folder ``cases/``. It is no change of
    the collection: undo leaves it alone, deleting the file takes it back.
    """

    def __init__(self, session: Session, setup: Setup) -> None:
        """Work in ``session``; set in ``setup`` what is set by case kind."""
        self._session = session
        self._setup = setup

    def kind(self, said: str) -> CaseKind:
        """Return a case kind by id or name. Raises CaseError."""
        return self._session.kinds[known_kind(self._session.kinds, said)]

    def names(self) -> dict[str, str]:
        """Return what each case kind is called, by its id."""
        return {kind.id: kind.name for kind in self._session.kinds.values()}

    def lines(self) -> tuple[KindLine, ...]:
        """Return the case kinds, with how many games of the collection are in each."""
        return _lines(self._session.snapshot, self._session.kinds)

    def reports(self, said: str = "") -> tuple[KindReport, ...]:
        """Return a case kind, or all, with nets on the stock in use. Raises CaseError."""
        with self._session.lock:
            return _reports(self._session.snapshot, self._session.kinds, said)

    # --- looking at one ----------------------------------------------------------------

    def net(self, said: str) -> FlatNet:
        """Return the flat net of a case kind on the stock in use. Raises CaseError."""
        return self._session.snapshot.casing.net(self.kind(said).id)

    def folded(self, said: str) -> Folded:
        """Return a kind's insert folded, of the stock in use. Raises CaseError."""
        return self._session.snapshot.casing.folded(self.kind(said).id)

    def net_picture(self, said: str) -> bytes:
        """Return a PNG of a kind's flat net with its dimensions. Raises CaseError."""
        return netdrawing.net_png(self.net(said))

    def folded_picture(self, said: str) -> bytes:
        """Return a PNG of a kind's insert folded, its panels named. Raises CaseError."""
        return foldedview.folded_picture(self.folded(said), self.net(said))

    def write_net(self, kind: str, path: Path, *, replace: bool = False) -> None:
        """Draw a kind's net as .svg, .dxf, .pdf or .png. Raises CaseError or InputError."""
        write_out(path, netdrawing.net_file(self.net(kind), path.suffix), replace=replace)

    def write_folded(self, kind: str, path: Path, *, replace: bool = False) -> None:
        """Draw a kind's insert folded, as a PNG. Raises CaseError or InputError."""
        _must_be(path, ".png", "a folded view")
        write_out(path, self.folded_picture(kind), replace=replace)

    # --- a person's own ----------------------------------------------------------------

    def draft(self, measured: Measured) -> KindDraft:
        """Return how a case would look with what was measured. Raises CaseError."""
        kind, caliper = measured.kind, self._session.snapshot.settings.stock.caliper
        net, folded = cases.flatten(kind, caliper), cases.fold(kind, caliper)
        return KindDraft(
            id=kind.id,
            flat=net.size,
            folded=tuple(folded.outside),
            doubts=measured.doubts,
            net=netdrawing.net_png(net),
            view=foldedview.folded_picture(folded, net),
        )

    def add(self, measured: Measured, **settings: object) -> CaseKind:
        """Keep a person's own case kind, to be used at once, and what is set for it.

        ``settings`` are by their names, of those that are set by case kind. Raises CaseError or
        InputError, RefusedError where there is a kind of that name, ReadOnlyError, or
        CollectionError where it cannot be written.
        """
        kind = measured.kind
        with self._session.lock:
            if kind.id in self._session.kinds or kind.id == RESERVED:
                raise RefusedError(
                    measured.name, f'"{kind.id}" is taken', "Give the case another name"
                )
            return self._keep_kind(kind, settings)

    def trial(self, said: str, path: Path | None = None, *, replace: bool = False) -> TrialReport:
        """Write a page to cut and hold against the case: by default among the sheets.

        Raises CaseError, RefusedError where the net does not fit the stock, InputError or
        CollectionError where it cannot be written.
        """
        kind = self.kind(said)
        if path is None:
            self._session.must_write("Give a file outside it")
        else:
            _must_be(path, ".pdf", "a trial cut")
        stock = self._session.snapshot.casing.stock_of(kind.id)
        calibration = self._session.snapshot.settings.calibration_on(stock.id)
        page = netdrawing.trial_page(self.net(kind.id), stock, calibration)
        if path is None:
            path = self._session.collection.keep_trial(kind.id, page)
        else:
            write_out(path, page, replace=replace)
        return TrialReport(
            file=str(path),
            sides=self.trial_sides(kind.id),
            notes=(*kind.cautions, *cautions.CUTTING),
        )

    def trial_sides(self, said: str) -> tuple[TrialSide, ...]:
        """Return what can be read off a kind's trial cut, each length once, in mm."""
        net = self.net(said)
        order = [panel.name for panel in net.panels]
        scales = sorted(
            cases.scales(net), key=lambda s: (order.index(s.panel), s.dimension == "height")
        )
        found = {(scale.panel, scale.dimension): scale.length for scale in scales}
        return tuple(TrialSide(*place, length) for place, length in found.items())

    def correct(
        self, said: str, misfits: Iterable[tuple[str, str, float]], **settings: object
    ) -> CaseKind:
        """Make sides of a kind shorter by what they were too long, and keep it so.

        A misfit is a panel, ``width`` or ``height`` as it lies flat, and mm; negative is too
        short. A kind that ships is kept as the collection's own from then on. Inserts
        that are printed stay as they are. ``settings`` and errors are those of ``add``.
        """
        with self._session.lock:
            kind = self.kind(said)
            new = cases.correct(kind, [_misfit(kind, *one) for one in misfits])
            if new == kind:
                raise RefusedError(kind.id, "nothing was too long or too short")
            cases.flatten(new, self._session.snapshot.casing.stock_of(kind.id).caliper)
            return self._keep_kind(new, settings, replace=True)

    def _keep_kind(
        self, kind: CaseKind, settings: Mapping[str, object], *, replace: bool = False
    ) -> CaseKind:
        """Write a kind into the collection and work with it as it will be read."""
        self._session.must_write("Close it there")
        by_kind = {name: {kind.id: value} for name, value in settings.items()}
        self._setup.checked(by_kind, {**self._session.kinds, kind.id: kind})
        text = cases.kind_text(kind)
        path = self._session.collection.keep_kind(kind.id, text, replace=replace)
        kept = cases.read_kind(path)
        self._session.take_up({**self._session.kinds, kept.id: kept})
        self._setup.change(**by_kind)
        return kept


def shipped_kinds(said: str = "") -> tuple[KindReport, ...]:
    """Return a case kind that ships, or all, as where nothing is set. Raises CaseError."""
    kinds = cases.load_kinds()
    return _reports(Snapshot(Records({}, {}, {}, Settings()), kinds, StandIns(Path())), kinds, said)


def _lines(snapshot: Snapshot, kinds: Mapping[str, CaseKind]) -> tuple[KindLine, ...]:
    casing, built_in = snapshot.casing, cases.load_kinds()
    used = Counter(casing.case_of(game) for game in snapshot.games.values())
    return tuple(
        KindLine(
            id=kind.id,
            name=kind.name,
            games=used[kind.id],
            cautions=kind.cautions,
            own=kind is not built_in.get(kind.id),
            pose=casing.pose(kind.id),
            left_out=tuple(sorted(casing.usually_left_out(kind.id))),
        )
        for kind in kinds.values()
    )


def _reports(
    snapshot: Snapshot, kinds: Mapping[str, CaseKind], said: str
) -> tuple[KindReport, ...]:
    wanted, casing = known_kind(kinds, said) if said else "", snapshot.casing
    return tuple(
        KindReport(
            line=line, kind=kinds[line.id], net=casing.net(line.id), folded=casing.folded(line.id)
        )
        for line in _lines(snapshot, kinds)
        if wanted in {"", line.id}
    )


def _misfit(kind: CaseKind, panel: str, said: str, by: float) -> Misfit:
    dimension = _DIMENSIONS.get(said)
    if dimension is None:
        raise CaseError(kind.id, f"{panel} has no {said}", "Correct its width or its height")
    return Misfit(panel, dimension, by)


def _must_be(path: Path, suffix: str, thing: str) -> None:
    if path.suffix.lower() != suffix:
        what = f"{thing} is a {suffix[1:].upper()}"
        raise InputError(str(path), what, f"Let the name end in {suffix}")
