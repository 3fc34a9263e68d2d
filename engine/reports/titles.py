"""How far the titles of a shelf read."""

from __future__ import annotations

from engine.reports.proposals import EdgeReport
from engine.values import (
    Value,
)


class Help(Value, frozen=True):
    """Something that makes a title read from farther."""

    words: str
    reads_at: float
    """The farthest distance from which it would then read, in mm."""
    reaches: bool
    """Whether that is the shelf's distance or more."""


class FarTitle(Value, frozen=True):
    """A title that does not read from the shelf's distance."""

    game: str
    title: str
    case: str
    edge: EdgeReport
    helps: tuple[Help, ...]
    """Best first."""


class EvenReport(Value, frozen=True):
    """The titles on one edge of a case kind, set alike."""

    case: str
    panel: str
    titles: int
    size: float
    """In points, of all but those set apart."""
    apart: dict[str, str]
    """Why a title is not set like the rest, by game."""


class Legibility(Value, frozen=True):
    """From how far the shelf reads."""

    distance: float
    """The shelf's, in mm."""
    titles: int
    """Edges looked at."""
    short: tuple[FarTitle, ...]
    """Those that do not read from there, the worst first."""
    even: tuple[EvenReport, ...] = ()
    """How even the shelf is; none where each title is as large as it can be."""
    notes: tuple[str, ...] = ()
    """What is wrong with the font, a sentence each."""
