"""What could be wrong with a proposal, and how likely that is."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from math import prod

from engine.model.base import Value


class RiskKind(StrEnum):
    """What a person would find wrong."""

    PICTURE = "picture"
    """It is another game's."""
    LETTERING = "lettering"
    """A line of lettering is cut."""
    TITLE = "title"
    """The title is lost, or a line that belongs to it."""
    SUBJECT = "subject"
    """What the picture shows is cut."""
    SPLIT = "split"
    """A picture is split that is no wrap, a wrap is not, or it is split beside its spine."""
    TRIM = "trim"
    """A bar is trimmed that is none, or a part of one is left."""
    BORDER = "border"
    """Some of a border is left, or some of the art cut with it."""
    TURN = "turn"
    """It is turned though it lay straight, or still lies askew."""
    STRETCH = "stretch"
    """The stretch is seen."""
    MATTE = "matte"
    """More of the panel is empty than had to be."""
    SOFTNESS = "softness"
    """It has too few pixels."""
    EDGE_TITLE = "edge title"
    """The title on an edge is too small, cut short or in the wrong letters."""
    ROOM = "room"
    """The insert does not fit on the paper."""


class Risk(Value, frozen=True):
    """One thing that could be wrong with a proposal."""

    kind: RiskKind
    chance: float
    """That it is, 0 to 1."""
    words: str
    """A sentence for a person."""


def chance_of(risks: Iterable[Risk]) -> float:
    """Return how likely it is that nothing is wrong, the risks taken one by one: 0 to 1."""
    return prod((1.0 - risk.chance for risk in risks), start=1.0)
