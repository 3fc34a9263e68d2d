"""Art without a picture: patterns in two tones of the base colour, as outlines to be filled.

Everything is in the panel's reading frame, mm from its lower left corner, y up; the outlines are
cut off where the bleed ends and laid out from the panel's centre, so that they are symmetrical.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import ceil, cos, pi, radians, sin
from typing import TYPE_CHECKING

from engine.artwork.windows import Bleed
from engine.colours.colour import shade
from engine.model import Pattern, Size
from engine.model.outlines import Patch, Ring, disc, oblong

if TYPE_CHECKING:
    from shapely.geometry import Polygon

PITCH = 6.0
"""From one stripe, dot or square to the next, in mm: a few on the smallest panel."""

TONE = 8.0
"""How much lighter or darker the second tone is, in CIE L*: seen, but quiet."""


def draw_pattern(pattern: Pattern, panel: Size, bleed: Bleed, base: str) -> tuple[Patch, ...]:
    """Return the patches that cover ``panel`` and its ``bleed`` with ``pattern``, ground first."""
    from shapely.geometry import box

    area = box(-bleed.left, -bleed.bottom, panel.width + bleed.right, panel.height + bleed.top)
    ground = Patch((_ring(area),), base)
    motif = _MOTIFS.get(pattern)
    if motif is None:
        return (ground,)
    reach = max(panel) / 2 + max(bleed) + PITCH
    middle = (panel.width / 2, panel.height / 2)
    rings: list[Ring] = []
    for outline in motif(reach):
        rings += _within(tuple((x + middle[0], y + middle[1]) for x, y in outline), area)
    return (ground, Patch(tuple(rings), shade(base, TONE)))


def _within(outline: Ring, area: Polygon) -> list[Ring]:
    from shapely.geometry import Polygon

    shape = Polygon(outline)
    if area.contains(shape):
        return [outline]
    cut = shape.intersection(area)
    parts = getattr(cut, "geoms", [cut])
    return [_ring(part) for part in parts if part.geom_type == "Polygon" and not part.is_empty]


def _ring(shape: Polygon) -> Ring:
    return tuple((float(x), float(y)) for x, y in shape.exterior.coords[:-1])


def _steps(reach: float, pitch: float) -> Iterator[int]:
    count = ceil(reach / pitch)
    return iter(range(-count, count + 1))


def _stripes(reach: float) -> Iterator[Ring]:
    """Yield bands that rise at 45 degrees, as wide as the gaps between them."""
    width = PITCH / 2 / cos(radians(45))
    for step in _steps(2 * reach, 2 * width):
        x = step * 2 * width - width / 2
        yield (
            (x - reach, -reach),
            (x - reach + width, -reach),
            (x + reach + width, reach),
            (x + reach, reach),
        )


def _dots(reach: float) -> Iterator[Ring]:
    """Yield dots in rows, each row set off by half a pitch."""
    rise = PITCH * sin(radians(60))
    for row in _steps(reach, rise):
        for column in _steps(reach, PITCH):
            yield disc((column + 0.5 * (row % 2)) * PITCH, row * rise, PITCH / 4)


def _chequers(reach: float) -> Iterator[Ring]:
    """Yield every second square of a board."""
    half = PITCH / 2
    for row in _steps(reach, PITCH):
        for column in _steps(reach, PITCH):
            if (row + column) % 2 == 0:
                x, y = column * PITCH, row * PITCH
                yield oblong(x - half, y - half, x + half, y + half)


def _waves(reach: float) -> Iterator[Ring]:
    """Yield level bands that swing, as wide as the gaps between them."""
    points = [reach * step / 60 for step in range(-60, 61)]
    swing = [PITCH / 3 * sin(2 * pi * x / (3 * PITCH)) for x in points]
    for row in _steps(reach, PITCH):
        low, high = row * PITCH - PITCH / 4, row * PITCH + PITCH / 4
        below = [(x, low + y) for x, y in zip(points, swing, strict=True)]
        above = [(x, high + y) for x, y in zip(points, swing, strict=True)]
        yield (*below, *reversed(above))


_MOTIFS: dict[Pattern, Callable[[float], Iterator[Ring]]] = {
    Pattern.STRIPES: _stripes,
    Pattern.DOTS: _dots,
    Pattern.CHEQUERS: _chequers,
    Pattern.WAVES: _waves,
}
