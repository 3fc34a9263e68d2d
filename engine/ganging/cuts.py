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

from engine.errors import RefusedError
from engine.packing.cut_order.search import order
from engine.packing.cut_order.shapes import Box, Fence, Setting, Shape, Shapes, parts
from engine.values import Rect, Size, Value

_PER_MM = 1000
"""Lengths are compared in whole micrometres."""

CAUTIONS = (
    "Keep fingers behind the guard, and lock or sheathe the blade when it rests.",
    "With a knife: a mat larger than the work, a steel safety rule, the holding hand behind it.",
    "The instructions of your trimmer and local rules go before any of this.",
)
"""Usual cautions for cutting (common practice)."""


class Cut(NamedTuple):
    """One cut across the whole of a piece."""

    number: int
    """From 1, in the order of cutting."""
    fence: Fence
    distance: float
    """From the fence to the cut, in mm."""
    at: float
    """Where it runs on the sheet, in mm from its left (an upright cut) or lower edge."""
    piece: Rect
    """The piece in hand before the cut, where it lies on the sheet."""
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
    sheet = _Piece((0, 0, _um(stock.width), _um(stock.height)), tuple(range(len(boxes))))
    shapes = Shapes(Shape.of(sheet.box, boxes), _um(kerf))
    found = order(shapes)
    if found is None:
        raise RefusedError(
            "the sheet",
            "cuts from edge to edge cannot free its inserts",
            "Cut it with a knife along a steel rule",
        )
    cuts = _Trimmer(boxes, shapes, found.settings).cuts(sheet)
    changes = list(pairwise(shapes.settings[number] for number in found.settings))
    return CutOrder(
        tuple(cut._replace(number=n) for n, cut in enumerate(cuts, start=1)),
        settings=sum(a.distance != b.distance for a, b in changes) + bool(found.settings),
        turns=sum(a.fence != b.fence for a, b in changes),
        fewest=found.fewest,
    )


class _Piece(NamedTuple):
    """A piece of paper in hand."""

    box: Box
    inserts: tuple[int, ...]


class _Trimmer:
    """Cuts a sheet with given settings, each piece as soon as it can be."""

    def __init__(self, boxes: Sequence[Box], shapes: Shapes, settings: Sequence[int]) -> None:
        self.boxes, self.shapes, self.settings = boxes, shapes, settings
        self._can = cache(self._can_finish)

    def cuts(self, sheet: _Piece) -> list[Cut]:
        """Return all cuts, not numbered yet."""
        made: list[Cut] = []
        pieces = [] if self._shape(sheet).finished else [sheet]
        for time in range(len(self.settings)):
            left: list[_Piece] = []
            while pieces:
                piece = pieces.pop(0)
                cut = self._cut(piece, time, sheet.box)
                if cut is None:
                    left.append(piece)
                else:
                    made.append(cut[0])
                    pieces = cut[1] + pieces
            pieces = left
        return made

    def _cut(self, piece: _Piece, time: int, sheet: Box) -> tuple[Cut, list[_Piece]] | None:
        """Return the cut that a setting makes of ``piece``, and what is then unfinished.

        None where it is of no use.
        """
        number = self.settings[time]
        left = self.shapes.ways[self.shapes.number[self._shape(piece)]].get(number)
        if left is None or not all(self._can(part, time) for part in left):
            return None
        setting = self.shapes.settings[number]
        made = [
            _Piece(box, tuple(piece.inserts[n] for n in on))
            for box, on in parts(setting, piece.box, self._on(piece), self.shapes.kerf)
        ]
        finished = [part for part in made if self._shape(part).finished]
        low, high = setting.fence.axis
        own = low if setting.fence.low else high
        cut = Cut(
            0,
            setting.fence,
            setting.distance / _PER_MM,
            self._edge(piece, setting) / _PER_MM,
            _rect(piece.box),
            by_tick=piece.box[own] == sheet[own],
            frees=tuple(part.inserts[0] for part in finished if part.inserts),
        )
        return cut, [part for part in made if part not in finished]

    def _edge(self, piece: _Piece, setting: Setting) -> int:
        """Return the edge of an insert along which a cut runs: where the blade begins or ends."""
        first, second = setting.blade(piece.box, self.shapes.kerf)
        return (
            first if any(first == box[setting.fence.axis[1]] for box in self._on(piece)) else second
        )

    def _can_finish(self, shape: int, time: int) -> bool:
        """Return whether the settings from ``time`` on finish a shape."""
        if time == len(self.settings):
            return False
        left = self.shapes.ways[shape].get(self.settings[time])
        if left is not None and all(self._can(part, time) for part in left):
            return True
        return self._can(shape, time + 1)

    def _on(self, piece: _Piece) -> list[Box]:
        return [self.boxes[n] for n in piece.inserts]

    def _shape(self, piece: _Piece) -> Shape:
        return Shape.of(piece.box, self._on(piece))


def _rect(box: Box) -> Rect:
    left, bottom, right, top = (edge / _PER_MM for edge in box)
    return Rect(left, bottom, right - left, top - bottom)


def _um(mm: float) -> int:
    return round(mm * _PER_MM)
