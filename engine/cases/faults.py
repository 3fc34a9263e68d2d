"""What makes a case kind unusable, each fault with the place it sits at."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from engine.cases.lines import Place
from engine.cases.model import CaseKind, Length, Panel
from engine.model.errors import CaseError

_ANGLES = (90, 180, -90, -180)
_LONGEST = 2000.0


class NetError(CaseError):
    """A net that cannot be cut or folded; it knows which panels are to blame."""

    def __init__(self, kind: str, panels: tuple[str, ...], what: str, mend: str) -> None:
        """Keep the ``panels`` beside what a CaseError carries."""
        super().__init__(kind, what, mend)
        self.panels = panels


class Fault(NamedTuple):
    """Something wrong with a case kind."""

    path: Place
    """Where, as in its file: ("panels", 1, "width")."""
    what: str
    mend: str = ""


def faults(kind: CaseKind) -> Iterator[Fault]:
    """Yield what is wrong with a kind, as far as it shows before its net is laid out."""
    yield from _measures(kind)
    yield from _tree(kind)
    for index, panel in enumerate(kind.panels):
        yield from _panel(kind, index, panel)
    yield from _named(kind)
    yield from _shapes(kind)


def _measures(kind: CaseKind) -> Iterator[Fault]:
    for measure in kind.measures:
        if problem := _length_fault(measure.value):
            yield Fault((kind.fits.value, measure.name), problem, "Give it in mm, above 0")
    for name in ("width", "height", "depth") if kind.outside else ():
        if problem := _length_fault(getattr(kind.outside, name)):
            yield Fault(("outside", name), problem, "Give it in mm, above 0")
    for name in ("clearance", "measured_on"):
        value = getattr(kind, name)
        if not math.isfinite(value) or value < 0:
            yield Fault((name,), f"{value:g} is negative", "Give it in mm, 0 or more")


def _tree(kind: CaseKind) -> Iterator[Fault]:
    if not kind.name.strip() or not kind.name.isprintable():
        yield Fault(("name",), "is no name", "Say in one line what case it is")
    if not kind.panels:
        yield Fault(("panels",), "there is no panel", "Add one under [[panels]]")
    names = [p.name for p in kind.panels]
    for index, panel in enumerate(kind.panels):
        if Counter(names[:index])[panel.name]:
            yield Fault(("panels", index, "name"), f'"{panel.name}" is taken', "Rename it")
        if panel.on and panel.on not in names:
            have = ", ".join(names)
            yield Fault(
                ("panels", index, "on"), f'there is no panel "{panel.on}"', f"There are {have}"
            )
    roots = [i for i, p in enumerate(kind.panels) if not p.on]
    if len(roots) > 1:
        yield Fault(
            ("panels", roots[1]),
            f'panel "{kind.panels[roots[1]].name}" hangs on nothing',
            'Only one panel is the root: give the others "on" and "side"',
        )
    yield from _cycle(kind)


def _cycle(kind: CaseKind) -> Iterator[Fault]:
    hangs_on = {p.name: p.on for p in kind.panels}
    for index, panel in enumerate(kind.panels):
        seen = [panel.name]
        while (parent := hangs_on.get(seen[-1], "")) and parent not in seen:
            seen.append(parent)
        if parent == panel.name:
            chain = " on ".join(f'"{name}"' for name in [*seen, parent])
            yield Fault(
                ("panels", index, "on"),
                f"the panels hang in a circle: {chain}",
                "One of them must hang on nothing",
            )


def _panel(kind: CaseKind, index: int, panel: Panel) -> Iterator[Fault]:
    at = ("panels", index)
    if panel.on and panel.side is None:
        yield Fault(at, f'panel "{panel.name}" lacks its "side"', f'Say which of "{panel.on}"')
    if panel.side and not panel.on:
        yield Fault((*at, "side"), f'panel "{panel.name}" has a side but hangs on nothing')
    if panel.angle not in _ANGLES:
        yield Fault((*at, "angle"), f"{panel.angle} is no fold", "It is 90 or 180, or negative")
    yield from _place((*at, "offset"), panel.offset)
    for name, length in (("width", panel.width), ("height", panel.height)):
        yield from _side_length(kind, panel, (*at, name), length)
    if not panel.name.strip() or not panel.name.isprintable():
        yield Fault((*at, "name"), "is no name", "Give the panel a word that can be read")


def _side_length(
    kind: CaseKind, panel: Panel, path: Place, length: Length | None
) -> Iterator[Fault]:
    name = str(path[-1])
    if length is None:
        outward = panel.side is not None and panel.side.upright == (name == "width")
        if not panel.on or outward:
            yield Fault(path, f'panel "{panel.name}" lacks its {name}', "Give it in mm")
    elif isinstance(length, str):
        have = [m.name for m in kind.measures]
        if length not in have:
            yield Fault(
                path,
                f'there is no measure "{length}"',
                f"Lengths are plain numbers in mm, or one of {', '.join(have) or 'the measures'}",
            )
    elif problem := _length_fault(length):
        yield Fault(path, problem, "Give it in mm, above 0")


def _place(path: Place, value: float | None) -> Iterator[Fault]:
    if value is not None and not abs(value) <= _LONGEST:
        yield Fault(path, f"{value:g} is no place on a panel", "Give it in mm")


def _length_fault(value: float) -> str:
    if not math.isfinite(value) or value <= 0:
        return f"{value:g} is not a length"
    return f"{value:g} mm is longer than any case" if value > _LONGEST else ""


def _named(kind: CaseKind) -> Iterator[Fault]:
    if kind.front and kind.back:
        yield Fault(("back",), '"front" and "back" are both given', "Keep one of them")
    for key in ("front", "back"):
        name = getattr(kind, key)
        if name and kind.panel(name) is None:
            yield Fault((key,), f'there is no panel "{name}"', "Name one of the panels")


def _shapes(kind: CaseKind) -> Iterator[Fault]:
    for table in ("notches", "tongues", "corners"):
        for index, shape in enumerate(getattr(kind, table)):
            at = (table, index)
            if kind.panel(shape.panel) is None:
                yield Fault((*at, "panel"), f'there is no panel "{shape.panel}"', "Mend its name")
            for key in ("width", "depth", "size"):
                value = getattr(shape, key, None)
                if value is not None and (problem := _length_fault(value)):
                    yield Fault((*at, key), problem, "Give it in mm, above 0")
            yield from _place((*at, "at"), getattr(shape, "at", None))
