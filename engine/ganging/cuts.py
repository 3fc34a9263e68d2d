"""The cut order: from the whole sheet to single inserts, with what to set on the trimmer.

A trimmer cuts a piece from edge to edge, at a set distance from the edge that lies against its
fence. It takes no less than some distance there, and an edge that is long enough to lie square.
What costs a person time and errors is setting another distance and turning the paper, so the
order sought is the one with the fewest of both, and with the fewest cuts among those. With one
setting, every piece that has a use for it is cut, again and again, unless that would cost a
setting later; pieces alike lie on each other, as many as the trimmer takes.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import pairwise
from typing import NamedTuple

import msgspec

from engine.model import Rect, Size, Value
from engine.model.errors import RefusedError
from engine.model.units import Mm
from engine.packing.cut_order.search import order
from engine.packing.cut_order.shapes import (
    NEVER,
    Edges,
    Fence,
    FenceSetting,
    Limits,
    PieceShape,
    Shapes,
    TooMany,
    parts,
)

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
    stacked: tuple[Rect, ...] = ()
    """Pieces of the same size that lie under it and are cut with it."""
    by_hand: bool = False
    """The distance or the edge at the fence is less than the trimmer takes: cut it with a knife
    along a steel rule."""

    @property
    def pieces(self) -> tuple[Rect, ...]:
        """All pieces that it cuts."""
        return self.piece, *self.stacked

    def line(self, piece: Rect) -> Rect:
        """Return where it goes through one of its pieces.

        An upright line has no width, a level one no height. Pieces that lie on each other are
        alike, so it is as far from the edge of each.
        """
        if self.fence.upright:
            return Rect(self.at + (piece.x - self.piece.x), piece.y, 0.0, piece.height)
        return Rect(piece.x, self.at + (piece.y - self.piece.y), piece.width, 0.0)


class CutOrder(Value, frozen=True):
    """All cuts of a sheet."""

    cuts: tuple[Cut, ...]
    settings: int
    """How often a distance is set."""
    turns: int
    """How often the paper is turned to lay another edge against the fence."""
    fewest: bool
    """Whether no order of this layout that the trimmer takes has fewer settings and turns
    together."""

    @property
    def changes(self) -> int:
        """Settings and turns together."""
        return self.settings + self.turns


_FREELY, _IN_ROWS = 40_000, 250_000
"""What is gone through, in ways to cut times inserts: with cuts in any order, and with rows or
columns cut first. Either takes a second or less."""


def cut_order(
    inserts: Sequence[Rect],
    stock: Size,
    *,
    kerf: Mm = 0.0,
    distance: Mm = 0.0,
    edge: Mm = 0.0,
    depth: int = 1,
) -> CutOrder:
    """Return the cuts that free ``inserts``, finished rectangles on the stock, in mm.

    Every cut runs along an edge of an insert. ``kerf`` is the width a blade takes away, 0 for a
    trimmer; it comes off the waste. ``distance`` is the least at the fence and ``edge`` the
    shortest that can lie against it: no more cuts fall below than have to. Up to ``depth`` pieces
    are cut together. Raises RefusedError when edge-to-edge cuts cannot free the inserts.
    """
    boxes = _boxes(inserts)
    sheet = 0, 0, _um(stock.width), _um(stock.height)
    limits = Limits(_um(distance), _um(edge))
    found: list[CutOrder] = []
    tries = [(None, _FREELY), (False, _IN_ROWS), (True, _IN_ROWS), (False, None), (True, None)]
    for first, most in tries:
        if found and most is None:
            break
        try:
            shapes = Shapes(PieceShape.of(sheet, boxes), _um(kerf), limits, first=first, most=most)
        except TooMany:
            continue
        ordered = order(shapes)
        if ordered is None:
            break
        chosen, through = ordered
        cuts = _Trimmer(sheet, boxes, shapes, chosen, depth).cuts()
        found.append(_told(cuts, shapes, chosen, fewest=through and first is None))
    if not found:
        raise RefusedError(
            "the sheet",
            "cuts from edge to edge cannot free its inserts",
            "Cut it with a knife along a steel rule",
        )
    return _best(found)


def fewest_by_hand(
    inserts: Sequence[Rect], stock: Size, *, kerf: Mm, distance: Mm, edge: Mm
) -> int | None:
    """Return how many cuts every order leaves to a knife at least, each piece by itself.

    None where edge-to-edge cuts cannot free the inserts, or in too many ways. See ``cut_order``.
    """
    sheet = PieceShape.of((0, 0, _um(stock.width), _um(stock.height)), _boxes(inserts))
    limits = Limits(_um(distance), _um(edge))
    try:
        shapes = Shapes(sheet, _um(kerf), limits, first=False, most=_IN_ROWS)
    except TooMany:
        return None
    return None if shapes.beyond >= NEVER else shapes.beyond


def _told(cuts: Sequence[Cut], shapes: Shapes, chosen: Sequence[int], *, fewest: bool) -> CutOrder:
    changes = list(pairwise(shapes.settings[number] for number in chosen))
    return CutOrder(
        tuple(cut._replace(number=n) for n, cut in enumerate(cuts, start=1)),
        settings=sum(a.distance != b.distance for a, b in changes) + bool(chosen),
        turns=sum(a.fence != b.fence for a, b in changes),
        fewest=fewest,
    )


def _best(found: Sequence[CutOrder]) -> CutOrder:
    """Return the order with the least to do; where the fewest changes are known, one with those."""
    known = next((one.changes for one in found if one.fewest), None)

    def work(one: CutOrder) -> tuple[int, bool, int]:
        by_hand = sum(len(cut.pieces) for cut in one.cuts if cut.by_hand)
        return by_hand, known not in {None, one.changes}, one.changes + len(one.cuts)

    best = min(found, key=work)
    return msgspec.structs.replace(best, fewest=best.changes == known)


_Part = tuple[Edges, list[int]]
"""A piece of paper, and the inserts on it."""


class _Trimmer:
    """Cuts a sheet with given settings, each piece as soon as it can be."""

    def __init__(
        self,
        sheet: Edges,
        boxes: Sequence[Edges],
        shapes: Shapes,
        settings: Sequence[int],
        depth: int,
    ) -> None:
        self.sheet, self.boxes, self.shapes, self.settings = sheet, boxes, shapes, settings
        self.depth = depth
        self.can_finish = cache(self._can_finish)

    def cuts(self) -> list[Cut]:
        """Return all cuts, not numbered yet."""
        whole: _Part = self.sheet, list(range(len(self.boxes)))
        pieces = [] if self._shape(whole).finished else [whole]
        made: list[Cut] = []
        for time in range(len(self.settings)):
            setting = self.shapes.settings[self.settings[time]]
            ahead, pieces = pieces, []
            while ahead:
                piece = ahead.pop(0)
                if self._cuts_now(self.shapes.number[self._shape(piece)], time):
                    stack = [piece, *self._alike(piece, ahead, setting.fence)][: self.depth]
                    ahead = [one for one in ahead if one not in stack]
                    cut, parts = self._cut(stack, setting)
                    made.append(cut)
                    ahead = parts + ahead
                else:
                    pieces.append(piece)
        return made

    def _alike(self, piece: _Part, others: Sequence[_Part], fence: Fence) -> list[_Part]:
        """Return those of ``others`` that can lie under a piece and be cut with it."""
        shape, printed = self._shape(piece), self._own(piece, fence)
        return [
            one for one in others if self._own(one, fence) == printed and self._shape(one) == shape
        ]

    def _own(self, piece: _Part, fence: Fence) -> bool:
        """Return whether the edge at the fence is the sheet's own."""
        edge = fence.axis[not fence.low]
        return piece[0][edge] == self.sheet[edge]

    def _cut(self, stack: Sequence[_Part], setting: FenceSetting) -> tuple[Cut, list[_Part]]:
        """Return the cut that a setting makes of pieces alike, and what it leaves unfinished."""
        made = [
            (part, [inserts[n] for n in on])
            for box, inserts in stack
            for part, on in parts(setting, box, [self.boxes[n] for n in inserts], self.shapes.kerf)
        ]
        finished = [part for part in made if self._shape(part).finished]
        box, inserts = stack[0]
        low, _ = setting.fence.axis
        first, second = setting.blade(box, self.shapes.kerf)
        along = second if any(self.boxes[n][low] == second for n in inserts) else first
        top, *under = (_mm(box) for box, _ in stack)
        cut = Cut(
            0,
            setting.fence,
            setting.distance / _PER_MM,
            along / _PER_MM,
            top,
            by_tick=self._own(stack[0], setting.fence),
            frees=tuple(on[0] for _, on in finished if on),
            stacked=tuple(under),
            by_hand=not self.shapes.takes(setting, self._shape(stack[0])),
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


def _boxes(inserts: Sequence[Rect]) -> list[Edges]:
    return [
        (_um(r.x), _um(r.y), _um(r.x) + _um(r.width), _um(r.y) + _um(r.height)) for r in inserts
    ]


def _mm(box: Edges) -> Rect:
    return Rect(*(edge / _PER_MM for edge in (*box[:2], box[2] - box[0], box[3] - box[1])))


def _um(mm: float) -> int:
    return round(mm * _PER_MM)
