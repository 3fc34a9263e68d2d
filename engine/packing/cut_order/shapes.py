"""The pieces that a sheet can be cut into, and how each can be cut on.

A piece is told by its size and by what lies where on it, not by where on the sheet it was: so
that pieces alike, of which a sheet of alike inserts has many, are looked at once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import StrEnum
from typing import NamedTuple

NEVER = 1 << 30
"""Turns of a piece that no cuts from edge to edge can finish."""

Edges = tuple[int, int, int, int]
"""Left, lower, right and upper edge."""


class Fence(StrEnum):
    """The edge of the piece to cut that lies against the trimmer's fence."""

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


class Limits(NamedTuple):
    """What a trimmer takes."""

    distance: int = 0
    """The least from the fence to the blade."""
    edge: int = 0
    """The least edge of a piece that can lie against the fence."""


NO_LIMITS = Limits()
"""Whatever is cut, the trimmer takes it."""


class FenceSetting(NamedTuple):
    """How the trimmer is set and the paper held."""

    fence: Fence
    distance: int

    def blade(self, box: Edges, kerf: int) -> tuple[int, int]:
        """Return where the blade begins and ends that cuts a piece lying there."""
        low, high = self.fence.axis
        if self.fence.low:
            return box[low] + self.distance, box[low] + self.distance + kerf
        return box[high] - self.distance - kerf, box[high] - self.distance


class PieceShape(NamedTuple):
    """A piece of paper wherever it lies: its size, and the inserts from its lower left corner."""

    width: int
    height: int
    inserts: tuple[Edges, ...]

    @classmethod
    def of(cls, box: Edges, inserts: Sequence[Edges]) -> PieceShape:
        """Return the shape of a piece with these inserts, both as they lie on the sheet."""
        left, low, right, high = box
        moved = ((a - left, b - low, c - left, d - low) for a, b, c, d in inserts)
        return cls(right - left, high - low, tuple(sorted(moved)))

    @property
    def box(self) -> Edges:
        """Return its edges, from its lower left corner."""
        return 0, 0, self.width, self.height

    @property
    def finished(self) -> bool:
        """Return whether nothing is left to cut: it is one insert, or only waste."""
        return not self.inserts or self.inserts == (self.box,)


def parts(
    setting: FenceSetting, box: Edges, inserts: Sequence[Edges], kerf: int
) -> list[tuple[Edges, list[int]]]:
    """Return both parts that a cut leaves of a piece, each with the inserts on it by number.

    Nothing when the blade would run through an insert.
    """
    low, high = setting.fence.axis
    first, second = setting.blade(box, kerf)
    below = [n for n, one in enumerate(inserts) if one[high] <= first]
    above = [n for n, one in enumerate(inserts) if one[low] >= second]
    if len(below) + len(above) < len(inserts):
        return []
    left, bottom, right, top = box
    if setting.fence.upright:
        return [((left, bottom, first, top), below), ((second, bottom, right, top), above)]
    return [((left, bottom, right, first), below), ((left, second, right, top), above)]


class TooMany(Exception):  # noqa: N818 - nothing went wrong
    """There are more ways to cut a sheet than were to be gone through."""


_Both = list[tuple[PieceShape, list[int]]]
"""The two parts of a piece that is cut, each with the inserts on it by number."""


