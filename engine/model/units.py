"""Lengths: millimetres everywhere in Spinery, points and pixels only at its borders."""

from __future__ import annotations

MM_PER_INCH = 25.4
"""The international inch of 1959, exactly."""

POINTS_PER_INCH = 72.0
"""ISO 32000-1, 8.3.2.3: the default user space unit of a PDF is 1/72 inch."""

MM_PER_POINT = MM_PER_INCH / POINTS_PER_INCH


def points(mm: float) -> float:
    """Return ``mm`` in points of 1/72 inch."""
    return mm / MM_PER_POINT


def millimetres(pt: float) -> float:
    """Return ``pt`` points of 1/72 inch in millimetres."""
    return pt * MM_PER_POINT


def pixels(mm: float, ppi: float) -> float:
    """Return how many pixels ``mm`` takes at ``ppi`` pixels to the inch, unrounded."""
    return mm * ppi / MM_PER_INCH


def ppi(pixel_count: float, mm: float) -> float:
    """Return the pixels to the inch of ``pixel_count`` pixels printed ``mm`` long.

    Raises ZeroDivisionError for a length of nothing.
    """
    return pixel_count * MM_PER_INCH / mm
