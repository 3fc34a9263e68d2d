"""The compositor: one font and style, and what they make of any text on any edge."""

from __future__ import annotations

from bisect import bisect
from collections.abc import Iterable
from functools import lru_cache
from itertools import accumulate, pairwise
from math import floor
from typing import NamedTuple

from engine.lettering.breaking import breaks
from engine.lettering.faces import open_face
from engine.lettering.fonts import narrowed
from engine.lettering.furniture import safe_area
from engine.lettering.scripts import is_all_east_asian, is_east_asian
from engine.lettering.shaping import ShapedLine, measure
from engine.lettering.style import TypeStyle
from engine.lettering.vertical import measure_upright
from engine.model import FontRef, Rect, Size
from engine.model.units import MM_PER_POINT

_DASHES = "-\u2010\u2012\u2013\u2014"
_WORTH = 0.85
"""A break inside a word, or between ideographs, is taken before one at a space only where it
makes the longer line shorter than this part of it."""

_TENTHS = 10 / MM_PER_POINT
"""Tenths of a point in a millimetre."""


class TypeArea(NamedTuple):
    """What an edge offers: where type may stand, and the largest size of one and two lines."""

    area: Rect
    one: float
    two: float


class SizedLines(NamedTuple):
    """Lines and the size in points at which they are set."""

    lines: tuple[str, ...]
    size: float
    most: float
    """The largest size at which they fit."""


class Compositor:
    """Fits text to edges in one font and style; everything is measured once at one em."""

    upright = False
    """Whether its lines are set top down."""

    def __init__(self, font: FontRef, style: TypeStyle, width: float = 1.0) -> None:
        """Open ``font`` condensed to ``width``; FontError when that cannot be done."""
        ref, self.squeeze = narrowed(font, width)
        self.face = open_face(ref)
        self.style = style
        self.width = width
        self.rise, self.fall, self.cap = self.face.rise, self.face.fall, self.face.cap
        self.ink = lru_cache(maxsize=4096)(self._ink)
        self.halves = lru_cache(maxsize=4096)(self._halves)
        self.room = lru_cache(maxsize=256)(self._room)

    def largest(self, text: str, edge: Size) -> SizedLines:
        """Return ``text`` in one line or two, whichever is set larger on ``edge``."""
        room, lines = self.room(edge), (text,)
        size = self.size(lines, edge)
        if self.style.lines > 1 and size < room.two and (halves := self.halves(text)):
            two = self.size(halves, edge)
            if two > size:
                return SizedLines(halves, two, two)
        return SizedLines(lines, size, size)

    def fitted(self, lines: tuple[str, ...], edge: Size) -> SizedLines:
        """Return just these lines, as large as they can be."""
        most = self.size(lines, edge)
        return SizedLines(lines, most, most)

    def set_at(self, text: str, size: float, edge: Size) -> SizedLines | None:
        """Return ``text`` at just that size, in one line or else two; None if it does not fit."""
        most = self.size((text,), edge)
        if most >= size:
            return SizedLines((text,), size, most)
        if self.style.lines > 1 and self.room(edge).two >= size and (halves := self.halves(text)):
            most = self.size(halves, edge)
            return SizedLines(halves, size, most) if most >= size else None
        return None

    def size(self, lines: tuple[str, ...], edge: Size) -> float:
        """Return the largest size, down to a tenth of a point, at which lines fit the edge."""
        inks = [self.ink(line) for line in lines]
        area = self.room(edge).area
        width = max([ink.width for ink in inks]) * self.squeeze
        em = area.height / self.block(inks)
        if width * em > area.width:
            em = area.width / width
        most = floor(em * _TENTHS + 1e-9) / 10
        return most if most < self.style.largest else self.style.largest

    def block(self, inks: list[ShapedLine]) -> float:
        """Return how high lines are, from ink top to ink bottom, in ems."""
        high = max(self.rise, inks[0].reach.top) - min(self.fall, inks[-1].reach.bottom)
        return high + sum(self.leads(inks)) if len(inks) > 1 else high

    def leads(self, inks: list[ShapedLine]) -> list[float]:
        """Return the distances between baselines, in ems, so that no ink of two lines meets."""
        clear = self.style.leading - (self.rise - self.fall)
        return [
            max(self.rise, lower.reach.top) - min(self.fall, upper.reach.bottom) + clear
            for upper, lower in pairwise(inks)
        ]

    def _ink(self, text: str) -> ShapedLine:
        return measure(text, self.face, self.style.fallbacks)

    def _halves(self, text: str) -> tuple[str, str] | None:
        """Return ``text`` broken once where UAX #14 allows, balanced; None if it cannot be."""
        spots = [at for at in breaks(text) if text[at] not in _DASHES]
        if not spots:
            return None
        widths = list(accumulate(self._advances(text), initial=0.0))
        middle = bisect(widths, widths[-1] / 2)

        def longer(at: int) -> float:
            return max(widths[at - (text[at - 1] == " ")], widths[-1] - widths[at])

        def balanced(spots: list[int]) -> int:
            near = bisect(spots, middle)
            return min(spots[max(near - 2, 0) : near + 2], key=longer)

        spaced = [at for at in spots if text[at - 1] == " "]
        at = balanced(spaced or spots)
        if len(spaced) < len(spots):
            inside = balanced(spots)
            at = inside if longer(inside) < _WORTH * longer(at) else at
        return text[:at].rstrip(), text[at:].lstrip()

    def _room(self, edge: Size) -> TypeArea:
        area = safe_area(edge, self.style.furniture)
        line = self.rise - self.fall
        one, two = (area.height / MM_PER_POINT / high for high in (line, line + self.style.leading))
        return TypeArea(area, min(one, self.style.largest), min(two, self.style.largest))

    def _advances(self, text: str) -> Iterable[float]:
        """Return how far each character moves along the line, near enough to choose a break."""
        ink = self.ink(text)
        only = ink.pieces[0]
        if len(only.steps) == len(text) and only.buffer.direction == "ltr":
            return only.steps
        advances = [0.0] * len(text)
        for piece in ink.pieces:
            for info, step in zip(piece.buffer.glyph_infos, piece.steps, strict=True):
                advances[info.cluster] += step / piece.face.upem
        return advances


