"""The folded insert seen at a slant, as plain numbers.

An isometric view (ISO 5456-3, from memory): the three axes of the case stand 120 degrees
apart and lengths along them are drawn true.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

from engine.cases.facing import Stance
from engine.cases.folded import Folded, FoldedPanel
from engine.cases.model import Role
from engine.cases.rings import Ring
from engine.cases.space import Vector
from engine.model import Size, Value

Affine = tuple[float, float, float, float, float, float]
"""(a, b, c, d, e, f): x, y goes to a x + c y + e, b x + d y + f, as ISO 32000-1 has it."""


_TOUCHING = 1e-6


class Facet(Value, frozen=True):
    """A panel in the picture."""

    panel: str
    role: Role
    printed: bool
    """Whether its printed face is seen, or its plain back."""
    outline: tuple[Ring, ...]
    """In mm of the picture; outer ones counter-clockwise, holes clockwise."""
    place: Affine
    """Takes the flat net, in mm, to the picture."""


class View(Value, frozen=True):
    """A picture of a folded insert; the origin is its lower left, y grows upwards."""

    size: Size
    """In mm at the size of the insert."""
    facets: tuple[Facet, ...]
    """From the farthest to the nearest: drawn in this order, they cover each other rightly."""
    towards: Vector
    """The direction to the eye in the folded insert's space, of length 1."""


class _Eye(NamedTuple):
    """Where the picture is looked at from, and its own axes."""

    towards: Vector
    right: Vector
    up: Vector


def isometric(folded: Folded) -> View:
    """Return a folded insert as it looks from where most of its print is in sight."""
    eye = _eye(folded)
    facets = [_facet(panel, eye) for panel in _far_to_near(folded.panels, eye)]
    spots = [spot for facet in facets for ring in facet.outline for spot in ring]
    left, foot = min(x for x, _ in spots), min(y for _, y in spots)
    return View(
        size=Size(max(x for x, _ in spots) - left, max(y for _, y in spots) - foot),
        facets=tuple(_moved(facet, -left, -foot) for facet in facets),
        towards=eye.towards,
    )


def _eye(folded: Folded) -> _Eye:
    held = Stance(folded.front, folded.up)
    front = _fuller(folded, held.front, 1)
    side = _fuller(folded, held.right, -1)
    over = _fuller(folded, held.up, 1)
    towards = front.plus(side).plus(over).scaled(1 / math.sqrt(3))
    # The picture's own up is the case's head, seen along the line of sight; drawn by the
    # square root of 3/2 too large, lengths along the axes of the case come out true.
    grown = math.sqrt(3 / 2)
    lean = held.up.plus(towards, -held.up.dot(towards))
    up = lean.scaled(1 / math.sqrt(lean.dot(lean)))
    return _Eye(towards, up.cross(towards).scaled(grown), up.scaled(grown))


def _fuller(folded: Folded, axis: Vector, usual: int) -> Vector:
    """Return the end of an axis at which more print is seen; the usual one between equals."""
    ahead = sum(
        panel.rect.width * panel.rect.height * axis.dot(panel.frame.normal)
        for panel in folded.panels
        if panel.role is not Role.BLANK
    )
    return axis.scaled(usual if abs(ahead) < 1e-9 else math.copysign(1, ahead))


def _facet(panel: FoldedPanel, eye: _Eye) -> Facet:
    frame, rect = panel.frame, panel.rect
    a, b = frame.right.dot(eye.right), frame.right.dot(eye.up)
    c, d = frame.up.dot(eye.right), frame.up.dot(eye.up)
    e, f = frame.origin.dot(eye.right), frame.origin.dot(eye.up)
    place = (a, b, c, d, e - a * rect.x - c * rect.y, f - b * rect.x - d * rect.y)
    printed = frame.normal.dot(eye.towards) > 0
    outline = [
        tuple((a * x + c * y + e, b * x + d * y + f) for x, y in ring) for ring in panel.outline
    ]
    if not printed:  # seen from behind, what ran counter-clockwise runs clockwise
        outline = [ring[::-1] for ring in outline]
    return Facet(panel.name, panel.role, printed, tuple(outline), place)


def _moved(facet: Facet, x: float, y: float) -> Facet:
    a, b, c, d, e, f = facet.place
    return Facet(
        panel=facet.panel,
        role=facet.role,
        printed=facet.printed,
        outline=tuple(tuple((u + x, v + y) for u, v in ring) for ring in facet.outline),
        place=(a, b, c, d, e + x, f + y),
    )


def _far_to_near(panels: Iterable[FoldedPanel], eye: _Eye) -> list[FoldedPanel]:
    """Return the panels so that none is drawn after one that stands before it."""
    left = sorted(panels, key=lambda panel: _depth(panel, eye))
    drawn: list[FoldedPanel] = []
    while left:
        behind = next(
            (p for p in left if not any(_hides(p, other, eye) for other in left if other != p)),
            left[0],
        )
        left.remove(behind)
        drawn.append(behind)
    return drawn


def _depth(panel: FoldedPanel, eye: _Eye) -> float:
    return sum(eye.towards.dot(corner) for corner in panel.corners) / 4


def _hides(near: FoldedPanel, far: FoldedPanel, eye: _Eye) -> bool:
    """Whether one panel may cover the other.

    Panels never pass through each other, so one of two lies on one side of the other's plane.
    """
    return _ahead_of(near, far, eye) and not _ahead_of(far, near, eye)


def _ahead_of(near: FoldedPanel, far: FoldedPanel, eye: _Eye) -> bool:
    """Whether one panel lies wholly on the eye's side of the other's plane."""
    sight = far.frame.normal
    if sight.dot(eye.towards) < 0:
        sight = sight.scaled(-1)
    heights = [sight.dot(corner.plus(far.frame.origin, -1)) for corner in near.corners]
    return min(heights) > -_TOUCHING and max(heights) > _TOUCHING
