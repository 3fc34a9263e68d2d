"""Titles on edges, and what stands beside them."""

from __future__ import annotations

from enum import StrEnum

from engine.model.base import NoHex, Value, make_plain
from engine.model.text import FontRef


class End(StrEnum):
    """An end of an edge, by the way its title is read."""

    HEAD = "head"
    """Where the title begins."""
    FOOT = "foot"
    """Where it ends."""


class Furniture(Value, frozen=True):
    """The room kept on an edge beside its title, in mm along the line."""

    mark: float = 0.0
    """For a series mark, a shelf number, a year or a symbol; 0 for none."""
    mark_end: End = End.FOOT
    mark_across: bool = False
    """The mark stands upright on a turned spine: it also shows which way is up."""
    stripe: float = 0.0
    """For a stripe of colour right at the edge's end; 0 for none."""
    stripe_end: End = End.HEAD
    sign: float = 0.0
    """For the second sign of a group, where the title begins, after a stripe; 0 for none."""


class Logo(Value, frozen=True):
    """A picture of the title on an edge."""

    picture: str
    """A name in the collection's ``pictures/``."""
    shape: float
    """Its width over its height."""
    beside: bool = False
    """It stands in the room kept for a mark, the title beside it; else it is the title."""
    share: float = 0.0
    """The part of its height that its letters take, where a person measured it; else 0."""


class EdgeTitle(Value, frozen=True):
    """How the title is set on one edge, and what stands beside it."""

    panel: str
    lines: tuple[str, ...]
    """None where a logo is the title."""
    size: float
    """Type size in points."""
    width: float = 1.0
    """How far the type is condensed; 1 is its natural width."""
    font: FontRef | None = None
    """Its path is a name in the collection's ``fonts/``; None is the font that ships."""
    upright: bool = False
    """Ideographs and kana stand upright, one below the other."""
    furniture: Furniture = Furniture()
    mark: str = ""
    """What stands in the mark's room."""
    stripe: NoHex = ""
    """The stripe's colour, ``#rrggbb``."""
    logo: Logo | None = None
    stand_ins: tuple[FontRef, ...] = ()
    """Fonts for the characters that ``font`` and the one that ships lack, to be asked in turn.
    Kept in the collection once the title is accepted; no other font is asked then."""

    def __post_init__(self) -> None:
        make_plain(self, "lines", "mark")
