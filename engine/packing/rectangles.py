"""The rectangles to pack, the field they lie on, and where; all lengths are whole numbers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

Counts = tuple[int, ...]
"""How many of each footprint: what is wanted, or a pattern, which is what one field holds."""


class Footprint(NamedTuple):
    """A size of rectangle."""

    width: int
    height: int
    turns: bool
    """Whether it may lie turned by 90 degrees."""

    @property
    def area(self) -> int:
        """Return its width times its height."""
        return self.width * self.height

    @property
    def ways(self) -> tuple[tuple[int, int], ...]:
        """Return the widths and heights in which it may lie."""
        if self.turns:
            return (self.width, self.height), (self.height, self.width)
        return ((self.width, self.height),)


class Field(NamedTuple):
    """The rectangle to pack into."""

    width: int
    height: int

    @property
    def area(self) -> int:
        """Return its width times its height."""
        return self.width * self.height

    def fits(self, size: Footprint) -> bool:
        """Return whether there is room for one of ``size``."""
        return any(w <= self.width and h <= self.height for w, h in size.ways)

    def room(self, sizes: Iterable[Footprint]) -> Counts:
        """Return how many of each of ``sizes`` its area would be enough for."""
        return tuple(self.area // size.area for size in sizes)


class Spot(NamedTuple):
    """Where a footprint lies, from the field's lower left corner."""

    size: int
    """Index of the footprint."""
    x: int
    y: int
    width: int
    height: int

    @property
    def flipped(self) -> Spot:
        """Return the spot on the field with its sides exchanged."""
        return Spot(self.size, self.y, self.x, self.height, self.width)


def flipped(field: Field, sizes: Iterable[Footprint]) -> tuple[Field, tuple[Footprint, ...]]:
    """Return a field and footprints with their sides exchanged."""
    turned = (Footprint(size.height, size.width, size.turns) for size in sizes)
    return Field(field.height, field.width), tuple(turned)


def total(counts: Iterable[int], each: Iterable[int]) -> int:
    """Return what ``counts`` come to when one of each footprint counts for ``each``."""
    return sum(n * one for n, one in zip(counts, each, strict=True))


def plus(*some: Counts) -> Counts:
    """Return how many of each footprint ``some`` have together."""
    return tuple(map(sum, zip(*some, strict=True)))


def minus(counts: Counts, less: Counts) -> Counts:
    """Return what is left of ``counts``, never below nothing."""
    return tuple(max(n - gone, 0) for n, gone in zip(counts, less, strict=True))


def within(inner: Iterable[int], outer: Sequence[int]) -> bool:
    """Return whether no count of ``inner`` is above that of ``outer``."""
    return all(n <= most for n, most in zip(inner, outer, strict=True))
