"""The cut order: from the whole sheet to single inserts, with what to set on the trimmer.

A trimmer cuts a piece from edge to edge, at a set distance from the edge that lies against its
fence. What costs a person time and errors is setting another distance and turning the paper,
so the order sought is the one with the fewest of both. With one setting, every piece that has
a use for it is cut, again and again, unless that would cost a setting later.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from engine.model import Rect, Size, Value
from engine.model.errors import RefusedError
from engine.model.units import Mm
from engine.packing.cut_order.search import order
from engine.packing.cut_order.shapes import Edges, Fence, FenceSetting, PieceShape, Shapes, parts

_PER_MM = 1000
"""Lengths are compared in whole micrometres."""


class Cut(NamedTuple):
    """One cut across the whole of a piece."""

    number: int
    """From 1, in the order of cutting."""
    fence: Fence
    distance: Mm
    """From the fence to the cut, in mm."""
    at: Mm
    """The edge of an insert along which it runs, in mm from the left of the sheet (an upright cut)
    or from its foot."""
    piece: Rect
    """The piece before the cut, where it lies on the sheet."""
    by_tick: bool
    """The edge at the fence is the paper's own, which a printer may have fed a little askew:
    go by the tick, not by the distance."""
    frees: tuple[int, ...] = ()
    """Inserts that this cut finishes, by their place in the layout."""


class CutOrder(Value, frozen=True):
    """All cuts of a sheet."""

    cuts: tuple[Cut, ...]
    settings: int
    """How often a distance is set."""
    turns: int
    """How often the paper is turned to lay another edge against the fence."""
    fewest: bool
    """Whether no order of this layout has fewer settings and turns together."""


def cut_order(inserts: Sequence[Rect], stock: Size, *, kerf: float = 0.0) -> CutOrder:
    """Return the cuts that free ``inserts``, finished rectangles on the stock, in mm.

    Every cut runs along an edge of an insert. ``kerf`` is the width a blade takes away, 0 for a
    trimmer; it comes off the waste. Raises RefusedError when edge-to-edge cuts cannot free the
    inserts.
    """
    boxes = [
        (_um(r.x), _um(r.y), _um(r.x) + _um(r.width), _um(r.y) + _um(r.height)) for r in inserts
    ]
    sheet = 0, 0, _um(stock.width), _um(stock.height)
    shapes = Shapes(PieceShape.of(sheet, boxes), _um(kerf))
    found = order(shapes)
    if found is None:
        raise RefusedError(
            "the sheet",
            "cuts from edge to edge cannot free its inserts",
            "Cut it with a knife along a steel rule",
        )
    chosen, fewest = found
    cuts = _Trimmer(sheet, boxes, shapes, chosen).cuts()
    changes = list(pairwise(shapes.settings[number] for number in chosen))
    return CutOrder(
        tuple(cut._replace(number=n) for n, cut in enumerate(cuts, start=1)),
        settings=sum(a.distance != b.distance for a, b in changes) + bool(chosen),
        turns=sum(a.fence != b.fence for a, b in changes),
        fewest=fewest,
    )


_Part = tuple[Edges, list[int]]
"""A piece of paper, and the inserts on it."""


class _Trimmer:
    """Cuts a sheet with given settings, each piece as soon as it can be."""

    def __init__(
        self, sheet: Edges, boxes: Sequence[Edges], shapes: Shapes, settings: Sequence[int]
    ) -> None:
        self.sheet, self.boxes, self.shapes, self.settings = sheet, boxes, shapes, settings
        self.can_finish = cache(self._can_finish)

    def cuts(self) -> list[Cut]:
        """Return all cuts, not numbered yet."""
        whole: _Part = self.sheet, list(range(len(self.boxes)))
        pieces = [] if self._shape(whole).finished else [whole]
        made: list[Cut] = []
        for time in range(len(self.settings)):
            ahead, pieces = pieces, []
            while ahead:
                piece = ahead.pop(0)
                number = self.shapes.number[self._shape(piece)]
                if self._cuts_now(number, time):
                    cut, parts = self._cut(piece, self.shapes.settings[self.settings[time]])
                    made.append(cut)
                    ahead = parts + ahead
                else:
                    pieces.append(piece)
        return made

    def _cut(self, piece: _Part, setting: FenceSetting) -> tuple[Cut, list[_Part]]:
        """Return the cut that a setting makes of a piece, and what it leaves unfinished."""
        box, inserts = piece
        made = [
            (part, [inserts[n] for n in on])
            for part, on in parts(setting, box, [self.boxes[n] for n in inserts], self.shapes.kerf)
        ]
        finished = [part for part in made if self._shape(part).finished]
        fence, distance = setting
        low, high = fence.axis
        own = low if fence.low else high
        first, second = setting.blade(box, self.shapes.kerf)
        along = second if any(self.boxes[n][low] == second for n in inserts) else first
        cut = Cut(
            0,
            fence,
            distance / _PER_MM,
            along / _PER_MM,
            Rect(*(edge / _PER_MM for edge in (*box[:2], box[2] - box[0], box[3] - box[1]))),
            by_tick=box[own] == self.sheet[own],
            frees=tuple(on[0] for _, on in finished if on),
        )
        return cut, [part for part in made if part not in finished]

    def _cuts_now(self, shape: int, time: int) -> bool:
        """Return whether to cut a shape now: the settings that come can finish what is left."""
        left = self.shapes.ways[shape].get(self.settings[time])
        return left is not None and all(self.can_finish(part, time) for part in left)

    def _can_finish(self, shape: int, time: int) -> bool:
        """Return whether the settings from ``time`` on finish a shape."""
        return time < len(self.settings) and (
            self._cuts_now(shape, time) or self.can_finish(shape, time + 1)
        )

    def _shape(self, piece: _Part) -> PieceShape:
        return PieceShape.of(piece[0], [self.boxes[n] for n in piece[1]])


def _um(mm: float) -> int:
    return round(mm * _PER_MM)
