"""What a case kind is: what was measured, the panels of its insert, and how they join.

A case kind is data: one TOML file. The panels form a tree: one root, every other panel
attached to a side of another by a score. Everything else (the flat net, the dieline, the
folded shape, which way its text runs) is computed from it.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Literal

from engine.model import PictureRole, Value


class Role(StrEnum):
    """What a panel shows."""

    ART = "art"
    EDGE = "edge"
    """Names the game: a spine, or a flap over an edge of the case."""
    BLANK = "blank"


class Pose(StrEnum):
    """How the cases are stored."""

    SHELF = "shelf"
    """Upright, spine out."""
    DRAWER = "drawer"
    """Standing in a box or drawer, seen from above, front towards the person."""
    STACK = "stack"
    """Lying face up, seen from the side."""


class Spine(StrEnum):
    """Which way a title runs along an edge that stands upright before the person."""

    DESCENDING = "descending"
    """From top to bottom: reads upright when the case lies face up."""
    ASCENDING = "ascending"
    """From bottom to top: reads upright when the case lies face down."""


class Side(StrEnum):
    """A side of a panel as it lies on the flat net, printed face up."""

    LEFT = "left"
    BOTTOM = "bottom"
    RIGHT = "right"
    TOP = "top"

    @property
    def opposite(self) -> Side:
        """The side across."""
        return _OPPOSITE[self]

    @property
    def upright(self) -> bool:
        """Whether the side runs up and down the net."""
        return self in (Side.LEFT, Side.RIGHT)

    @property
    def outward(self) -> tuple[int, int]:
        """The unit vector on the flat net that points out of the panel across this side."""
        return _OUTWARD[self]


_OPPOSITE = {
    Side.LEFT: Side.RIGHT,
    Side.RIGHT: Side.LEFT,
    Side.BOTTOM: Side.TOP,
    Side.TOP: Side.BOTTOM,
}
_OUTWARD = {
    Side.LEFT: (-1, 0),
    Side.RIGHT: (1, 0),
    Side.BOTTOM: (0, -1),
    Side.TOP: (0, 1),
}


class Fits(StrEnum):
    """Which way the thickness of the paper counts."""

    INSIDE = "inside"
    """The insert goes into an opening: its outer skin meets the case."""
    AROUND = "around"
    """The insert wraps round a body: its inner skin meets the case."""


class Measure(Value, frozen=True):
    """A length measured on the case, in mm, by the name that panels use for it."""

    name: str
    value: float


Length = float | str
"""A length in mm, or the name of a measure."""


class Panel(Value, frozen=True):
    """A flat rectangle of the net."""

    name: str
    role: Role
    part: Literal["front", "spine", "back", ""] = ""
    """Which part of a flat cover scan it takes."""
    takes: tuple[PictureRole, ...] = ()
    """The sides of a game that it may show, the first that there is; empty for the usual ones of
    its part, ``cases.taking.USUAL``."""
    on: str = ""
    """The panel it is attached to; empty for the root."""
    side: Side | None = None
    """The side of that panel at which it is attached."""
    angle: int = 90
    """How far it is folded, in degrees: 90 or 180, away from the printed face; negative
    folds towards it."""
    width: Length | None = None
    """Left to right on the flat net; by default as wide as the side it is attached to."""
    height: Length | None = None
    """Bottom to top on the flat net; by default as high as the side it is attached to."""
    offset: float | None = None
    """From the left or lower end of the side it is attached to; by default centred."""
    apart: bool = False
    """A piece of its own: cut where it would be scored, at its place in the case all the same."""


class Notch(Value, frozen=True):
    """A cut into a panel from one of its sides: room for a clip, a hinge, a finger."""

    panel: str
    side: Side
    width: float
    """Along the side."""
    depth: float
    """Into the panel."""
    at: float | None = None
    """Its middle, from the left or lower end of the side; by default the side's middle."""
    shape: Literal["rectangle", "round", "wedge"] = "rectangle"
    """Square-cornered; half an ellipse; or a triangle with its point inwards."""


class Tongue(Value, frozen=True):
    """A tab that stands out from a side of a panel, in the panel's own plane."""

    panel: str
    side: Side
    width: float
    """Along the side, at its root."""
    depth: float
    """Out of the panel."""
    at: float | None = None
    """Its middle, from the left or lower end of the side; by default the side's middle."""
    shape: Literal["rectangle", "round", "wedge"] = "rectangle"
    """Square-cornered; half an ellipse; or tapered by its own depth at both ends."""


class Corner(Value, frozen=True):
    """A corner of a panel taken off."""

    panel: str
    corner: Literal["bottom left", "bottom right", "top right", "top left", "all"]
    """'all' takes the corners at which no score ends."""
    size: float
    """The radius, or how much a bevel takes of both sides, in mm."""
    shape: Literal["round", "bevel"] = "round"


class Outside(Value, frozen=True):
    """A closed case over all, in mm, as one looks at its front."""

    width: float
    height: float
    depth: float


class CaseKind(Value, frozen=True):
    """A physical case and the net of the insert that goes in it. Lengths in mm."""

    id: str
    """Its file name without ``.toml``."""
    name: str
    measures: tuple[Measure, ...]
    panels: tuple[Panel, ...]
    fits: Fits = Fits.INSIDE
    clearance: float = 0.0
    """Taken off every measure (added, for a wrap), all told, so that the paper goes in."""
    measured_on: float = 0.0
    """The caliper of the paper that was measured, where a finished insert was; 0 for the
    measures of the case itself."""
    front: str = ""
    """The panel that is the case's front, or ..."""
    back: str = ""
    """... the one that is its back. Neither: the first art panel is the front."""
    up: Side = Side.TOP
    """The side of the root panel that is up when the case stands upright."""
    pose: Pose = Pose.SHELF
    grain: bool = False
    """Rotation on the sheet is not allowed: the folds must run along the paper's grain."""
    outside: Outside | None = None
    """The closed case over all, for the room that it takes; None where nobody measured it."""
    glued: bool = False
    """The insert is stuck on: it takes adhesive over its whole back."""
    notches: tuple[Notch, ...] = ()
    tongues: tuple[Tongue, ...] = ()
    corners: tuple[Corner, ...] = ()
    sources: tuple[str, ...] = ()
    """Where each figure comes from."""
    cautions: tuple[str, ...] = ()
    """What can hurt someone who makes this case ready."""

    def panel(self, name: str) -> Panel | None:
        """Return the panel of that name, or None."""
        return next((p for p in self.panels if p.name == name), None)

    @property
    def root(self) -> Panel:
        """The panel from which the others hang."""
        return next(p for p in self.panels if not p.on)

    def children(self, name: str) -> tuple[Panel, ...]:
        """Return the panels attached to the panel of that name."""
        return tuple(p for p in self.panels if p.on == name)

    def measure(self, length: Length) -> float:
        """Return a length in mm. Raises KeyError for the name of no measure."""
        if isinstance(length, str):
            return {m.name: m.value for m in self.measures}[length]
        return length
