"""What a step of the work did, and where all games stand."""

from __future__ import annotations

from engine.collection import Finding
from engine.model import (
    Stage,
    Value,
)


class Progress(Value, frozen=True):
    """How many games stand at each stage."""

    games: int
    stages: dict[Stage, int]
    reprints: int = 0
    """Games that wait in the queue again because their design changed after printing."""
    notes: tuple[str, ...] = ()
    """What the person should know of the step just taken."""


class IntakeReport(Value, frozen=True):
    """What a list and a folder of pictures brought."""

    added: int
    known: int
    """Games of the list that the collection already had."""
    matched: int
    """Games whose picture was found above the threshold."""
    doubtful: int
    """Games whose picture is to be confirmed."""
    bare: int
    """Games without a picture."""
    notes: tuple[str, ...] = ()
    """Rows and pictures that could not be used, a sentence each."""


class Undecided(Value, frozen=True):
    """A game that was left for the person to decide."""

    game: str
    title: str
    doubts: tuple[str, ...]


class AcceptReport(Value, frozen=True):
    """What accepting did."""

    accepted: tuple[str, ...]
    left: tuple[Undecided, ...]


class Health(Value, frozen=True):
    """The collection's health."""

    findings: tuple[Finding, ...]

    @property
    def ok(self) -> bool:
        """Whether nothing was found."""
        return not self.findings
