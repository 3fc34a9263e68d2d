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
    return _order(tuple(kept), Size(forme.stock.width, forme.stock.height), forme.kerf)


@lru_cache(maxsize=64)
def _order(kept: tuple[Rect, ...], stock: Size, kerf: float) -> CutOrder | None:
    try:
        return cut_order(kept, stock, kerf=kerf)
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
    same = before is not None and (cut.fence, cut.distance) == (before.fence, before.distance)
    edge = "as before" if same else f"{cut.fence.value} edge at the fence, {cut.distance:.1f} mm"
    tick = ", by the tick" if cut.by_tick else ""
    freed = ", ".join(f"{place + 1}" for place in cut.frees)
    return f"{edge}{tick}" + (f"; frees {freed}" if freed else "")
