"""The cut order: from the whole sheet to single inserts, with what to set on the trimmer.

A trimmer cuts a piece from edge to edge, at a set distance from the edge that lies against its
fence. What costs a person time and errors is setting another distance and turning the paper,
so the order sought is the one with the fewest of both. With one setting, every piece that has
a use for it is cut, again and again, unless that would cost a setting later.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import compress, pairwise
from typing import NamedTuple

from engine.ganging.cutsearch import fewest
from engine.ganging.inhand import Blade, Box, Fence, Shape, Shapes
from engine.model import Rect, Size, Value
from engine.model.errors import RefusedError
from engine.model.units import Mm

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
    distance: Mm
    """From the fence to the cut, in mm."""
    at: Mm
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
    found = fewest(shapes)
    if found is None:
        raise RefusedError(
            "the sheet",
            "cuts from edge to edge cannot free its inserts",
            "Cut it with a knife along a steel rule",
        )
    keys = [shapes.keys[key] for key in found.keys]
    cuts = _Trimmer(boxes, shapes, found.keys).cuts(sheet)
    numbered = tuple(cut._replace(number=n) for n, cut in enumerate(cuts, start=1))
    changes = list(pairwise(keys))
    settings = sum(one.distance != other.distance for one, other in changes) + bool(keys)
    turns = sum(one.fence != other.fence for one, other in changes)
    return CutOrder(numbered, settings, turns, found.fewest)


class _Piece(NamedTuple):
    """A piece of paper in hand."""

    box: Box
    inserts: tuple[int, ...]


class _Trimmer:
    """Cuts a sheet with given settings, each piece as soon as it can be."""

    def __init__(self, boxes: Sequence[Box], shapes: Shapes, keys: Sequence[int]) -> None:
        self.boxes = boxes
        self.shapes = shapes
        self.keys = keys
        self._can = cache(self._can_finish)

    def cuts(self, sheet: _Piece) -> list[Cut]:
        """Return all cuts, not numbered yet."""
        made: list[Cut] = []
        pieces = [] if self._shape(sheet).finished else [sheet]
        for time, key in enumerate(self.keys):
            done = [self._work(piece, key, time, sheet.box) for piece in pieces]
            pieces = [rest for rests, _ in done for rest in rests]
            made += [cut for _, cuts in done for cut in cuts]
        return made

    def _work(
        self, piece: _Piece, key: int, time: int, sheet: Box
    ) -> tuple[list[_Piece], list[Cut]]:
        """Cut ``piece`` with one setting for as long as there is a use.

        Return what is left unfinished, and the cuts.
        """
        number = self.shapes.number[self._shape(piece)]
        way = self.shapes.ways[number].get(key)
        if way is None or not all(self._can(part, time) for part in way.left):
            return [piece], []
        fence, distance = self.shapes.keys[key]
        low, high = fence.axis
        own = low if fence.low else high
        parts = self._parts(piece, way.blade)
        finished = [self._shape(part).finished for part in parts]
        cut = Cut(
            0,
            fence,
            distance / _PER_MM,
            (piece.box[low] + way.blade.edge) / _PER_MM,
            _rect(piece.box),
            by_tick=piece.box[own] == sheet[own],
            frees=tuple(part.inserts[0] for part in compress(parts, finished)),
        )
        later = [
            self._work(part, key, time, sheet)
            for part, done in zip(parts, finished, strict=True)
            if not done
        ]
        return (
            [rest for rests, _ in later for rest in rests],
            [cut, *(more for _, cuts in later for more in cuts)],
        )

    def _can_finish(self, shape: int, time: int) -> bool:
        """Return whether the settings from ``time`` on finish a shape."""
        if time == len(self.keys):
            return False
        way = self.shapes.ways[shape].get(self.keys[time])
        if way is not None and all(self._can(part, time) for part in way.left):
            return True
        return self._can(shape, time + 1)

    def _parts(self, piece: _Piece, blade: Blade) -> list[_Piece]:
        """Return what is left of ``piece`` on both sides of the blade, if there are inserts."""
        low, high = (0, 2) if blade.upright else (1, 3)
        start = piece.box[low]
        lower = [n for n in piece.inserts if self.boxes[n][high] <= start + blade.first]
        upper = [n for n in piece.inserts if self.boxes[n][high] > start + blade.first]
        boxes = blade.parts(piece.box)
        both = zip(boxes, (tuple(lower), tuple(upper)), strict=True)
        return [_Piece(box, some) for box, some in both if some]

    def _shape(self, piece: _Piece) -> Shape:
        return Shape.of(piece.box, [self.boxes[n] for n in piece.inserts])


def _rect(box: Box) -> Rect:
    left, bottom, right, top = (edge / _PER_MM for edge in box)
    return Rect(left, bottom, right - left, top - bottom)


def _um(mm: float) -> int:
    return round(mm * _PER_MM)
