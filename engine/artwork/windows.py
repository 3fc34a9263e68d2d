"""What of a picture covers a panel: boxes in pixels, from the picture's upper left corner.

The one place that turns an Art into geometry; judging reads its numbers from these boxes and
rendering its pixels, so what is said is what is printed.
"""

from __future__ import annotations

from typing import NamedTuple

from engine.model import Art, Fit, Size, Trim
from engine.model.units import MM_PER_INCH

DOTS_PPI = 300.0
"""Dots to the inch in which each pixel of a screenshot is drawn as a square of whole dots."""

FRONT, SPINE, BACK = "front", "spine", "back"
"""The parts of a flat cover scan."""


SEAM = 0.0015
"""What is left off each part beside a split, as part of the trimmed width: a scanned edge has some
width, and a hair of the neighbour's colour shows more than a hair of one's own is missed."""


class PixelRect(NamedTuple):
    """A rectangle in pixels, y downwards. It may reach beyond the picture it speaks of."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """Return the width in pixels."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Return the height in pixels."""
        return self.bottom - self.top


def part_of(size: tuple[float, float], art: Art, part: str = "") -> PixelRect:
    """Return the box of a picture of ``size`` that ``art`` leaves after trimming and splitting.

    ``part`` is FRONT, SPINE or BACK; empty takes the front of a split scan. Without a split
    every part is the whole picture. A scan shows back, spine, front from left to right.
    """
    width, height = size
    trim = art.trim
    left, right = trim.left * width, (1.0 - trim.right) * width
    top, bottom = trim.top * height, (1.0 - trim.bottom) * height
    if art.split is not None:
        seam = SEAM * (right - left)
        first, second = (left + cut * (right - left) for cut in art.split)
        match part:
            case "spine":
                left, right = first + seam, second - seam
            case "back":
                right = first - seam
            case _:
                left = second + seam
    return PixelRect(left, top, right, bottom)


def moved_split(
    split: tuple[float, float] | None, trim: Trim, other: Trim
) -> tuple[float, float] | None:
    """Return where a split of a picture trimmed by ``trim`` lies when ``other`` trims it."""
    if split is None or trim == other:
        return split
    left, width = trim.left, 1.0 - trim.left - trim.right
    first, second = (
        (left + cut * width - other.left) / (1.0 - other.left - other.right) for cut in split
    )
    return first, second


def room(panel: Size, art: Art) -> Size:
    """Return what of ``panel`` is the picture's, from its upper left: all but the band of words."""
    return Size(panel.width * (1.0 + min(0.0, art.band)), panel.height * (1.0 - max(0.0, art.band)))


class Bleed(NamedTuple):
    """How far the bleed runs past each side of a panel in its reading frame, in mm."""

    left: float = 0.0
    bottom: float = 0.0
    right: float = 0.0
    top: float = 0.0


def bled(shown: PixelRect, panel: Size, bleed: Bleed) -> PixelRect:
    """Return what covers ``panel`` and its bleed, where ``shown`` covers the panel."""
    across, down = shown.width / panel.width, shown.height / panel.height
    return PixelRect(
        shown.left - bleed.left * across,
        shown.top - bleed.top * down,
        shown.right + bleed.right * across,
        shown.bottom + bleed.bottom * down,
    )


def window(size: tuple[float, float], panel: Size, art: Art, dot: int = 1) -> PixelRect:
    """Return what of a part of ``size`` pixels covers ``panel``, from the part's corner.

    It lies within the part where the panel is filled and reaches beyond it where a matte shows, or
    a band of words: that lies over what is right of ``room`` or below it. ``dot`` is how many
    pixels make a side of one dot of a screenshot.
    """
    width, height = size
    its = room(panel, art)
    across, down = scales(size, its, art, dot)
    left = _placed(width, across * its.width, art.focus[0])
    top = _placed(height, down * its.height, art.focus[1])
    return PixelRect(left, top, left + across * panel.width, top + down * panel.height)


def scales(size: tuple[float, float], panel: Size, art: Art, dot: int = 1) -> tuple[float, float]:
    """Return pixels to a mm across ``panel`` and down it, as ``art`` lays a part of ``size``.

    Where the art may be stretched, the side that is drawn too short is drawn longer by that much,
    but no more than it takes to cover the panel.
    """
    across, down = size[0] / panel.width, size[1] / panel.height
    match art.fit:
        case Fit.STRETCH:
            return across, down
        case Fit.FILL:
            most = min(across, down) * (1.0 + art.stretch)
            return min(across, most), min(down, most)
        case Fit.MATTE:
            least = max(across, down) / (1.0 + art.stretch)
            return max(across, least), max(down, least)
        case Fit.PIXELS:
            per_mm = _whole_dots(max(across, down), dot)
            return per_mm, per_mm


def focus_on(there: float, shown: float, start: float) -> float:
    """Return the focus with which a window of ``shown`` pixels begins at ``start`` of ``there``."""
    return min(max((start + shown / 2) / there, 0.0), 1.0)


def _placed(there: float, shown: float, focus: float) -> float:
    """Return where a window of ``shown`` pixels begins on ``there``: at the focus, held inside."""
    if shown >= there:
        return (there - shown) / 2
    return min(max(focus * there - shown / 2, 0.0), there - shown)


def _whole_dots(per_mm: float, dot: int) -> float:
    """Return pixels a mm at which each dot of a screenshot is a whole number of printed dots.

    ``per_mm`` just shows it whole; the result is the next coarser that is whole dots. A screenshot
    with more dots than the panel has at DOTS_PPI is shown whole, dots or not.
    """
    printed = DOTS_PPI / MM_PER_INCH
    factor = int(printed * dot / per_mm + 1e-9)
    return printed * dot / factor if factor else per_mm
