"""What a person set for the whole collection."""

from __future__ import annotations

from typing import Annotated, Literal

import msgspec
from msgspec import Meta

from engine.model import End, FontRef, Forme, InkMode, Rule, Stock, Value
from engine.model.stocks import STOCKS

Length = Annotated[float, Meta(ge=0.0)]
"""A length in mm that cannot be negative."""

Points = Annotated[float, Meta(ge=3.0, le=72.0)]
"""A type size in points."""

_FORME = Forme(STOCKS["a4-card"])


class Lettering(Value, frozen=True):
    """How titles are set on edges."""

    font: FontRef | None = None
    """Its path is a name in the collection's ``fonts/``; None is the font that ships."""
    mode: Literal["even", "free"] = "free"
    """One size for all titles of a case kind, or each as large as it can be."""
    lines: Literal[1, 2] = 2
    """A title is set in at most so many."""
    smallest: Points = 5.0
    largest: Points = 24.0
    narrowest: Annotated[float, Meta(ge=0.7, le=1.0)] = 1.0
    """How far type may be condensed, 1 not at all."""
    distance: Annotated[float, Meta(ge=100.0, le=10_000.0)] = 500.0
    """From how far the edges are to be read, in mm: arm's length."""
    upright: tuple[str, ...] = ()
    """Case kinds, by id, on whose turned edges ideographs and kana stand upright; "" is all."""
    dictionary: dict[str, str] = {}
    """The person's own short forms by the words they stand for."""
    mark: str = ""
    """The column of the list whose words stand on every edge as a mark; empty for none."""
    mark_room: Annotated[float, Meta(ge=2.0, le=40.0)] = 6.0
    mark_end: End = End.FOOT
    mark_across: bool = False
    """Marks stand upright on turned edges: they also show which way is up."""
    stripe: str = ""
    """The column whose words each have a stripe of one colour; empty for none."""
    stripe_room: Annotated[float, Meta(ge=0.5, le=20.0)] = 2.0


class Settings(Value, frozen=True):
    """The paper, the cutting rule, the habits; lengths in mm."""

    stock: Stock = STOCKS["a4-card"]
    rule: Rule = Rule.TRIMMER
    bleed: Length = _FORME.bleed
    gutter: Length = _FORME.gutter
    foot: Length = _FORME.foot
    side: Length = _FORME.side
    pose: Literal["shelf", "drawer", "stack"] | None = None
    """How the cases are kept; None leaves it to each case kind."""
    spine: Literal["descending", "ascending"] = "descending"
    """Which way titles run on upright edges."""
    threshold: Annotated[float, Meta(ge=0.0, le=1.0)] = 0.85
    """A match or a proposal below this confidence is left for the person to confirm."""
    patience: Annotated[int, Meta(ge=1)] = 4
    """After this many sheets the oldest waiting insert must be on the next one."""
    batch_size: Annotated[int, Meta(ge=1)] = 6
    batch: tuple[str, ...] = ()
    """The games being worked on today, by id."""
    poses: dict[str, Literal["shelf", "drawer", "stack"]] = {}
    """How the cases of one kind are kept, by the kind's id; goes before ``pose``."""
    left_out: dict[str, tuple[str, ...]] = {}
    """Panels that inserts go without, by the kind's id; those under "" count for every kind."""
    stocks: dict[str, str] = {}
    """The stock that inserts of one kind are printed on, its id by the kind's; ``stock`` where
    there is none."""
    kerf: Length = 0.0
    """What the blade takes away; see ``Forme.kerf``."""
    colour_by: str = "picture"
    """The column of the list whose groups have one colour each; "picture" colours every insert
    from its own picture."""
    pins: dict[str, dict[str, str]] = {}
    """The colours that a person gave to groups, ``#rrggbb``: by column, then by group."""
    ink: InkMode = InkMode.FULL
    """How much ink inserts are printed with that say nothing else."""
    case: str = ""
    """The case kind of games whose list names none; empty until one is chosen."""

    lettering: Lettering = Lettering()
    """How titles are set on edges."""

    @property
    def forme(self) -> Forme:
        """How a sheet of the usual stock is laid out under these settings."""
        return self.forme_on(self.stock)

    def forme_on(self, stock: Stock) -> Forme:
        """Return how a sheet of this stock is laid out."""
        return Forme(
            stock=stock,
            rule=self.rule,
            bleed=self.bleed,
            gutter=self.gutter,
            foot=self.foot,
            side=self.side,
            kerf=self.kerf,
        )

    def stock_of(self, kind: str) -> Stock:
        """Return the stock that inserts of a kind are printed on.

        The margins set for the usual stock hold for every stock: they are the printer's.
        """
        wanted = STOCKS.get(self.stocks.get(kind, ""))
        if wanted is None or wanted.id == self.stock.id:
            return self.stock
        return msgspec.structs.replace(wanted, margins=self.stock.margins)
