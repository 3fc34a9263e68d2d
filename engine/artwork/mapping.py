"""Where a box in the picture as it came lies once the picture is straightened.

Boxes come in fractions of the picture, from its upper left corner; what comes back is in pixels of
the straightened picture, whose frame is the same (see ``straightening``). Trims and splits cut that
frame; see ``windows.part_of``.
"""

from __future__ import annotations

from math import cos, radians, sin

from engine.artwork.windows import PixelRect

Fractions = tuple[float, float, float, float]
"""Left, top, right and bottom."""

LEAST = 0.5
"""Part of a box's side that is left at least when what a skew adds to it is taken off."""


def straight_box(box: Fractions, turn: float, size: tuple[float, float]) -> PixelRect:
    """Return ``box`` after the picture of ``size`` pixels is turned by ``turn`` degrees.

    ``turn`` is counter-clockwise, about the picture's centre. What the box is around lay askew by
    as much, so the upright box around it was larger than it is: that is taken off.
    """
    width, height = size
    left, top, right, bottom = box
    across, down = (right - left) * width, (bottom - top) * height
    x, y = (left + right) / 2 * width, (top + bottom) / 2 * height
    if turn:
        x, y = _turned(x - width / 2, y - height / 2, turn)
        x, y = x + width / 2, y + height / 2
        across, down = _without_skew(across, down, turn)
    return PixelRect(x - across / 2, y - down / 2, x + across / 2, y + down / 2)


def _turned(across: float, down: float, degrees: float) -> tuple[float, float]:
    """Return a point turned counter-clockwise as one sees it about the origin, y downwards."""
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return c * across + s * down, c * down - s * across


def _without_skew(across: float, down: float, degrees: float) -> tuple[float, float]:
    """Return the sides of the box around which, turned so far, is an upright box of these sides.

    An oblong of w by h turned by t has w cos t + h sin t across and w sin t + h cos t down: two
    equations for w and h.
    """
    c, s = cos(radians(degrees)), abs(sin(radians(degrees)))
    both = c * c - s * s
    if both <= 0.0:
        return across, down
    return (
        max(LEAST * across, (across * c - down * s) / both),
        max(LEAST * down, (down * c - across * s) / both),
    )


def overlap(one: PixelRect, other: PixelRect) -> PixelRect:
    """Return what two boxes have in common; without width or height where that is nothing."""
    left, top = max(one.left, other.left), max(one.top, other.top)
    return PixelRect(
        left, top, max(left, min(one.right, other.right)), max(top, min(one.bottom, other.bottom))
    )


def area(box: PixelRect) -> float:
    """Return the area of a box in square pixels."""
    return box.width * box.height
