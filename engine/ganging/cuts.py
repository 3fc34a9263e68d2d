"""The cut order: from the whole sheet to single inserts, with what to set on the trimmer.

A trimmer cuts a piece from edge to edge, at a set distance from the edge that lies against its
fence. What costs a person time and errors is setting another distance and turning the paper,
so the order sought is the one with the fewest of both. With one setting, every piece that has
a use for it is cut, again and again.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from engine.errors import RefusedError
from engine.values import Rect, Size, Value

_PER_MM = 1000
"""Lengths are compared in whole micrometres."""
_WIDTH = 200
"""States that are followed up at each number of settings and turns; in a usual layout there
are fewer, so that the order found has the fewest."""

CAUTIONS = (
    "Keep fingers behind the guard, and lock or sheathe the blade when it rests.",
    "With a knife: a mat larger than the work, a steel safety rule, the holding hand behind it.",
    "The instructions of your trimmer and local rules go before any of this.",
)
"""Usual cautions for cutting (common practice)."""


class Fence(StrEnum):
    """The edge of the piece in hand that lies against the trimmer's fence."""

    LEFT = "left"
    RIGHT = "right"
    BOTTOM = "bottom"
    TOP = "top"

    @property
    def upright(self) -> bool:
        """Return whether the cut runs upright on the sheet."""
        return self in {Fence.LEFT, Fence.RIGHT}

    @property
    def low(self) -> bool:
        """Return whether distances count upwards from this edge in the sheet's own measure."""
        return self in {Fence.LEFT, Fence.BOTTOM}

    @property
    def axis(self) -> tuple[int, int]:
        """Return where a box of four edges has the two that distances run between."""
        return (0, 2) if self.upright else (1, 3)


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


_Box = tuple[int, int, int, int]
"""Left, lower, right and upper edge, in micrometres."""


class _Piece(NamedTuple):
    """A piece of paper in hand."""

    box: _Box
    inserts: tuple[int, ...]


class _Key(NamedTuple):
    """How the trimmer is set and the paper held."""

    fence: Fence
    distance: int


def cut_order(inserts: Sequence[Rect], stock: Size, *, kerf: float = 0.0) -> CutOrder:
    """Return the cuts that free ``inserts``, finished rectangles on the stock, in mm.

    ``kerf`` is the width a blade takes away, 0 for a trimmer; it comes off the waste. Raises
    RefusedError when edge-to-edge cuts cannot free the inserts.
    """
    return _Trimmer(inserts, stock, kerf).order()


_State = tuple[_Piece, ...]
"""The pieces that are not finished, in a fixed order."""


