"""Units: millimetres everywhere in Spinery, points and pixels only at its borders.

A figure carries its unit in its type, so that what is shown of it need not be told again: a
writer of JSON names ``width: Mm`` ``width_mm``.
"""

from __future__ import annotations

from math import ceil, floor, isfinite
from typing import Annotated

from msgspec import Meta

MM = Meta(extra={"unit": "mm", "decimals": 3})
"""Millimetres; a thousandth of one is plenty. So marked may be one figure, or what holds many."""
POINTS = Meta(extra={"unit": "pt", "decimals": 2})
"""Points of type."""
DEGREES = Meta(extra={"unit": "deg"})
"""Degrees counter-clockwise."""
PERCENT = Meta(extra={"unit": "percent", "decimals": 2})
"""Percent, 0 to 100."""
SHARE = Meta(extra={"unit": "percent", "decimals": 2, "times": 100})
"""A part of a whole, 0 to 1, which is shown in percent."""

SPREAD = Meta(extra={"spread": True})
"""What a value holds is shown as if it stood in the place of the value."""
BY_ID = Meta(extra={"by_id": True})
"""Of the value its id is shown."""


def rounded(decimals: int) -> Meta:
    """Return what marks figures of no unit of which so many decimals are shown."""
    return Meta(extra={"decimals": decimals})


Mm = Annotated[float, MM]
Points = Annotated[float, POINTS]
Share = Annotated[float, SHARE]
Degrees = Annotated[float, DEGREES]

MM_PER_INCH = 25.4
"""The international inch of 1959, exactly."""

POINTS_PER_INCH = 72.0
"""ISO 32000-1, 8.3.2.3: the default user space unit of a PDF is 1/72 inch."""

MM_PER_POINT = MM_PER_INCH / POINTS_PER_INCH


TENTHS = 10
"""In a millimetre: what an insert takes of a sheet is counted in whole ones."""
_SLACK = 1e-6
"""Lengths closer than this, in tenths of a millimetre, are the same: floating point is not
paper."""


def taken(mm: float) -> int:
    """Return the tenths of a millimetre that a length takes: never less than it has."""
    return ceil(mm * TENTHS - _SLACK)


def there(mm: float) -> int:
    """Return the whole tenths of a millimetre that a room has: never more than there are."""
    return floor(mm * TENTHS + _SLACK)


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


def figure(said: str) -> float | None:
    """Return a figure as a person types it, with a point or a comma; None if it is none."""
    try:
        value = float(said.strip().removesuffix("mm").replace(",", "."))
    except ValueError:
        return None
    return value if isfinite(value) else None
