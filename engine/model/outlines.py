"""Outlines in mm that are filled with a colour: what patterns and signs are made of."""

from __future__ import annotations

from math import cos, pi, sin
from typing import NamedTuple

Ring = tuple[tuple[float, float], ...]
"""A closed outline without its first point repeated."""


class Patch(NamedTuple):
    """Outlines that are filled with one colour."""

    rings: tuple[Ring, ...]
    """They do not overlap."""
    colour: str


def disc(x: float, y: float, radius: float, corners: int = 48) -> Ring:
    """Return a circle about (x, y) as a polygon; with 48 corners it is round to 0.2 % of it."""
    turns = (2 * pi * corner / corners for corner in range(corners))
    return tuple((x + radius * cos(turn), y + radius * sin(turn)) for turn in turns)


def oblong(left: float, bottom: float, right: float, top: float) -> Ring:
    """Return a rectangle."""
    return ((left, bottom), (right, bottom), (right, top), (left, top))
