"""What cases are kept in: a shelf, a drawer, a box."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta

from engine.model.base import Value
from engine.model.units import Mm, Share

Inside = Annotated[Mm, Meta(gt=0, le=10_000)]


class Container(Value, frozen=True):
    """A shelf, drawer or box by its inside, as one stands before it."""

    name: str
    width: Inside
    """From left to right."""
    height: Inside
    depth: Inside
    """From front to back."""
    pose: Literal["shelf", "drawer", "stack"] = "shelf"
    """How cases stand in it: upright with the spine out; on their feet, seen from above; lying in
    piles, seen from the front."""
    kinds: tuple[str, ...] = ()
    """The case kinds that it is for; empty for all that fit."""
    growth: Annotated[Share, Meta(ge=0, le=0.9)] = 0.1
    """The part of it that is left empty at first, so that new games need not push others on."""