class Shapes:
    """All shapes that a sheet can be cut into, numbered from small to large.

    Where what the trimmer takes is not enough to finish a shape, cuts that it cannot take are
    among them, no more than are needed.
    """

    def __init__(
        self,
        sheet: PieceShape,
        kerf: int,
        limits: Limits = NO_LIMITS,
        *,
        first: bool | None = None,
        most: int | None = None,
    ) -> None:
        """Go through the cuts along edges of inserts.

        With ``first``, a piece that can be cut upright (True) or level (False) is cut so, and
        only what is left is cut across: columns first, or rows. Raises TooMany when there is
        more than ``most`` to go through: ways to cut, times the inserts on the piece.
        """
        self.kerf, self.limits = kerf, limits
        self._first, self._left = first, most
        self._found: dict[PieceShape, dict[FenceSetting, _Both]] = {}
        self._beyond: dict[PieceShape, int] = {}
        found: dict[PieceShape, dict[FenceSetting, _Both]] = {}
        self.beyond = 0
        """How many cuts the trimmer cannot take, at least and piece by piece; NEVER where no cuts
        from edge to edge finish the sheet."""
        if not sheet.finished:
            self.beyond = self._explore(sheet)
            found = self._reached(sheet)
        self.all = sorted(found, key=lambda shape: (shape.width * shape.height, shape))
        self.number = {shape: n for n, shape in enumerate(self.all)}
        self.settings = sorted({setting for cuts in found.values() for setting in cuts})
        numbers = {setting: n for n, setting in enumerate(self.settings)}
        self.ways: list[dict[int, tuple[int, ...]]] = []
        """Of each shape, by the number of a setting: which shapes that leaves unfinished."""
        self.turns: list[tuple[int, int]] = []
        """Of each shape: how often the cuts change direction at least, if they begin along and
        if they begin across."""
        self.needs: list[set[int]] = []
        """Of each shape: for every edge of an insert that is not cut yet, all settings that can
        cut it, now or later, as bits."""
        edges: list[list[int]] = []
        for shape in self.all:
            own = [0] * (4 * len(shape.inserts))
            ways: dict[int, tuple[int, ...]] = {}
            for setting, both in found[shape].items():
                number = numbers[setting]
                left = [(self.number[part], on) for part, on in both if not part.finished]
                ways[number] = tuple(n for n, _ in left)
                low, high = setting.fence.axis
                first_edge, second = setting.blade(shape.box, kerf)
                for n, box in enumerate(shape.inserts):
                    own[4 * n + high] |= (box[high] == first_edge) << number
                    own[4 * n + low] |= (box[low] == second) << number
                # Moving a piece keeps its inserts in order.
                for part, on in left:
                    for place, n in enumerate(on):
                        for side in range(4):
                            own[4 * n + side] |= edges[part][4 * place + side]
            edges.append(own)
            self.ways.append(ways)
            self.needs.append({need for need in own if need})
            self.turns.append(self._turns(ways))

    def takes(self, setting: FenceSetting, shape: PieceShape) -> bool:
        """Return whether the trimmer can cut a piece with this setting."""
        edge = shape.height if setting.fence.upright else shape.width
        return setting.distance >= self.limits.distance and edge >= self.limits.edge

    def _explore(self, shape: PieceShape) -> int:
        """Find the ways to cut a shape; return how many cuts beyond the trimmer it takes.

        At least, and piece by piece; NEVER where no cuts from edge to edge free its inserts.
        """
        known = self._beyond.get(shape)
        if known is not None:
            return known
        every = self._every(shape)
        within = [setting for setting in every if self.takes(setting, shape)]
        tiers = [within, list(every)]
        if self._first is not None:
            tiers.insert(0, [one for one in within if one.fence.upright is self._first])
        beyond: dict[FenceSetting, int] = {}
        for tier in tiers:
            for setting in tier:
                if setting not in beyond:
                    left = (self._explore(part) for part, _ in every[setting] if not part.finished)
                    beyond[setting] = sum(left, int(not self.takes(setting, shape)))
            best = min(beyond.values(), default=NEVER)
            if best == 0:
                break
        self._found[shape] = {
            setting: every[setting] for setting in every if beyond.get(setting) == best
        }
        self._beyond[shape] = min(best, NEVER)
        return self._beyond[shape]

    def _every(self, shape: PieceShape) -> dict[FenceSetting, _Both]:
        every = dict(_cuts(shape, self.kerf))
        if self._left is not None:
            self._left -= len(every) * len(shape.inserts)
            if self._left < 0:
                raise TooMany
        return every

    def _reached(self, sheet: PieceShape) -> dict[PieceShape, dict[FenceSetting, _Both]]:
        """Return the ways to cut each shape that is come to from the whole sheet."""
        reached: dict[PieceShape, dict[FenceSetting, _Both]] = {}
        ahead = [sheet]
        while ahead:
            shape = ahead.pop()
            if shape not in reached:
                reached[shape] = self._found[shape]
                ahead += [
                    part
                    for both in reached[shape].values()
                    for part, _ in both
                    if not part.finished
                ]
        return reached

    def _turns(self, ways: dict[int, tuple[int, ...]]) -> tuple[int, int]:
        best = [NEVER, NEVER]
        for setting, left in ways.items():
            own = self.settings[setting].fence.upright
            turns = (min(self.turns[n][own], 1 + self.turns[n][not own]) for n in left)
            best[own] = min(best[own], max(turns, default=0))
        return best[0], best[1]


def _cuts(
    shape: PieceShape, kerf: int
) -> Iterator[tuple[FenceSetting, list[tuple[PieceShape, list[int]]]]]:
    """Yield each setting that cuts along an edge of an insert and clear of all, and the parts."""
    for fence in Fence:
        low, high = fence.axis
        across = shape.box[high]
        above = {box[high] for box in shape.inserts if box[high] < across}
        below = {box[low] - kerf for box in shape.inserts if box[low] > 0}
        for first in sorted(above | below):
            distance = first if fence.low else across - first - kerf
            setting = FenceSetting(fence, distance)
            both = parts(setting, shape.box, shape.inserts, kerf)
            if distance > 0 and both:
                yield (
                    setting,
                    [(PieceShape.of(box, [shape.inserts[n] for n in on]), on) for box, on in both],
                )
