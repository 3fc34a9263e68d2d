"""What is said of titles: on one edge, and of a whole shelf."""

from __future__ import annotations

from typing import Annotated

import msgspec

from engine.model import Value
from engine.model.units import DEGREES, SPREAD, Mm, Points


class EdgeReport(Value, frozen=True):
    """The title on one edge, in numbers."""

    panel: str
    lines: tuple[str, ...]
    size: Points
    """In points."""
    cap_height: Mm
    """In mm."""
    reads_at: Mm
    """The farthest distance from which it reads, in mm."""
    turn: Annotated[int, DEGREES]
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


class Help(Value, frozen=True):
    """Something that makes a title read from farther."""

    words: str
    reads_at: Mm
    """The farthest distance from which it would then read, in mm."""
    reaches: bool
    """Whether that is the shelf's distance or more."""


class FarTitle(Value, frozen=True):
    """A title that does not read from the shelf's distance."""

    game: str
    title: str
    case: str
    edge: Annotated[EdgeReport, SPREAD]
    helps: tuple[Help, ...]
    """Best first."""


class EvenReport(Value, frozen=True):
    """The titles on one edge of a case kind, set alike."""

    case: str
    panel: str
    titles: int
    size: Points
    """In points, of all but those set apart."""
    apart: dict[str, str]
    """Why a title is not set like the rest, by game."""


class Legibility(Value, frozen=True):
    """From how far the shelf reads."""

    distance: Mm
    """The shelf's, in mm."""
    titles: int = msgspec.field(name="edges")
    """Edges looked at."""
    short: tuple[FarTitle, ...]
    """Those that do not read from there, the worst first."""
    even: tuple[EvenReport, ...] = ()
    """How even the shelf is; none where each title is as large as it can be."""
    notes: tuple[str, ...] = ()
    """What is wrong with the font, a sentence each."""
