"""A game and its design as it would be printed now."""

from __future__ import annotations

from engine.values import (
    Decision,
    Design,
    Fit,
    Loss,
    Stage,
    Trim,
    Value,
)


class ArtReport(Value, frozen=True):
    """The art of a game's insert, in numbers and in words."""

    source: str | None
    """The file name it came with; None is plain."""
    confidence: float
    """That this picture is this game's: 0 to 1."""
    fit: Fit
    loss: Loss
    ppi: float
    """Pixels to the inch as printed, the lower of both directions; 0 for plain."""
    words: str
    """'crops 11 % left and right'."""
    trim: Trim = Trim()
    split: tuple[float, float] | None = None
    warnings: tuple[str, ...] = ()
    """What may disappoint in print, a sentence each."""


class EdgeReport(Value, frozen=True):
    """The title on one edge, in numbers."""

    panel: str
    lines: tuple[str, ...]
    size: float
    """In points."""
    cap_height: float
    """In mm."""
    reads_at: float
    """The farthest distance from which it reads, in mm."""
    turn: int
    """Degrees counter-clockwise of its baseline on the flat net."""
    steps: tuple[str, ...] = ()
    """How the title was abridged, a phrase each: 'ampersand: Salt and Moss became Salt & Moss'."""
    notes: tuple[str, ...] = ()
    """What sets it apart or is wrong with it, a phrase each: 'set smaller, at 6.5 pt'."""
    width: float = 1.0
    """How far the type is condensed; 1 is not at all."""
    upright: bool = False
    """Characters stand one below the other."""
    mark: str = ""
    stripe: str = ""
    """The stripe's colour, ``#rrggbb``; empty for none."""
    logo: str = ""
    """What a logo shows: 'logo' or 'logo and title'; empty for none."""
    reaches: bool = True
    """Whether it reads from the shelf's distance."""


class Wording(Value, frozen=True):
    """A title as it can be worded, whole or abridged."""

    text: str
    steps: tuple[str, ...] = ()
    """How it was abridged, a phrase each; none where it is the whole title."""
    now: bool = False
    """It is what the edges show."""


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


class LogoReport(Value, frozen=True):
    """What came of a logo on the edges of a game."""

    proposal: Proposal
    words: tuple[str, ...]
    """How high its letters are on each edge and what was made of it, a sentence each."""


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