class BodyCompositor(Compositor):
    """Sets lines of ideographs, kana or hangul: their body is the height of the line."""

    def __init__(self, font: FontRef, style: TypeStyle, width: float = 1.0) -> None:
        """Open ``font`` condensed to ``width``; FontError when that cannot be done."""
        super().__init__(font, style, width)
        # The em box around an ideograph, 0.88 above and 0.12 below the Latin baseline: the
        # usual ideographic baseline (common practice, no published source).
        self.rise, self.fall, self.cap = 0.88, -0.12, 0.76


class UprightCompositor(Compositor):
    """Sets lines top down: the middle of the column is the baseline, the em its height."""

    upright = True

    def __init__(self, font: FontRef, style: TypeStyle) -> None:
        """Open ``font``; FontError when that cannot be done."""
        super().__init__(font, style)
        self.rise, self.fall, self.cap = 0.5, -0.5, 0.0

    def _ink(self, text: str) -> ShapedLine:
        return measure_upright(text, self.face, self.style.fallbacks)


def compositor_for(
    lines: tuple[str, ...], font: FontRef, style: TypeStyle, width: float = 1.0
) -> Compositor:
    """Return who sets these lines; FontError for a bad font."""
    text = "".join(lines)
    if not is_east_asian(text):
        return compositor(font, style, width)
    if style.upright:
        return _upright(font, style)
    return _body(font, style, width) if is_all_east_asian(text) else compositor(font, style, width)


@lru_cache(maxsize=64)
def compositor(font: FontRef, style: TypeStyle, width: float = 1.0) -> Compositor:
    """Return the usual compositor for a font and a style, condensed to ``width``."""
    return Compositor(font, style, width)


_body = lru_cache(maxsize=64)(BodyCompositor)
_upright = lru_cache(maxsize=64)(UprightCompositor)
