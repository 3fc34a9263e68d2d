"""The slices of a sheet in an order that the trimmer takes.

A slice is what lies between two cuts that cross the whole sheet. One that is narrower than the edge
that a trimmer holds square, as a column of labels, cannot be cut across once it is cut off; at the
outside of the sheet the margin and the spare paper still hang on it and make it broad enough.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

import msgspec

from engine.ganging.cuts import fewest_by_hand
from engine.ganging.inserts import Laid, Layout
from engine.model import Forme, Rect, Size

_NEAR = 1e-6
_Slices = list[list[Laid]]


@lru_cache(maxsize=256)
def for_trimmer(layout: Layout, forme: Forme) -> Layout:
    """Return the layout with its slices so that the fewest cuts are left to a knife.

    As it is where the trimmer takes all of them, or where no other order leaves it fewer.
    """
    least = max(forme.least_distance, forme.least_edge)
    if all(min(one.width, one.height) >= least for one in layout.laid):
        return layout
    best, fewest = layout, _by_hand(layout, forme)
    for other in _others(layout, forme) if fewest else ():
        found = _by_hand(other, forme)
        if fewest and found is not None and found < fewest:
            best, fewest = other, found
    return best


def _by_hand(layout: Layout, forme: Forme) -> int | None:
    rects = (Rect(one.x, one.y, one.width, one.height) for one in layout.laid)
    return _fewest(tuple(rects), forme)


@lru_cache(maxsize=256)
def _fewest(rects: tuple[Rect, ...], forme: Forme) -> int | None:
    """Return the same for sheets alike, whatever games are on them."""
    return fewest_by_hand(
        rects,
        Size(forme.stock.width, forme.stock.height),
        kerf=forme.kerf,
        distance=forme.least_distance,
        edge=forme.least_edge,
    )


def _others(layout: Layout, forme: Forme) -> Iterator[Layout]:
    """Yield the layout with each narrow slice at either end, the spare paper outside of it."""
    for axis in (0, 1):
        slices = _slices(layout.laid, axis)
        spare = forme.field[axis + 2] - _length(slices, axis, forme.gutter)
        for place, one in enumerate(slices):
            if _breadth(one, axis) < forme.least_edge:
                rest = [*slices[:place], *slices[place + 1 :]]
                yield _laid([one, *rest], axis, forme, spare, layout)
                yield _laid([*rest, one], axis, forme, 0.0, layout)


def _slices(laid: Sequence[Laid], axis: int) -> _Slices:
    """Return the inserts by slice, from the left or from below."""
    found: _Slices = []
    end = 0.0
    for one in sorted(laid, key=lambda one: _span(one, axis)):
        low, high = _span(one, axis)
        if found and low < end - _NEAR:
            found[-1].append(one)
        else:
            found.append([one])
        end = max(end, high)
    return found


def _laid(slices: _Slices, axis: int, forme: Forme, spare: float, layout: Layout) -> Layout:
    """Return slices one after the other, ``spare`` mm before the first."""
    at, moved = forme.field[axis] + spare, []
    for one in slices:
        by = at - _span(one[0], axis)[0]
        moved += [
            each._replace(x=each.x + by) if axis == 0 else each._replace(y=each.y + by)
            for each in one
        ]
        at += _breadth(one, axis) + forme.gutter
    return msgspec.structs.replace(layout, laid=tuple(moved))


def _length(slices: _Slices, axis: int, gutter: float) -> float:
    return sum(_breadth(one, axis) + gutter for one in slices) - gutter


def _breadth(one: Sequence[Laid], axis: int) -> float:
    return max(_span(each, axis)[1] for each in one) - _span(one[0], axis)[0]


def _span(one: Laid, axis: int) -> tuple[float, float]:
    return (one.x, one.x + one.width) if axis == 0 else (one.y, one.y + one.height)
