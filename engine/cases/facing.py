"""Which way is up: how each panel's text is turned, from the folded shape and the pose.

Every edge is looked at head on, as the pose shows it, and its text takes one of three
directions of that view: upright, or turned a quarter to the right or to the left where the
edge stands taller than wide. Upside down is not among them, and a fold is a rotation, so
nothing can come out mirrored. See docs/decisions/which-way-is-up.md.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from engine.cases.model import CaseKind, Panel, Pose, Role, Spine
from engine.cases.sizes import walk
from engine.cases.space import Frame, Vector
from engine.model import Size


class Stance(NamedTuple):
    """The case as it is held to look at its front."""

    front: Vector
    """Out of the case's front."""
    up: Vector
    """Towards its head."""

    @property
    def right(self) -> Vector:
        """To the right of someone who looks at the front."""
        return self.up.cross(self.front)


def stance(kind: CaseKind, placed: Mapping[str, Frame]) -> Stance:
    """Return where a kind's front and head point in the folded net's frame.

    A kind without art has its first edge for the spine at the left of an unseen front.
    """
    x, y = kind.up.outward
    base = placed[kind.root.name]
    up = base.right.scaled(x).plus(base.up, y)
    if kind.back:
        return Stance(placed[kind.back].normal.scaled(-1), up)
    front = front_panel(kind)
    if front:
        return Stance(placed[front].normal, up)
    spine = placed[kind.root.name].normal
    return Stance(up.cross(spine), up)


def front_panel(kind: CaseKind) -> str:
    """Return the panel that is a kind's front: the one it names, or its first art panel.

    Empty where it names its back instead, and where there is no art.
    """
    if kind.front or kind.back:
        return kind.front
    return next((p.name for p in walk(kind) if p.role is Role.ART), "")


def turns(
    kind: CaseKind,
    placed: Mapping[str, Frame],
    sizes: Mapping[str, Size],
    pose: Pose,
    spine: Spine,
) -> dict[str, int]:
    """Return by how many degrees counter-clockwise each panel's reading frame is turned."""
    held = stance(kind, placed)
    return {
        panel.name: _turn(placed[panel.name], _text_up(panel, placed, sizes, held, pose, spine))
        for panel in kind.panels
    }


def _text_up(
    panel: Panel,
    placed: Mapping[str, Frame],
    sizes: Mapping[str, Size],
    held: Stance,
    pose: Pose,
    spine: Spine,
) -> Vector:
    frame = placed[panel.name]
    if panel.role is not Role.EDGE:
        return in_hand(frame.normal, held)
    view_up = seen(frame.normal, held, pose)
    if not _is_tall(frame, sizes[panel.name], view_up):
        return view_up
    view_right = view_up.cross(frame.normal)
    return view_right if spine is Spine.DESCENDING else view_right.scaled(-1)


def _is_tall(frame: Frame, size: Size, view_up: Vector) -> bool:
    """Return whether an edge stands taller than wide to someone for whom ``view_up`` is up."""
    sideways = abs(view_up.dot(frame.up)) < 0.5
    return size.width > size.height if sideways else size.height > size.width


def tall_edges(
    kind: CaseKind, placed: Mapping[str, Frame], sizes: Mapping[str, Size], pose: Pose
) -> frozenset[str]:
    """Return the edges that stand taller than wide before the person: their titles are turned."""
    held = stance(kind, placed)
    return frozenset(
        panel.name
        for panel in kind.panels
        if panel.role is Role.EDGE
        and _is_tall(
            placed[panel.name], sizes[panel.name], seen(placed[panel.name].normal, held, pose)
        )
    )


def seen(normal: Vector, held: Stance, pose: Pose) -> Vector:
    """Return what is up to someone who looks at an edge as the pose shows it.

    On a shelf that is the case's head; an edge at head or foot is seen with the case laid
    so that its front is to the right, as a book's is beside its spine. In a drawer up is
    away from the person, whom the front faces. In a stack it is the front.
    """
    across_front = abs(normal.dot(held.front)) > 0.5
    at_head = abs(normal.dot(held.up)) > 0.5
    if across_front:
        return held.up
    match pose:
        case Pose.SHELF:
            return normal.cross(held.front) if at_head else held.up
        case Pose.DRAWER:
            return held.front.scaled(-1)
        case Pose.STACK:
            return held.front


def in_hand(normal: Vector, held: Stance) -> Vector:
    """Return what is up on a panel of a case held upright and turned to it.

    The top is tipped towards the person, the bottom away: both continue the front.
    """
    at_head = normal.dot(held.up)
    if abs(at_head) > 0.5:
        return held.front.scaled(-1 if at_head > 0 else 1)
    return held.up


def _turn(frame: Frame, text_up: Vector) -> int:
    x, y = text_up.dot(frame.right), text_up.dot(frame.up)
    if abs(y) > abs(x):
        return 0 if y > 0 else 180
    return 270 if x > 0 else 90


def facing(
    kind: CaseKind, placed: Mapping[str, Frame], kept: Iterable[str], pose: Pose
) -> tuple[str, ...]:
    """Return the edges that face the person in a pose, in the kind's order.

    The case is put so that one of its edges shows: on a shelf and in a stack the left one
    if it is there, then the right, the head, the foot; in a drawer the head first.
    """
    held = stance(kind, placed)
    left, head = held.right.scaled(-1), held.up
    order = [left, held.right, head, head.scaled(-1), held.front]
    if pose is Pose.DRAWER:
        order = [head, left, held.right, head.scaled(-1), held.front]
    names = set(kept)
    edges = [p.name for p in kind.panels if p.role is Role.EDGE and p.name in names]
    for out in order:
        shown = tuple(name for name in edges if placed[name].normal.dot(out) > 0.5)
        if shown:
            return shown
    return ()
