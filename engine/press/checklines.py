"""The lines of a check page that are measured, and what their lengths say of the printer.

Seven lengths tell everything that a printer can do evenly to a page: two bars its scales, the
two diagonals of a square whether the bars are square to each other, three distances from the
edges of the paper how it lies there.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import acos, asin, degrees, hypot, sqrt
from typing import NamedTuple

import msgspec

from engine.model import Forme, Instant, Value
from engine.model.calibration import Calibration, Shift
from engine.model.errors import InputError
from engine.model.units import Mm
from engine.press.correcting import printed

INSET = 3.0
"""From what the printer reaches to the two bars, in mm."""
_FAR = 9.0
"""From the far ends of the bars to there, in mm: room for the numbers and a cross."""
DOUBTED = 0.02
"""A length that is off by more than this part of itself: printers err less, a viewer that fits
the page to the paper errs more (common practice, no published source)."""
ASTRAY = 5.0
"""A distance from an edge of the paper that is off by more, in mm, is doubted too."""
APART = 0.7
"""Diagonals that go with the bars less well than this, in mm, were misread: reading a ruler to
a quarter of a millimetre stays below."""


class CheckFigures(Value, frozen=True):
    """What a person measured on a check page, in mm."""

    level: Mm
    upright: Mm
    rising: Mm
    falling: Mm
    left_below: Mm
    left_above: Mm
    bottom: Mm
    back_right: Mm | None = None
    """Where the front's cross shows on the back's scale."""
    back_up: Mm | None = None


SAID: dict[str, str] = {
    "level": "the level bar, A to B",
    "upright": "the upright bar, A to C",
    "rising": "the rising diagonal, A to D",
    "falling": "the falling diagonal, E to F",
    "left_below": "from the left edge of the paper to A",
    "left_above": "from the left edge of the paper to C",
    "bottom": "from the bottom edge of the paper to A",
    "back_right": "on the back: how far right of the middle the front's cross shows",
    "back_up": "on the back: how far above the middle the front's cross shows",
}
"""What each figure is, for a person, in the order in which they are measured."""

OF_BACK = ("back_right", "back_up")
"""Figures that only a page printed on both sides has."""

Point = tuple[float, float]


class CheckLines(NamedTuple):
    """Where the lines lie on the page, in mm from its lower left corner."""

    corner: Point
    """A, where the two bars meet."""
    across: float
    """The level bar, whole mm."""
    up: float
    """The upright bar, whole mm."""
    cross: Point
    """The cross that front and back share, in the middle of the page's width."""

    @property
    def square(self) -> float:
        """The side of the square on the bars whose diagonals are measured."""
        return min(self.across, self.up)

    @property
    def points(self) -> dict[str, Point]:
        """The points between which a person measures, by their letters."""
        (x, y), side = self.corner, self.square
        return {
            "A": (x, y),
            "B": (x + self.across, y),
            "C": (x, y + self.up),
            "D": (x + side, y + side),
            "E": (x, y + side),
            "F": (x + side, y),
        }

    @property
    def figures(self) -> CheckFigures:
        """What would be measured if the printer were true."""
        x, y = self.corner
        diagonal = self.square * sqrt(2)
        return CheckFigures(self.across, self.up, diagonal, diagonal, x, x, y)


def check_lines(forme: Forme) -> CheckLines:
    """Return the lines of the check page on a forme's stock, as long as the paper allows.

    Raises InputError for paper without room for them.
    """
    area = forme.printable
    x, y = area.x + INSET, area.y + INSET
    across = (area.width - INSET - _FAR) // 1
    up = (area.height - INSET - _FAR) // 1
    if min(across, up) < 50:
        stock = forme.stock.name
        raise InputError(
            stock, "is too small for a check page", "Check the printer on a larger one"
        )
    return CheckLines((x, y), across, up, (forme.stock.width / 2, y + 15.0))


def doubts(figures: CheckFigures, lines: CheckLines) -> Iterator[tuple[str, str]]:
    """Yield what is implausible: the figure, and a sentence on it."""
    wanted = lines.figures
    for name in ("level", "upright", "rising", "falling"):
        found, true = getattr(figures, name), getattr(wanted, name)
        if abs(found / true - 1) > DOUBTED:
            yield (
                name,
                (
                    f"{found:g} mm is {found / true:.1%} of {true:.1f} mm. Is the viewer scaling? "
                    "Print the page at 100 %, not fitted to the paper, and measure again."
                ).replace("%", " %", 1),
            )
    for name in ("left_below", "left_above", "bottom"):
        found, true = getattr(figures, name), getattr(wanted, name)
        if abs(found - true) > ASTRAY:
            yield name, f"{found:g} mm is far from {true:g} mm. Measure from the paper's edge."
    for name in OF_BACK:
        found = getattr(figures, name)
        if found is not None and abs(found) > ASTRAY:
            yield name, f"{found:g} mm is more than the back's scale shows. Read it again."
    if abs(_apart(figures, lines)) > APART:
        yield (
            "falling",
            (
                f"The diagonals do not go with the bars, by {abs(_apart(figures, lines)):.1f} mm. "
                "Measure all four again."
            ),
        )


def calibrated(
    figures: CheckFigures, lines: CheckLines, width: float, measured: tuple[str, str, Instant]
) -> Calibration:
    """Return what a printer does to pages on paper of a ``width`` in mm.

    ``measured`` names the printer, the stock, and says when. Raises InputError for figures that
    no printed page can have.
    """
    printer, stock, now = measured
    across, up = figures.level / lines.across, figures.upright / lines.up
    side_a, side_b = lines.square * across, lines.square * up
    # By the law of cosines on both diagonals of the parallelogram that the square became.
    leaning = (figures.rising**2 - figures.falling**2) / (4 * side_a * side_b)
    aside = (figures.left_above - figures.left_below) / figures.upright
    if max(abs(leaning), abs(aside)) > 0.1:
        raise InputError("check page", "no page has these lengths", "Measure again")
    lean = degrees(acos(leaning)) - 90.0
    turn = -degrees(asin(aside)) - lean
    found = Calibration(printer, stock, across, up, turn, lean, Shift(0.0, 0.0), now)
    x, y = printed(found).transformPoint(lines.corner)
    found = msgspec.structs.replace(found, shift=Shift(figures.left_below - x, figures.bottom - y))
    if figures.back_right is None or figures.back_up is None:
        return found
    front = printed(found).transformPoint(lines.cross)
    own = printed(msgspec.structs.replace(found, shift=Shift(0.0, 0.0)))
    x, y = own.transformPoint((width - lines.cross[0], lines.cross[1]))
    # Seen from the back, the front's cross lies as far from the other edge of the paper.
    back = Shift(width - front[0] - figures.back_right - x, front[1] - figures.back_up - y)
    return msgspec.structs.replace(found, back=back)


def _apart(figures: CheckFigures, lines: CheckLines) -> float:
    """Return by how much the diagonals differ from what the bars give, in mm.

    The squares of a parallelogram's diagonals are together those of its four sides (the
    parallelogram law, Euclid's Elements II.12 and 13 together).
    """
    sides = hypot(figures.level / lines.across, figures.upright / lines.up) * lines.square
    return hypot(figures.rising, figures.falling) / sqrt(2) - sides
