"""The insert laid flat: what is drawn, cut, scored and ganged."""

from __future__ import annotations

from typing import Annotated

import msgspec

from engine.cases.model import Role, Side, Spine
from engine.cases.rings import Ring, grown
from engine.model import Rect, Size, Value
from engine.model.errors import CaseError
from engine.model.units import DEGREES, MM, SPREAD, Mm, rounded

_TOUCHING = 1e-6


class FlatPanel(Value, frozen=True):
    """A panel on the flat net."""

    name: str
    role: Role
    part: str
    """Which part of a flat cover scan it takes: front, spine, back, or none."""
    rect: Annotated[Rect, SPREAD]
    """In the net's frame, before any notch."""
    turn: Annotated[int, DEGREES]
    """Degrees counter-clockwise (0, 90, 180, 270) by which its reading frame is turned on
    the flat net, so that it reads upright to the person."""
    runs: Spine | None = None
    """Which way its title runs, for an edge that stands taller than wide before the person;
    None where it reads level."""

    @property
    def reading(self) -> Size:
        """Width and height as it is read."""
        if self.turn % 180:
            return Size(self.rect.height, self.rect.width)
        return Size(self.rect.width, self.rect.height)


class FlatScore(Value, frozen=True):
    """A score on the flat net, from one end to the other."""

    x1: Mm
    y1: Mm
    x2: Mm
    y2: Mm
    angle: Annotated[float, DEGREES]
    """How far it is folded, in degrees, away from the printed face; negative towards it."""

    @property
    def upright(self) -> bool:
        """Whether it runs up the net rather than across it."""
        return abs(self.x1 - self.x2) < abs(self.y1 - self.y2)


class FlatNet(Value, frozen=True):
    """An insert laid flat, printed face up; the origin is the lower left of its bounding box."""

    kind: str
    """The id of its case kind."""
    size: Annotated[Size, MM] = msgspec.field(name="footprint")
    """The bounding box of the finished insert: its footprint."""
    panels: tuple[FlatPanel, ...]
    """The main art panel is the first among the art."""
    scores: tuple[FlatScore, ...]
    notches: Annotated[tuple[Ring, ...], rounded(3)]
    """What is cut out of the panels, in the net's frame."""
    dieline: Annotated[tuple[Ring, ...], rounded(3)]
    """Where it is cut."""

    @property
    def art(self) -> tuple[FlatPanel, ...]:
        """The art panels, the main one first; none of a mere label."""
        return tuple(panel for panel in self.panels if panel.role is Role.ART)

    def panel(self, name: str) -> FlatPanel:
        """Return the panel of that name. Raises CaseError if there is none."""
        for panel in self.panels:
            if panel.name == name:
                return panel
        have = ", ".join(p.name for p in self.panels)
        raise CaseError(self.kind, f'no panel "{name}"', f"Its panels are {have}")

    def bleed(self, by: float) -> tuple[Ring, ...]:
        """Return the dieline grown outwards by ``by`` mm, with mitred corners."""
        return grown(self.dieline, by)

    def cut_sides(self, name: str) -> frozenset[Side]:
        """Return the sides of a panel's rectangle that meet a cut, wholly or in part.

        The others are scored from end to end. Raises CaseError if there is no such panel.
        """
        rect = self.panel(name).rect
        return frozenset(side for side in Side if not self._scored(rect, side))

    def _scored(self, rect: Rect, side: Side) -> bool:
        start, end = ends(rect, side)
        return any(_covers(score, start, end) for score in self.scores)


def ends(rect: Rect, side: Side) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the two ends of a side of a rectangle, the left or lower one first."""
    right, top = rect.x + rect.width, rect.y + rect.height
    return {
        Side.LEFT: ((rect.x, rect.y), (rect.x, top)),
        Side.RIGHT: ((right, rect.y), (right, top)),
        Side.BOTTOM: ((rect.x, rect.y), (right, rect.y)),
        Side.TOP: ((rect.x, top), (right, top)),
    }[side]


def _covers(score: FlatScore, start: tuple[float, float], end: tuple[float, float]) -> bool:
    """Whether a score runs along the whole of the segment from ``start`` to ``end``."""
    a, b = (score.x1, score.y1), (score.x2, score.y2)
    along = 1 if abs(start[0] - end[0]) < _TOUCHING else 0
    across = 1 - along
    if max(abs(a[across] - start[across]), abs(b[across] - start[across])) > _TOUCHING:
        return False
    low, high = sorted((a[along], b[along]))
    return low - _TOUCHING <= start[along] and end[along] <= high + _TOUCHING
