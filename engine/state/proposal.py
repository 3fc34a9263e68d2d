"""A game and its design as it would be printed now."""

from __future__ import annotations

from typing import Annotated

from engine.lettering.results import EdgeReport
from engine.model import (
    Decision,
    Design,
    Fit,
    Loss,
    Stage,
    Trim,
    Value,
)
from engine.model.units import rounded


class PanelReport(Value, frozen=True):
    """A picture of its own on another panel than the main one, as ``ArtReport`` tells that."""

    panel: str
    source: str
    """The file name it came with."""
    confidence: Annotated[float, rounded(3)]
    chance: Annotated[float, rounded(3)]
    fit: Fit
    loss: Loss
    ppi: Annotated[float, rounded(1)]
    words: str
    trim: Trim = Trim()
    split: tuple[float, float] | None = None
    warnings: tuple[str, ...] = ()


class ArtReport(Value, frozen=True):
    """The art of a game's insert, in numbers and in words."""

    source: str | None
    """The file name it came with; None is plain."""
    confidence: Annotated[float, rounded(3)]
    """That this picture is this game's: 0 to 1."""
    chance: Annotated[float, rounded(3)]
    """That nothing is wrong with how it lies, nor with ``others``: 0 to 1; what the person chose
    is certain."""
    match: str
    """What speaks for that, part of a sentence: 'its cover says so'; empty where it was chosen."""
    fit: Fit
    loss: Loss
    ppi: Annotated[float, rounded(1)]
    """Pixels to the inch as printed, the lower of both directions; 0 for plain."""
    words: str
    """'crops 11 % left and right'."""
    trim: Trim = Trim()
    split: tuple[float, float] | None = None
    warnings: tuple[str, ...] = ()
    """What may disappoint in print, a sentence each."""
    others: tuple[PanelReport, ...] = ()
    """The pictures of other panels."""


class Proposal(Value, frozen=True):
    """A game's design as it would be printed now: what was accepted, the rest proposed."""

    game: str
    title: str
    case: str
    stage: Stage
    sure: bool
    """Everything not yet accepted is above the threshold."""
    doubts: tuple[str, ...]
    """Why not, a sentence each."""
    accepted: tuple[Decision, ...]
    design: Design
    art: ArtReport
    contrast: float
    edges: tuple[EdgeReport, ...]
    group: str = ""
    """The group its colours come from; empty where they are its own."""

    @property
    def undecided(self) -> bool:
        """Whether a decision is still to be taken."""
        return self.stage.undecided


class GameLine(Value, frozen=True):
    """A game in a list."""

    id: str
    title: str
    series: str
    maker: str
    genre: str
    year: str
    notes: str
    case: str
    stage: Stage
    sure: bool
    """A picture was matched above the threshold, or the art is already chosen."""
    reprint: bool
    """Its design changed after it was printed."""
    batch: bool
    """In today's batch."""
    pictured: bool = True
    """A picture was found or chosen for it."""
    declared: bool = False
    """A person said where it stands."""

    @property
    def undecided(self) -> bool:
        """Whether a decision is still to be taken."""
        return self.stage.undecided

    @property
    def in_doubt(self) -> bool:
        """Whether the person has to look at it: it cannot be accepted as sure."""
        return self.undecided and not self.sure
