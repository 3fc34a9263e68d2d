"""Paper, and how a sheet of it is laid out."""

from __future__ import annotations

from enum import StrEnum

from engine.model.base import Rect, Value


class Margins(Value, frozen=True):
    """What a printer leaves white on each side of the stock, in mm."""

    left: float = 6.0
    right: float = 6.0
    top: float = 6.0
    bottom: float = 12.0


class Stock(Value, frozen=True):
    """Paper as it lies in the printer, upright."""

    id: str
    name: str
    width: float
    height: float
    grammage: float = 200.0
    """g/m2 (ISO 536)."""
    caliper: float = 0.25
    """Thickness in mm (ISO 534)."""
    margins: Margins = Margins()


class Rule(StrEnum):
    """How a sheet is cut into inserts."""

    TRIMMER = "trimmer"
    """Every cut goes edge to edge of the piece in hand (guillotine)."""
    KNIFE = "knife"
    """Free placement."""


class Forme(Value, frozen=True):
    """How a sheet is laid out: the stock, the cutting rule, and the room between things."""

    stock: Stock
    rule: Rule = Rule.TRIMMER
    bleed: float = 1.0
    """How far colour runs past a cut, in mm; home trimmers err by 0.5 to 1 mm (common
    practice, no published source)."""
    gutter: float = 2.0
    """Between two finished inserts, in mm; twice the bleed, so that no bleed is overprinted."""
    foot: float = 8.0
    """A strip along the foot, inside the printable area, for the sheet's number, names and
    the level check bar, in mm."""
    side: float = 6.0
    """A strip along the left side for the upright check bar, in mm."""
    kerf: float = 0.0
    """What the blade takes away, in mm: nothing for a trimmer or a knife, more for a saw."""

    @property
    def printable(self) -> Rect:
        """The rectangle of the stock that the printer reaches."""
        m = self.stock.margins
        return Rect(
            m.left,
            m.bottom,
            self.stock.width - m.left - m.right,
            self.stock.height - m.bottom - m.top,
        )

    @property
    def field(self) -> Rect:
        """The rectangle in which finished inserts may lie, so that their bleed still prints."""
        area = self.printable
        return Rect(
            area.x + self.side,
            area.y + self.foot,
            area.width - self.side,
            area.height - self.foot,
        ).inset(self.bleed)
