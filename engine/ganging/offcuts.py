"""Offcuts that a person keeps: each becomes a stock of one sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

import msgspec

from engine.ganging.inserts import Coming, Item, Layout
from engine.ganging.queue import gang
from engine.model import Forme, Rect, Rule, Size, Stock
from engine.model.waiting import Cancel

SMALLEST = Size(88.9, 127.0)
"""The smallest paper that a printer takes, in mm, short side first: the smallest photo paper that
home printers usually feed, 3.5 by 5 inches (common practice, no published source)."""
_NEAR = 1e-6


def offcuts(layout: Layout, forme: Forme, least: Size = SMALLEST) -> tuple[Rect, ...]:
    """Return the blank rectangles of the sheet that are worth keeping, the largest first.

    They lie in the field, clear of every bleed, do not overlap, can be cut out under the
    forme's cutting rule, and no smaller than ``least``.
    """
    bleed = min(forme.bleed, forme.gutter / 2)
    printed = [Rect(one.x, one.y, one.width, one.height).inset(-bleed) for one in layout.laid]
    kept: list[Rect] = []
    while True:
        blank = [
            rect
            for rect in _blank(forme.field, [*printed, *kept], least)
            if forme.rule is Rule.KNIFE or separable([*printed, *kept, rect])
        ]
        if not blank:
            return tuple(kept)
        kept.append(max(blank, key=lambda rect: (rect.width * rect.height, rect)))


def offcut_stock(offcut: Rect, sheet: int, nth: int, stock: Stock) -> Stock:
    """Return the ``nth`` offcut of a sheet as a stock: upright, of the same paper."""
    width, height = sorted((offcut.width, offcut.height))
    return msgspec.structs.replace(
        stock,
        id=f"offcut-{sheet}-{nth}",
        name=f"Offcut of sheet {sheet}, {width:.0f} × {height:.0f} mm",
        width=width,
        height=height,
    )


def gang_offcuts(
    kept: Sequence[Stock],
    queue: Sequence[Item],
    coming: Sequence[Coming],
    forme: Forme,
    *,
    cancel: Cancel | None = None,
) -> tuple[tuple[Stock, Layout], ...]:
    """Return the kept offcuts that ``queue`` fills now, each with its sheet, the smallest first.

    Raises Cancelled when ``cancel`` says so.
    """
    waiting = list(queue)
    found = []
    for stock in sorted(kept, key=lambda one: (one.width * one.height, one.id)):
        on_it = msgspec.structs.replace(forme, stock=stock)
        ready = gang(waiting, coming, on_it, cancel=cancel).ready
        if ready:
            found.append((stock, ready[0]))
            used = {laid.key for laid in ready[0].laid}
            waiting = [item for item in waiting if item.key not in used]
    return tuple(found)


def separable(rects: Sequence[Rect]) -> bool:
    """Return whether cuts from edge to edge can free all ``rects``."""
    if len(rects) < 2:
        return True
    for axis in (0, 1):
        for cut in {rect[axis] for rect in rects}:
            first = [rect for rect in rects if rect[axis] + rect[axis + 2] <= cut + _NEAR]
            rest = [rect for rect in rects if rect[axis] >= cut - _NEAR]
            if first and rest and len(first) + len(rest) == len(rects):
                return separable(first) and separable(rest)
    return False


def _blank(field: Rect, taken: Sequence[Rect], least: Size) -> Iterator[Rect]:
    """Yield rectangles of ``field`` between the edges of what is taken, if they can be fed."""
    xs, ys = (_edges(taken, field, axis) for axis in (0, 1))
    for left, right in combinations(xs, 2):
        for bottom, top in combinations(ys, 2):
            rect = Rect(left, bottom, right - left, top - bottom)
            short, long = sorted((rect.width, rect.height))
            fed = short >= least.width - _NEAR and long >= least.height - _NEAR
            if fed and not any(map(rect.overlaps, taken)):
                yield rect


def _edges(taken: Sequence[Rect], field: Rect, axis: int) -> list[float]:
    """Return where an offcut can begin or end: at the field's edges, or beside what is taken."""
    low, high = field[axis], field[axis] + field[axis + 2]
    edges = {rect[axis] for rect in taken} | {rect[axis] + rect[axis + 2] for rect in taken}
    return sorted({low, high, *(edge for edge in edges if low < edge < high)})
