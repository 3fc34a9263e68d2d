"""Case kinds, built in or a person's own."""

from __future__ import annotations

from engine.cases import CaseKind, FlatNet, Folded
from engine.model import (
    Size,
    Value,
)


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
    pose: str = "shelf"
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
    flat: Size
    """Of its flat net, in mm."""
    folded: tuple[float, ...]
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
    dimension: str
    """``width`` or ``height`` of the panel as it lies flat."""
    length: float
    """In mm, as drawn."""


class TrialReport(Value, frozen=True):
    """A trial cut that was written."""

    file: str
    sides: tuple[TrialSide, ...]
    notes: tuple[str, ...] = ()
    """The cautions for cutting and for this case, a sentence each."""
