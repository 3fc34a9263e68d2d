"""What a person set for the whole collection."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta

from engine.collection.stocks import STOCKS
from engine.values import Forme, Rule, Stock, Value

Length = Annotated[float, Meta(ge=0.0)]
"""A length in mm that cannot be negative."""

_FORME = Forme(STOCKS["a4-card"])


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
    case: str = ""
    """The case kind of games whose list names none; empty until one is chosen."""

    @property
    def forme(self) -> Forme:
        """How a sheet is laid out under these settings."""
        return Forme(
            stock=self.stock,
            rule=self.rule,
            bleed=self.bleed,
            gutter=self.gutter,
            foot=self.foot,
            side=self.side,
        )
