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
    def scales(self) -> str:
        """How long lines come out: '99.70 % across, 100.15 % up'."""
        return f"{100 * self.across:.2f} % across, {100 * self.up:.2f} % up"

    @property
    def words(self) -> str:
        """All that was measured, in a line."""
        right, up = self.shift
        off = f"{abs(right):.1f} mm {'left' if right < 0 else 'right'}"
        off += f" and {abs(up):.1f} mm {'down' if up < 0 else 'up'}"
        return f"{self.scales}, {off}, turned {self.turn:+.2f}°, leaning {self.lean:+.2f}°"
