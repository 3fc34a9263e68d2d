"""The pieces that a sheet can be cut into, and how each can be cut on.

A piece is told by its size and by what lies where on it, not by where on the sheet it was: so
that pieces alike, of which a sheet of alike inserts has many, are looked at once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import StrEnum
from itertools import compress
from typing import NamedTuple

NEVER = 1 << 30
"""Turns of a piece that no cuts from edge to edge can finish."""

Box = tuple[int, int, int, int]
"""Left, lower, right and upper edge, in micrometres."""


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


class Key(NamedTuple):
    """How the trimmer is set and the paper held."""

    fence: Fence
    distance: int


class Shape(NamedTuple):
    """A piece of paper wherever it lies: its size, and the inserts from its lower left corner."""

    width: int
    height: int
    inserts: tuple[Box, ...]

    @classmethod
    def of(cls, box: Box, inserts: Sequence[Box]) -> Shape:
        """Return the shape of a piece with these inserts, both as they lie on the sheet."""
        left, low, right, high = box
        moved = ((a - left, b - low, c - left, d - low) for a, b, c, d in inserts)
        return cls(right - left, high - low, tuple(sorted(moved)))

    @property
    def finished(self) -> bool:
        """Return whether nothing is left to cut: it is one insert, or only waste."""
        return not self.inserts or self.inserts == ((0, 0, self.width, self.height),)

    @property
    def uncut(self) -> tuple[frozenset[tuple[int, int]], int]:
        """Return the sides of inserts that are not cut free yet, and how many edges that is."""
        lengths = set()
        edges = 0
        for box in self.inserts:
            for low, high, across in ((0, 2, self.width), (1, 3, self.height)):
                here = (box[low] != 0) + (box[high] != across)
                edges += here
                if here:
                    lengths.add((low, box[high] - box[low]))
        return frozenset(lengths), edges


class Blade(NamedTuple):
    """One way to cut a shape."""

    upright: bool
    first: int
    """Where the part below or left of the blade ends."""
    second: int
    """Where the other part begins."""
    edge: int
    """The edge of an insert along which it runs."""

    def parts(self, box: Box) -> tuple[Box, Box]:
        """Return what a box on which distances count from nothing is cut into."""
        left, low, right, high = box
        if self.upright:
            return (left, low, left + self.first, high), (left + self.second, low, right, high)
        return (left, low, right, low + self.first), (left, low + self.second, right, high)


class Way(NamedTuple):
    """One setting with which a shape can be cut, and what that leaves to be cut on."""

    blade: Blade
    left: tuple[int, ...]
    """Numbers of the shapes that are not finished."""


class Shapes:
    """All shapes that a sheet can be cut into, numbered from small to large."""

    def __init__(self, sheet: Shape, kerf: int) -> None:
        """Go through all cuts along edges of inserts."""
        found: dict[Shape, list[tuple[Blade, list[Shape]]]] = {}
        ahead = [] if sheet.finished else [sheet]
        while ahead:
            shape = ahead.pop()
            if shape not in found:
                found[shape] = [(blade, _cut(shape, blade)) for blade in _blades(shape, kerf)]
                ahead += [part for _, parts in found[shape] for part in parts if not part.finished]
        self.all = tuple(sorted(found, key=lambda shape: (shape.width * shape.height, shape)))
        self.number = {shape: n for n, shape in enumerate(self.all)}
        keys: dict[Key, int] = {}
        self.ways: list[dict[int, Way]] = []
        """Of each shape, by the number of the key."""
        self.turns: list[tuple[int, int]] = []
        """Of each shape: how often the cuts change direction at least, if they begin along and
        if they begin across."""
        self.needs: list[frozenset[int]] = []
        """Of each shape: for every edge of an insert that is not cut yet, all keys that can cut
        it, now or later, as bits."""
        edges: list[list[int]] = []
        for shape in self.all:
            ways: dict[int, Way] = {}
            own = [0] * (4 * len(shape.inserts))
            for blade, parts in found[shape]:
                left = tuple(self.number[part] for part in parts if not part.finished)
                bits = 0
                for key in _keys(shape, blade):
                    ways[keys.setdefault(key, len(keys))] = Way(blade, left)
                    bits |= 1 << keys[key]
                self._add(own, shape, blade, parts, bits, edges)
            edges.append(own)
            self.ways.append(ways)
            self.needs.append(frozenset(filter(None, own)))
            self.turns.append(self._turns(ways))
        self.keys = tuple(keys)

    def _add(
        self,
        own: list[int],
        shape: Shape,
        blade: Blade,
        parts: Sequence[Shape],
        bits: int,
        edges: Sequence[list[int]],
    ) -> None:
        """Add to what can cut each edge of ``shape`` the keys of one blade and of its parts."""
        low, high = (0, 2) if blade.upright else (1, 3)
        lower = [box[high] <= blade.first for box in shape.inserts]
        for n, box in enumerate(shape.inserts):
            if box[high] == blade.first:
                own[4 * n + high] |= bits
            if box[low] == blade.second:
                own[4 * n + low] |= bits
        for part, there in zip(parts, (lower, [not one for one in lower]), strict=True):
            if not part.finished:
                later = edges[self.number[part]]
                # Moving a piece keeps its inserts in order.
                for place, n in enumerate(compress(range(len(shape.inserts)), there)):
                    for side in range(4):
                        own[4 * n + side] |= later[4 * place + side]

    def _turns(self, ways: dict[int, Way]) -> tuple[int, int]:
        best = [NEVER, NEVER]
        for way in ways.values():
            own = way.blade.upright
            turns = (min(self.turns[n][own], 1 + self.turns[n][not own]) for n in way.left)
            best[own] = min(best[own], max(turns, default=0))
        return best[0], best[1]


def _blades(shape: Shape, kerf: int) -> Iterator[Blade]:
    """Yield where a blade can run along an edge of an insert and clear of all others."""
    for upright, length in ((True, shape.width), (False, shape.height)):
        low, high = (0, 2) if upright else (1, 3)
        boxes = shape.inserts
        blades = {(box[high], box[high] + kerf, box[high]) for box in boxes}
        blades |= {(box[low] - kerf, box[low], box[low]) for box in boxes}
        for first, second, edge in sorted(blades):
            clear = all(box[high] <= first or box[low] >= second for box in boxes)
            if clear and 0 < edge < length:
                yield Blade(upright, first, second, edge)


def _keys(shape: Shape, blade: Blade) -> Iterator[Key]:
    """Yield the settings that bring a blade there."""
    across = shape.width if blade.upright else shape.height
    if blade.first > 0:
        yield Key(Fence.LEFT if blade.upright else Fence.BOTTOM, blade.first)
    if blade.second < across:
        yield Key(Fence.RIGHT if blade.upright else Fence.TOP, across - blade.second)


def _cut(shape: Shape, blade: Blade) -> list[Shape]:
    """Return both parts of a shape."""
    high = 2 if blade.upright else 3
    one, other = blade.parts((0, 0, shape.width, shape.height))
    lower = [box for box in shape.inserts if box[high] <= blade.first]
    upper = [box for box in shape.inserts if box[high] > blade.first]
    return [Shape.of(one, lower), Shape.of(other, upper)]
