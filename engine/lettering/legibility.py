"""How far away type reads: the visual angle of its height.

Height for an angle: h = 2 D tan(angle / 2). ISO 9241-303 asks 16 minutes of arc of a capital
at the least and prefers 20 to 22.
"""

from __future__ import annotations

from math import radians, tan


def _span(angle: float) -> float:
    return 2.0 * tan(radians(angle / 60.0) / 2.0)


LEAST_ANGLE = 16.0
"""Minutes of arc for a capital's height (ISO 9241-303: the least)."""
BODY_ANGLE = 20.0
"""Minutes of arc for the body of an ideograph, whose strokes are finer than a capital's (from
memory of the ISO 9241 series, to be confirmed)."""

_LEAST_SPAN = _span(LEAST_ANGLE)


def reading_distance(height: float, angle: float = LEAST_ANGLE) -> float:
    """Return the farthest distance in mm from which a ``height`` in mm spans ``angle`` minutes."""
    return height / (_LEAST_SPAN if angle == LEAST_ANGLE else _span(angle))
