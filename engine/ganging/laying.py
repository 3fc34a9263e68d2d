"""The inserts of a sheet laid out once more, in another field or with other gutters."""

from __future__ import annotations

from collections import defaultdict

import msgspec

from engine.ganging.fullness import Problem
from engine.ganging.inserts import LONG_AGO, Item, Layout, field_of, footprint, lay_out
from engine.model import Forme
from engine.packing.rectangles import Footprint


def laid_anew(layout: Layout, forme: Forme) -> Layout | None:
    """Return the inserts of a layout laid out anew; None where they do not fit so.

    Every insert keeps the way it lies round.
    """
    items = [
        Item(f"{n}", one.case, one.width, one.height, turns=False, since=LONG_AGO)
        for n, one in enumerate(layout.laid)
    ]
    sizes = [footprint(item, forme.gutter) for item in items]
    field = field_of(forme)
    if not all(map(field.fits, sizes)) or sum(size.area for size in sizes) > field.area:
        return None
    problem = Problem.of(items, forme)
    lines: dict[Footprint, list[Item]] = defaultdict(list)
    for item, size in zip(items, sizes, strict=True):
        lines[size].append(item)
    alike = [lines[size] for size in problem.sizes]
    spots = problem.place(tuple(map(len, alike)))
    if spots is None:
        return None
    found = lay_out(alike, spots, forme)
    was = [layout.laid[int(one.key)] for one in found.laid]
    return msgspec.structs.replace(
        found,
        laid=tuple(
            old._replace(x=new.x, y=new.y) for old, new in zip(was, found.laid, strict=True)
        ),
    )
