"""What could be wrong with a proposal, and how likely that is."""

from __future__ import annotations

from collections.abc import Iterable
from math import prod

from engine.model.base import Value


class Risk(Value, frozen=True):
    """One thing that could be wrong with a proposal."""

    chance: float
    """That it is, 0 to 1."""
    words: str
    """A sentence for a person."""


def chance_of(risks: Iterable[Risk]) -> float:
    """Return how likely it is that nothing is wrong, the risks taken one by one: 0 to 1."""
    return prod((1.0 - risk.chance for risk in risks), start=1.0)
