"""What a person has in the house for the work, and what it costs to buy more."""

from __future__ import annotations

from typing import Annotated

from msgspec import Meta

from engine.model.base import Value

Amount = Annotated[float, Meta(ge=0, le=1_000_000)]


class Pack(Value, frozen=True):
    """What is bought at once of something."""

    holds: Annotated[float, Meta(gt=0, le=1_000_000)] = 1.0
    """Cases or sheets; of ink the page yield of a cartridge, of adhesive cm2."""
    price: Amount | None = None
    """None where it was not said."""


class House(Value, frozen=True):
    """Supplies, by what they are of.

    That is ``case:snap-shell``, ``paper:a4-card``, ``ink:black`` or ``adhesive``.
    """

    have: dict[str, Amount] = {}
    """Cases, sheets, cartridges (a half-empty one is 0.5), cm2 of adhesive."""
    packs: dict[str, Pack] = {}
    currency: str = ""
    """Put behind sums of money, as it is written."""
