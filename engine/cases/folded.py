"""The folded insert as values: each panel in space, what faces the person, how large it is."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from engine.cases.facing import Stance, facing, stance
from engine.cases.layout import lay_out
from engine.cases.model import CaseKind, Pose, Role
from engine.cases.rings import Ring, rings
from engine.cases.space import Frame, Vector
from engine.model import Rect, Value
from engine.model.errors import CaseError

_TOUCHING = 1e-6


class Box(NamedTuple):
    """The sizes of a body in mm as one looks at its front."""

    width: float
    height: float
    depth: float


class FoldedPanel(Value, frozen=True):
    """A panel in space."""

    name: str
    role: Role
    rect: Rect
    """Where it lies on the flat net."""
    frame: Frame
    """Its lower left corner as on the flat net, and its axes; the normal leaves its printed
    face."""
    outline: tuple[Ring, ...]
    """What is left of it after notches and corners, in mm from its lower left corner."""

    @property
    def corners(self) -> tuple[Vector, Vector, Vector, Vector]:
        """Its corners in space, counter-clockwise from lower left as on the flat net."""
        _, _, width, height = self.rect
        at = self.frame.at
        return at(0, 0), at(width, 0), at(width, height), at(0, height)


class Folded(Value, frozen=True):
    """A net folded. Space is the root panel's own frame on the flat net, z out of its print."""

    kind: str
    caliper: float
    panels: tuple[FoldedPanel, ...]
    facing: tuple[str, ...]
    """The edges that face the person as the case is stored."""
    front: Vector
    """The direction out of the case's front."""
    up: Vector
    """The direction to its head."""

    def panel(self, name: str) -> FoldedPanel:
        """Return the panel of that name. Raises CaseError if there is none."""
        for panel in self.panels:
            if panel.name == name:
                return panel
        have = ", ".join(p.name for p in self.panels)
        raise CaseError(self.kind, f'no panel "{name}"', f"Its panels are {have}")

    @property
    def outside(self) -> Box:
        """Its sizes over the outer skins of the paper: what has to go into the case."""
        return self._box(self.caliper / 2)

    @property
    def inside(self) -> Box:
        """Its sizes between the inner skins of the paper: what it goes round."""
        return self._box(-self.caliper / 2)

    def _box(self, skin: float) -> Box:
        right = Stance(self.front, self.up).right
        return Box(*(self._extent(axis, skin) for axis in (right, self.up, self.front)))

    def _extent(self, axis: Vector, skin: float) -> float:
        """Return how far the panels reach along an axis, with ``skin`` at each end in paper."""
        spots = [axis.dot(corner) for panel in self.panels for corner in panel.corners]
        low, high = min(spots), max(spots)
        if high - low < _TOUCHING:
            return max(0.0, 2 * skin)
        levels = [
            axis.dot(panel.frame.origin)
            for panel in self.panels
            if abs(axis.dot(panel.frame.normal)) > 0.5
        ]
        return high - low + skin * (_reached(levels, low) + _reached(levels, high))


def fold(
    kind: CaseKind,
    caliper: float,
    *,
    pose: Pose | None = None,
    left_out: frozenset[str] = frozenset(),
) -> Folded:
    """Return the insert folded, of stock of a caliper in mm, by its neutral lines.

    Panels and pieces come at their places in the case. Raises CaseError as ``flatten`` does.
    """
    from shapely.affinity import translate

    laid = lay_out(kind, caliper, left_out)
    held = stance(kind, laid.frames)
    return Folded(
        kind=kind.id,
        caliper=caliper,
        panels=tuple(
            FoldedPanel(
                panel.name,
                panel.role,
                rect := laid.rects[panel.name],
                laid.frames[panel.name],
                rings(translate(laid.shapes[panel.name], -rect.x, -rect.y)),
            )
            for panel in kind.panels
            if panel.name in laid.kept
        ),
        facing=facing(kind, laid.frames, laid.kept, pose or kind.pose),
        front=held.front,
        up=held.up,
    )


def _reached(levels: Iterable[float], end: float) -> bool:
    return any(abs(level - end) < _TOUCHING for level in levels)
