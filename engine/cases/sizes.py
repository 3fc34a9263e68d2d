"""How large each panel is cut: what was measured, less the clearance, and the paper's part.

The caliper rule (derived from the neutral line of bent paper; docs/cases/caliper.md): the
neutral line runs in the middle of the paper, so at every score a panel meets the corner of
the case half a caliper short of it inside an opening, half a caliper beyond it round a
body. A panel of an opening Y between two scores is Y - t, round a body X it is X + t;
a side that is cut instead of scored adds nothing.
"""

from __future__ import annotations

from collections.abc import Mapping

from engine.cases.faults import NetError
from engine.cases.model import CaseKind, Fits, Length, Panel
from engine.model import Size

Kept = frozenset[str]
"""The names of the panels that are not left out."""


def panel_sizes(kind: CaseKind, caliper: float, kept: Kept) -> dict[str, Size]:
    """Return the size in mm of every panel of a kind on stock of a caliper in mm.

    Panels that are left out are sized too, as their neighbours may take a side from them;
    a fold to or from one of them does not count. Raises NetError where nothing is left of
    a panel.
    """
    sizes: dict[str, Size] = {}
    for panel in walk(kind):
        sizes[panel.name] = _size(kind, panel, caliper, kept, sizes)
    return sizes


def walk(kind: CaseKind) -> tuple[Panel, ...]:
    """Return the panels from the root outwards, each after the one it is attached to."""
    found = [kind.root]
    for panel in found:
        found.extend(kind.children(panel.name))
    return tuple(found)


def is_scored(panel: Panel, kept: Kept) -> bool:
    """Whether the panel hangs by a score from the one it is attached to."""
    return bool(panel.on) and not panel.apart and {panel.name, panel.on} <= kept


def allowance(kind: CaseKind, caliper: float, scores: int) -> float:
    """Return what a measure between that many scores (0 to 2) changes by, in mm."""
    outwards = kind.clearance + scores * (caliper - kind.measured_on) / 2
    return outwards if kind.fits is Fits.AROUND else -outwards


def _size(
    kind: CaseKind, panel: Panel, caliper: float, kept: Kept, sizes: Mapping[str, Size]
) -> Size:
    upright, level = _scores(kind, panel, kept)
    side = sizes.get(panel.on, Size(0.0, 0.0))
    size = Size(
        _length(kind, panel.width, allowance(kind, caliper, upright), side.width),
        _length(kind, panel.height, allowance(kind, caliper, level), side.height),
    )
    if min(size) <= 0:
        raise NetError(
            kind.id,
            (panel.name,),
            f'nothing is left of panel "{panel.name}" after clearance and folds',
            "Measure it again, or lower the clearance",
        )
    return size


def _length(kind: CaseKind, length: Length | None, change: float, side: float) -> float:
    return side if length is None else kind.measure(length) + change


def _scores(kind: CaseKind, panel: Panel, kept: Kept) -> tuple[int, int]:
    """Return how many of a panel's upright and of its level sides are scored."""
    sides = {c.side for c in kind.children(panel.name) if is_scored(c, kept)}
    if panel.side and is_scored(panel, kept):
        sides.add(panel.side.opposite)
    upright = sum(1 for side in sides if side and side.upright)
    return upright, len(sides) - upright
