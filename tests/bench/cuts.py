"""The work of cutting a full A4 sheet of every case kind, and two mixed ones.

    python -m tests.bench.cuts

Strokes of the blade, settings of the fence and turns of the paper; how many strokes set the fence
nearer than 10 mm, and how many lay an edge under 25 mm against it, but for those that the order
itself leaves to a knife; and whether the strokes, replayed on paper that knows nothing of the
layout, leave exactly the inserts. Sheets are laid out as they are pressed, spare room in their
gutters. It asks the cut order for nothing but its cuts, so that it can be run on an older state of
the program too.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from time import process_time

from engine.cases import flatten, load_kinds
from engine.ganging import CutOrder, Item, gang
from engine.ganging.cutorder import order_of
from engine.ganging.papers import Proposed
from engine.ganging.strips import roomy
from engine.model import Forme, Placement, Rect, Size
from engine.model.settings import Settings
from engine.model.stocks import STOCKS

NEAREST, SHORTEST = 10.0, 25.0
_NEAR = 0.002
_MIXED = (
    ("snap-shell", "snap-shell-low", "edge-label"),
    ("soft-cassette", "hard-cassette", "cartridge-label"),
)


def main() -> None:
    """Print a line for each sheet, and the sums."""
    print(f"{'sheet':24} inserts gutter strokes settings turns <10 mm edge<25 knife  true   s")
    sums = [0] * 7
    for name, forme, placements in sheets():
        began = process_time()
        order = order_of(forme, placements)
        spent = process_time() - began
        if order is None:
            print(f"{name:24} {len(placements):7} {forme.gutter:6.1f}  no cuts from edge to edge")
            continue
        strokes = len(order.cuts)
        at_fence = [cut for cut in order.cuts if not getattr(cut, "by_hand", False)]
        near = sum(cut.distance < NEAREST - _NEAR for cut in at_fence)
        short = sum(_edge(cut.piece, upright=cut.fence.upright) < SHORTEST for cut in at_fence)
        true = _true(order, forme, placements)
        knife = strokes - len(at_fence)
        row = (len(placements), strokes, order.settings, order.turns, near, short, knife)
        sums = [a + b for a, b in zip(sums, row, strict=True)]
        print(
            "{:24} {:7} {:6.1f} {:7} {:8} {:5} {:6} {:7} {:5}".format(
                name, row[0], forme.gutter, *row[1:]
            ),
            end="",
        )
        print(f"   {'yes' if true else 'NO':3} {spent:5.2f}")
    print("{:24} {:7}        {:7} {:8} {:5} {:6} {:7} {:5}".format("together", *sums))


def sheets() -> Iterator[tuple[str, Forme, Sequence[Placement]]]:
    """Yield the full sheet of each kind, then those of mixed queues."""
    kinds = load_kinds()
    for some in (*((kind,) for kind in kinds), *_MIXED):
        now = datetime(2030, 1, 1, tzinfo=UTC)
        sizes = {kind: flatten(kinds[kind], STOCKS["a4-card"].caliper).size for kind in some}
        items = [
            Item(f"{kind}-{n}", kind, *sizes[kind], turns=True, since=now)
            for n in range(120 if len(some) == 1 else 8)
            for kind in some
        ]
        forme = roomy(Forme(STOCKS["a4-card"]), items[: len(some)])
        ready = gang(items, (), forme).ready
        if ready:
            forme, layout = Proposed(forme, ready[0]).widened(Settings())
            yield (
                " + ".join(some)[:24],
                forme,
                [
                    Placement(p.key, p.case, "", p.x, p.y, p.width, p.height, p.rotated)
                    for p in layout.laid
                ],
            )


def _edge(piece: Rect, *, upright: bool) -> float:
    """Return the length of the edge that lies against the fence."""
    return piece.height if upright else piece.width


def _true(order: CutOrder, forme: Forme, placements: Sequence[Placement]) -> bool:
    pieces = _replayed(order, Size(forme.stock.width, forme.stock.height))
    wanted = [Rect(one.x, one.y, one.width, one.height) for one in placements]
    return pieces is not None and all(
        sum(_same(piece, insert) for piece in pieces) == 1 for insert in wanted
    )


def _replayed(order: CutOrder, stock: Size) -> list[Rect] | None:
    """Return the pieces on the table after all cuts; None where one cuts what is not there."""
    pieces = [Rect(0, 0, *stock)]
    for cut in order.cuts:
        for at in (cut.piece, *getattr(cut, "stacked", ())):
            piece = next((one for one in pieces if _same(one, at)), None)
            if piece is None:
                return None
            pieces.remove(piece)
            x, y, width, height = piece
            across = width if cut.fence.upright else height
            first = cut.distance if cut.fence.low else across - cut.distance
            if cut.fence.upright:
                pieces += [Rect(x, y, first, height), Rect(x + first, y, width - first, height)]
            else:
                pieces += [Rect(x, y, width, first), Rect(x, y + first, width, height - first)]
    return pieces


def _same(one: Rect, other: Rect) -> bool:
    return all(abs(a - b) < _NEAR for a, b in zip(one, other, strict=True))


if __name__ == "__main__":
    main()
