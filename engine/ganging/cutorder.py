"""The cut order of a sheet: worked out once for its numbers, its page, the list and the screen."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from engine.ganging import Cut, CutOrder, cut_order
from engine.model import Forme, Placement, Rect, Size
from engine.model.errors import RefusedError


def order_of(
    forme: Forme, placements: Sequence[Placement], strip: Rect | None = None
) -> CutOrder | None:
    """Return the cuts that free what lies on a sheet; None where none from edge to edge do.

    So it may be under the knife rule.
    """
    kept = [Rect(one.x, one.y, one.width, one.height) for one in placements]
    if strip is not None:
        kept.append(strip)
    return _order(tuple(kept), forme)


@lru_cache(maxsize=64)
def _order(kept: tuple[Rect, ...], forme: Forme) -> CutOrder | None:
    try:
        return cut_order(
            kept,
            Size(forme.stock.width, forme.stock.height),
            kerf=forme.kerf,
            distance=forme.least_distance,
            edge=forme.least_edge,
            depth=forme.depth,
        )
    except RefusedError:
        return None


def in_words(order: CutOrder) -> tuple[str, ...]:
    """Return each cut as a person does it: 'left edge at the fence, 105.0 mm, by the tick'."""
    lines: list[str] = []
    before: Cut | None = None
    for cut in order.cuts:
        lines.append(_words(cut, before))
        before = cut
    return tuple(lines)


def _words(cut: Cut, before: Cut | None) -> str:
    if cut.by_hand:
        words = f"by knife along a rule, {cut.distance:.1f} mm from the {cut.fence.value} edge"
    elif before is not None and (cut.fence, cut.distance, False) == (
        before.fence,
        before.distance,
        before.by_hand,
    ):
        words = "as before"
    else:
        words = f"{cut.fence.value} edge at the fence, {cut.distance:.1f} mm"
    if cut.by_tick:
        words += ", by the tick"
    if cut.stacked:
        words += f", {len(cut.pieces)} on each other"
    if cut.frees:
        words += "; frees " + ", ".join(f"{place + 1}" for place in cut.frees)
    return words


def beyond(order: CutOrder, forme: Forme) -> str:
    """Return what of an order the trimmer cannot take, and how to cut it; '' if it takes all."""
    by_hand = [cut for cut in order.cuts if cut.by_hand]
    if not by_hand:
        return ""
    return (
        f"{len(by_hand)} of {len(order.cuts)} cuts are too close for the trimmer "
        f"({forme.least_distance:g} mm at the fence, an edge of {forme.least_edge:g} mm), in any "
        "order: cut them with a knife along a steel rule."
    )
