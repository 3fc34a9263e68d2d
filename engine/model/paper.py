"""Paper, and how a sheet of it is laid out."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Literal

import msgspec
from msgspec import Meta

from engine.model.base import Rect, Size, Value
from engine.model.setting import setting
from engine.model.units import BY_ID, MM, TENTHS, Mm, taken, there

Length = Annotated[Mm, Meta(ge=0)]
"""In mm; it cannot be negative."""


BAR_STRIP = 3.7
"""What a check bar takes of a strip, with the crop ticks beside it, in mm."""
_SEEN = 0.8
"""The least bleed in mm beside which crop ticks show at an edge that has no strip: they stand
off by half a millimetre, and a shorter one than 0.3 mm is left out."""
_CLOSE = 0.01
"""Rounding of lengths, and of their quotients."""


class Margins(Value, frozen=True):
    """What a printer leaves white on each side of the stock, in mm."""

    left: Length = 6.0
    right: Length = 6.0
    top: Length = 6.0
    bottom: Length = 12.0


class Stock(Value, frozen=True):
    """Paper as it lies in the printer, upright."""

    id: str
    name: str
    width: Mm
    height: Mm
    grammage: float = 200.0
    """g/m2 (ISO 536)."""
    margins: Annotated[
        Margins, MM, setting("Margins", "What the printer leaves white on each side of a sheet.")
    ] = Margins()
    caliper: Annotated[
        Mm,
        setting(
            "Caliper",
            "The thickness of the paper: measure ten sheets with calipers and divide by ten.",
            ge=0.03,
            le=1.0,
        ),
    ] = 0.25
    """ISO 534. From tissue to board: what a home printer feeds lies between (common practice, no
    published source)."""
    grain: Literal["", "long", "short"] = ""
    """The side that the fibres run along; '' where nobody knows."""
    feed: str = ""
    """How it is laid into the printer, in words: 'face down, short edge first'."""

    def crosses(self, *, upright: bool) -> bool:
        """Return whether a line on it crosses its grain; False where that is not known."""
        return bool(self.grain) and upright is not ((self.grain == "long") == self.is_upright)

    @property
    def is_upright(self) -> bool:
        """Whether its long side stands upright."""
        return self.height >= self.width


class Rule(StrEnum):
    """How a sheet is cut into inserts."""

    TRIMMER = "trimmer"
    """Every cut goes edge to edge of the piece in hand (guillotine)."""
    KNIFE = "knife"
    """Free placement."""


class Forme(Value, frozen=True):
    """How a sheet is laid out: the stock, the cutting rule, and the room between things."""

    stock: Annotated[Stock, BY_ID]
    rule: Rule = Rule.TRIMMER
    bleed: Mm = 1.0
    """How far colour runs past a cut, in mm; home trimmers err by 0.5 to 1 mm (common
    practice, no published source)."""
    gutter: Mm = 2.0
    """Between two finished inserts, in mm; twice the bleed, so that no bleed is overprinted."""
    foot: Mm = 8.0
    """A strip along the foot, inside the printable area, for the sheet's number, names and
    the level check bar, in mm."""
    side: Mm = 6.0
    """A strip along the left side for the upright check bar, in mm."""
    names: Literal["foot", "side"] = "foot"
    """Where the names of inserts stand: along the foot, or up the left side."""
    kerf: Mm = 0.0
    """What the blade takes away, in mm: nothing for a trimmer or a knife, more for a saw."""
    least_distance: Mm = 10.0
    """The least from the trimmer's fence to its blade, in mm: about what the clamp or guard of a
    home trimmer covers beside the blade (common practice, no published source)."""
    least_edge: Mm = 25.0
    """The shortest edge that lies square against the fence, in mm: along less than a thumb's
    breadth a piece turns under the blade (common practice, no published source)."""
    stack: Mm = 0.5
    """How thick a stack the trimmer cuts, in mm: five sheets of 80 g/m2, the least that home
    trimmers are made for (common practice, no published source)."""
    registered: bool = False
    """Whether registration marks stand in its corners: then both strips are kept."""

    @property
    def depth(self) -> int:
        """How many pieces of the stock are cut together."""
        return max(1, int(self.stack / self.stock.caliper + _CLOSE))

    @property
    def with_names_beside(self) -> Forme:
        """The same with the names of inserts up the left side: less breadth, more height."""
        if self.names == "side":
            return self
        freed = max(0.0, self.foot - BAR_STRIP)
        return msgspec.structs.replace(
            self, names="side", foot=self.foot - freed, side=self.side + freed
        )

    @property
    def has_both_strips(self) -> bool:
        """Whether a check bar stands each way, and registration marks have their corners."""
        return min(self.foot, self.side) >= BAR_STRIP - _CLOSE

    @property
    def with_bars(self) -> tuple[Forme, Forme]:
        """The ways to lay out a sheet with a check bar each way, the usual one first."""
        return self, self.with_names_beside

    @property
    def with_one_bar(self) -> tuple[Forme, ...]:
        """The ways that leave inserts most room: all in one strip, at the foot or up the side.

        The other way of the paper is then measured from tick to tick. A strip at the head or the
        right would leave the same field. None where registration marks need both strips, or where
        no tick shows beside the bleed.
        """
        if self.registered or self.bleed < _SEEN or not self.has_both_strips:
            return ()
        at_foot = msgspec.structs.replace(self, side=0.0)
        up_side = msgspec.structs.replace(self, side=self.foot, foot=0.0, names="side")
        return at_foot, up_side

    @property
    def ways(self) -> tuple[Forme, ...]:
        """All ways to lay out a sheet, those that measure best first."""
        return *self.with_bars, *self.with_one_bar

    def holds(self, width: float, height: float, *, turns: bool = True) -> bool:
        """Return whether a finished insert fits a sheet laid out so, in tenths as it is packed."""
        return not any(self.lacking(width, height, turns=turns))

    def lacking(self, width: float, height: float, *, turns: bool = True) -> Size:
        """Return how much wider and higher the field has to be for a finished insert, in mm.

        The way round that lacks least; nothing where it fits.
        """
        across, up = (there(side + self.gutter) for side in self.field[2:])
        w, h = taken(width + self.gutter), taken(height + self.gutter)
        ways = [(w, h), (h, w)] if turns else [(w, h)]
        lacks = [(max(0, w - across) / TENTHS, max(0, h - up) / TENTHS) for w, h in ways]
        return Size(*min(lacks, key=sum))

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
