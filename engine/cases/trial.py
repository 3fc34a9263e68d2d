"""The trial cut: scales to hold against the case, and the kind corrected by what was read."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal, NamedTuple

import msgspec

from engine.cases.model import CaseKind, Measure, Panel, Side
from engine.cases.net import FlatNet, ends
from engine.model import Value
from engine.model.errors import CaseError

Dimension = Literal["width", "height"]

BEYOND = 5
"""Scales run on by this many mm past a corner that is cut, to read what is too short."""


class Mark(NamedTuple):
    """A line of a scale, in the net's frame, from the side into the panel."""

    x1: float
    y1: float
    x2: float
    y2: float
    mm: int
    """How far from the left or lower end of the side it stands."""


class Scale(Value, frozen=True):
    """Millimetres along a side of a panel that is cut, from its left or lower end."""

    panel: str
    side: Side
    dimension: Dimension
    """What is read on it."""
    length: float
    marks: tuple[Mark, ...]
    """One for each mm, longer at fives and tens."""


class Misfit(NamedTuple):
    """A side of a panel that did not fit."""

    panel: str
    dimension: Dimension
    """Width is left to right on the flat net, height bottom to top."""
    by: float
    """How many mm too long it was; negative for too short."""


def scales(net: FlatNet) -> tuple[Scale, ...]:
    """Return a scale for every side of every panel that meets a cut."""
    return tuple(
        _scale(net, panel.name, side)
        for panel in net.panels
        for side in Side
        if side in net.cut_sides(panel.name)
    )


def correct(kind: CaseKind, misfits: Sequence[Misfit]) -> CaseKind:
    """Return a kind whose panels are that much shorter or longer.

    A side that a panel takes from the one it hangs on is corrected there, and a measure
    that several panels use only where all of them were off by the same; else the panel
    gets a length of its own. Raises CaseError for an unknown panel, where two of the
    misfits contradict each other, and where nothing would be left.
    """
    changes: dict[tuple[str, Dimension], float] = {}
    for misfit in misfits:
        owner = _owner(kind, misfit)
        if changes.setdefault((owner.name, misfit.dimension), misfit.by) != misfit.by:
            raise CaseError(
                kind.id,
                f'"{misfit.panel}" and "{owner.name}" share one {misfit.dimension}, '
                "but were given two corrections",
                "Give the one that matters",
            )
    changes = {place: by for place, by in changes.items() if by}
    if not changes:
        return kind
    return _noted(_corrected(kind, changes), changes)


def _corrected(kind: CaseKind, changes: dict[tuple[str, Dimension], float]) -> CaseKind:
    measures = {m.name: m.value for m in kind.measures}
    panels = {p.name: p for p in kind.panels}
    for name, length in list(measures.items()):
        users = _users(kind, name)
        by = {changes.get(place) for place in users}
        if len(by) == 1 and (change := by.pop()) is not None:
            measures[name] = _left(kind, users[0][0], length, change)
            changes = {place: by for place, by in changes.items() if place not in users}
    for (name, dimension), change in changes.items():
        length = kind.measure(getattr(panels[name], dimension))
        panels[name] = msgspec.structs.replace(
            panels[name], **{dimension: _left(kind, name, length, change)}
        )
    return msgspec.structs.replace(
        kind,
        measures=tuple(Measure(name, value) for name, value in measures.items()),
        panels=tuple(panels.values()),
    )


def _left(kind: CaseKind, panel: str, length: float, change: float) -> float:
    left = round(length - change, 3)
    if left <= 0:
        raise CaseError(
            kind.id,
            f'{change:g} mm taken off panel "{panel}" leaves nothing of its {length:g} mm',
            "Give what it was too long by",
        )
    return left


def _noted(kind: CaseKind, changes: dict[tuple[str, Dimension], float]) -> CaseKind:
    said = ", ".join(
        f"{panel} {dimension} {abs(by):g} mm {'less' if by > 0 else 'more'}"
        for (panel, dimension), by in changes.items()
    )
    return msgspec.structs.replace(kind, sources=(*kind.sources, f"trial cut: {said}"))


def _owner(kind: CaseKind, misfit: Misfit) -> Panel:
    """Return the panel from which a side takes its length."""
    panel = kind.panel(misfit.panel)
    if panel is None:
        have = ", ".join(p.name for p in kind.panels)
        raise CaseError(kind.id, f'no panel "{misfit.panel}"', f"Its panels are {have}")
    while getattr(panel, misfit.dimension) is None:
        panel = next(p for p in kind.panels if p.name == panel.on)
    return panel


def _users(kind: CaseKind, measure: str) -> list[tuple[str, Dimension]]:
    dimensions: tuple[Dimension, ...] = ("width", "height")
    return [
        (panel.name, dimension)
        for panel in kind.panels
        for dimension in dimensions
        if getattr(panel, dimension) == measure
    ]


def _scale(net: FlatNet, name: str, side: Side) -> Scale:
    (x1, y1), (x2, y2) = ends(net.panel(name).rect, side)
    length = math.hypot(x2 - x1, y2 - y1)
    along = ((x2 - x1) / length, (y2 - y1) / length)
    inward = (-side.outward[0], -side.outward[1])
    open_ends = net.cut_sides(name)
    low, high = (Side.BOTTOM, Side.TOP) if side.upright else (Side.LEFT, Side.RIGHT)
    start = -BEYOND if low in open_ends else 0
    stop = math.floor(length) + (BEYOND if high in open_ends else 0)
    marks = []
    for mm in range(start, stop + 1):
        x, y = x1 + along[0] * mm, y1 + along[1] * mm
        reach = 3.5 if mm % 10 == 0 else 2.5 if mm % 5 == 0 else 1.5
        marks.append(Mark(x, y, x + inward[0] * reach, y + inward[1] * reach, mm))
    return Scale(
        panel=name,
        side=side,
        dimension="height" if side.upright else "width",
        length=length,
        marks=tuple(marks),
    )
