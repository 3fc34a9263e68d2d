"""What a printer makes of a page on one stock, as it was measured on a check page."""

from __future__ import annotations

from typing import NamedTuple

from engine.model.base import Instant, Value
from engine.model.units import Degrees, Mm, Share


class Shift(NamedTuple):
    """How far something lies off, in mm."""

    right: Mm
    up: Mm


class Calibration(Value, frozen=True):
    """Where a printer puts the points of a page on the paper.

    The page's lower left corner comes to lie at ``shift`` from the paper's. A level line is
    ``across`` times as long as it should be and turned by ``turn``; an upright one is ``up``
    times as long and turned by ``turn`` and ``lean``.
    """

    printer: str
    """As the settings name it; '' for the only one."""
    stock: str
    """The id of the paper that it was measured on."""
    across: Share
    up: Share
    turn: Degrees
    """Paper that was fed askew."""
    lean: Degrees
    """What a right angle is too wide: lines that should be square to each other are not."""
    shift: Shift
    measured_at: Instant
    back: Shift | None = None
    """Where the middle of the front lies on the back, as the back is read; None where it was
    not measured."""

    @property
    def words(self) -> str:
        """What was measured, for the foot of a page: '99.70 % across, 100.15 % up'."""
        parts = [f"{self.across:.2%} across, {self.up:.2%} up".replace("%", " %")]
        parts.append(f"{self.shift.right:+.1f} and {self.shift.up:+.1f} mm off")
        parts.append(f"turned {self.turn:+.2f}°, leaning {self.lean:+.2f}°")
        return ", ".join(parts)