class _Trimmer:
    def __init__(self, inserts: Sequence[Rect], stock: Size, kerf: float) -> None:
        self.boxes: list[_Box] = [
            (_um(r.x), _um(r.y), _um(r.x) + _um(r.width), _um(r.y) + _um(r.height)) for r in inserts
        ]
        self.kerf = _um(kerf)
        # The same pieces turn up on many ways through a sheet.
        self._ways = cache(self._ways_of)
        self._work = cache(self._work_on)
        everything = tuple(range(len(inserts)))
        self.sheet = _Piece((0, 0, _um(stock.width), _um(stock.height)), everything)

    def order(self) -> CutOrder:
        keys, fewest = self._cheapest()
        cuts: list[Cut] = []
        state: _State = (self.sheet,)
        for key in keys:
            state, made = self._go_on(state, key)
            cuts += made
        numbered = tuple(cut._replace(number=n) for n, cut in enumerate(cuts, start=1))
        changes = list(pairwise(keys))
        settings = sum(one.distance != other.distance for one, other in changes) + bool(keys)
        turns = sum(one.fence != other.fence for one, other in changes)
        return CutOrder(numbered, settings, turns, fewest)

    def _cheapest(self) -> tuple[tuple[_Key, ...], bool]:
        """Return the settings with the fewest changes, and whether nothing was passed over."""
        start = () if self._finished(self.sheet) else (self.sheet,)
        # For each cost: the states reached, by the last setting, with the cuts and the way there.
        levels: list[dict[tuple[_State, _Key | None], tuple[int, tuple[_Key, ...]]]]
        levels = [{(start, None): (0, ())}, {}, {}]
        settled: set[tuple[_State, _Key | None]] = set()
        everything = True
        while any(levels):
            level, *levels = [*levels, {}]
            here = sorted(level.items(), key=lambda one: (self._left(one[0][0]), one[1]))
            if here and not here[0][0][0]:
                return here[0][1][1], everything
            everything = everything and len(here) <= _WIDTH
            for (state, last), (made, keys) in here[:_WIDTH]:
                if (state, last) in settled:
                    continue
                settled.add((state, last))
                for key in self._keys(state):
                    after, cuts = self._go_on(state, key)
                    way = made + len(cuts), (*keys, key)
                    ahead = levels[_change(last, key) - 1]
                    ahead[after, key] = min(ahead.get((after, key), way), way)
        raise RefusedError(
            "the sheet",
            "cuts from edge to edge cannot free its inserts",
            "Cut it with a knife along a steel rule",
        )

    def _go_on(self, state: _State, key: _Key) -> tuple[_State, tuple[Cut, ...]]:
        """Return what is unfinished after ``key``, and the cuts made with it."""
        done = [self._work(piece, key) for piece in state]
        parts = sorted(part for parts, _ in done for part in parts)
        return tuple(parts), tuple(cut for _, cuts in done for cut in cuts)

    def _finished(self, piece: _Piece) -> bool:
        return not piece.inserts or (
            len(piece.inserts) == 1 and self.boxes[piece.inserts[0]] == piece.box
        )

    def _left(self, state: _State) -> tuple[int, int]:
        """Return how many lengths, and how many edges of inserts, are still to be cut."""
        edges = 0
        lengths: set[tuple[int, int]] = set()
        for box, inserts in state:
            for own in (self.boxes[index] for index in inserts):
                for low, high in ((0, 2), (1, 3)):
                    uncut = (own[low] != box[low]) + (own[high] != box[high])
                    edges += uncut
                    if uncut:
                        lengths.add((low, own[high] - own[low]))
        return len(lengths), edges

    def _keys(self, state: _State) -> list[_Key]:
        return sorted(
            {key for piece in state for fence in Fence for key in self._ways(piece, fence)}
        )

    def _ways_of(self, piece: _Piece, fence: Fence) -> dict[_Key, tuple[int, int, int]]:
        """Return how ``piece`` can be cut along an edge: both faces of the blade, the edge."""
        low, high = fence.axis
        boxes = [self.boxes[index] for index in piece.inserts]
        blades = {(box[high], box[high] + self.kerf, box[high]) for box in boxes}
        blades |= {(box[low] - self.kerf, box[low], box[low]) for box in boxes}
        found = {}
        for first, second, edge in sorted(blades):
            if all(box[high] <= first or box[low] >= second for box in boxes):
                distance = first - piece.box[low] if fence.low else piece.box[high] - second
                if piece.box[low] < edge < piece.box[high] and distance > 0:
                    found[_Key(fence, distance)] = first, second, edge
        return found

    def _work_on(self, piece: _Piece, key: _Key) -> tuple[list[_Piece], list[Cut]]:
        """Cut ``piece`` with one setting for as long as there is a use.

        Return what is left unfinished, and the cuts.
        """
        if key not in (ways := self._ways(piece, key.fence)):
            return [piece], []
        first, second, edge = ways[key]
        low, high = key.fence.axis
        own = low if key.fence.low else high
        parts = self._halves(piece, key.fence, first, second)
        cut = Cut(
            0,
            key.fence,
            key.distance / _PER_MM,
            edge / _PER_MM,
            _rect(piece.box),
            by_tick=piece.box[own] == self.sheet.box[own],
            frees=tuple(part.inserts[0] for part in parts if self._finished(part)),
        )
        later = [self._work(part, key) for part in parts if not self._finished(part)]
        return (
            [rest for rests, _ in later for rest in rests],
            [cut, *(more for _, cuts in later for more in cuts)],
        )

    def _halves(self, piece: _Piece, fence: Fence, first: int, second: int) -> list[_Piece]:
        """Return what is left of ``piece`` on both sides of the blade, if there are inserts."""
        low, high = fence.axis
        left, bottom, right, top = piece.box
        if fence.upright:
            boxes = (left, bottom, first, top), (second, bottom, right, top)
        else:
            boxes = (left, bottom, right, first), (left, second, right, top)
        lower = tuple(index for index in piece.inserts if self.boxes[index][high] <= first)
        upper = tuple(index for index in piece.inserts if self.boxes[index][low] >= second)
        parts = _Piece(boxes[0], lower), _Piece(boxes[1], upper)
        return [part for part in parts if part.inserts]


def _change(before: _Key | None, key: _Key) -> int:
    """Return what it costs to go on with ``key``: one for a setting, one for a turn."""
    if before is None:
        return 1
    return (before.distance != key.distance) + (before.fence != key.fence)


def _rect(box: _Box) -> Rect:
    left, bottom, right, top = (edge / _PER_MM for edge in box)
    return Rect(left, bottom, right - left, top - bottom)


def _um(mm: float) -> int:
    return round(mm * _PER_MM)
