"""What inserts of one ground colour that share a cut could save, at most.

    python -m tests.bench.shared FOLDER

A pair of neighbours on a sheet could lie without a gutter, parted by one cut, where both turn
flat panels (edges or blanks) to each other all along, of colours that nobody tells apart: a
difference of at most 1 by CIEDE2000, about what is just seen side by side (common practice, no
published source). Counted are the pairs on a full A4 sheet of each case kind, as if all were of one
colour, and those on the sheets of a collection, all of whose games are accepted here as proposed:
the folder is copied. Each pair saves one stroke of the blade at most.
"""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator, Sequence
from itertools import combinations
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from engine import open_workshop
from engine.cases import FlatNet, Role, flatten, load_kinds
from engine.colours import difference
from engine.ganging.cutorder import order_of
from engine.model import Placement
from engine.model.stocks import STOCKS
from engine.press.placed import lying
from tests.bench.cuts import sheets

SEEN = 1.0
_NEAR = 0.05


class Side(NamedTuple):
    """A straight stretch of an insert's outline: where it lies, what faces, and its colour."""

    upright: bool
    at: float
    low: float
    high: float
    outward: int
    flat: bool


def main() -> None:
    """Print the pairs of each kind's sheet, then those of a collection."""
    print(f"{'full sheet':24} inserts pairs flat strokes")
    caliper = STOCKS["a4-card"].caliper
    nets = {kind: flatten(case, caliper) for kind, case in load_kinds().items()}
    for name, forme, placements in sheets():
        pairs = list(_pairs(placements, [nets[one.case] for one in placements], forme.gutter))
        order = order_of(forme, placements)
        strokes = len(order.cuts) if order else 0
        flat = sum(facing for *_, facing in pairs)
        print(f"{name:24} {len(placements):7} {len(pairs):5} {flat:4} {strokes:7}")
    with TemporaryDirectory() as folder:
        _collection(Path(shutil.copytree(sys.argv[1], Path(folder) / "copy")))


def _collection(folder: Path) -> None:
    shop = open_workshop(folder)
    shop.designs.accept([line.id for line in shop.games.lines()])
    snapshot = shop._session.snapshot
    found = shop.sheets.report()
    sums = [0] * 6
    for sheet in (*found.ready, *found.open):
        nets, base = [], []
        for one in sheet.placements:
            design = snapshot.standing[one.game].design
            assert design is not None
            nets.append(snapshot.casing.net_for(design))
            base.append(design.colours.base)
        pairs = list(_pairs(sheet.placements, nets, sheet.forme.gutter))
        flat = [(a, b) for a, b, f in pairs if f]
        same = sum(difference(base[a], base[b]) <= SEEN for a, b in flat)
        order = order_of(sheet.forme, sheet.placements)
        strokes = len(order.cuts) if order else 0
        row = (1, len(sheet.placements), len(pairs), len(flat), same, strokes)
        sums = [x + y for x, y in zip(sums, row, strict=True)]
    told = "{} sheets, {} inserts, {} pairs, {} flat, {} of them of one colour, {} strokes"
    print(f"\ncollection: {told.format(*sums)}")
    shop.close()


def _pairs(
    placements: Sequence[Placement], nets: Sequence[FlatNet], gutter: float
) -> Iterator[tuple[int, int, bool]]:
    """Yield neighbours a gutter apart, and whether both are flat where they face each other."""
    sides = [list(_sides(one, net)) for one, net in zip(placements, nets, strict=True)]
    for a, b in combinations(range(len(placements)), 2):
        facing = [
            (one.flat and other.flat)
            for one in sides[a]
            for other in sides[b]
            if one.upright == other.upright
            and one.outward == -other.outward
            and abs((other.at - one.at) * one.outward - gutter) < 0.2
            and min(one.high, other.high) - max(one.low, other.low) > _NEAR
        ]
        if facing:
            yield a, b, all(facing)


def _sides(placement: Placement, net: FlatNet) -> Iterator[Side]:
    """Yield the outer sides of the panels of an insert that lie on its rectangle."""
    at = lying(net, placement)
    left, low = placement.x, placement.y
    right, high = left + placement.width, low + placement.height
    for panel in net.panels:
        x, y, width, height = panel.rect
        (x1, y1), (x2, y2) = (at.transformPoint(p) for p in ((x, y), (x + width, y + height)))
        x1, x2, y1, y2 = min(x1, x2), max(x1, x2), min(y1, y2), max(y1, y2)
        flat = panel.role is not Role.ART
        for upright, spot, edge, outward in (
            (True, x1, left, -1),
            (True, x2, right, 1),
            (False, y1, low, -1),
            (False, y2, high, 1),
        ):
            if abs(spot - edge) < _NEAR:
                yield Side(upright, spot, *((y1, y2) if upright else (x1, x2)), outward, flat)


if __name__ == "__main__":
    main()
