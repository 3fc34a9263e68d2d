"""The knife rule: what a field can hold when inserts may lie anyhow."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from engine.ganging.contents import arrange
from engine.ganging.footprints import Field, Footprint, Spot
from engine.ganging.free import FreeSearch, Undecided
from engine.ganging.relaxed import Relaxation
from engine.ganging.vectors import Counts
from engine.ganging.waiting import Cancel
from engine.model import Rule

EFFORT = 100_000
"""Steps that are spent on one content; nearly all are decided in a few hundred."""


class Knife:
    """Decides what one field can hold, and remembers it."""

    def __init__(self, field: Field, sizes: Sequence[Footprint], *, effort: int = EFFORT) -> None:
        """Reckon what could never fit; a search is given up after ``effort`` steps."""
        self.effort = effort
        self.field = field
        self.sizes = tuple(sizes)
        self.relaxation = Relaxation(field, sizes)
        self.steps = 0
        """Steps of all searches so far."""
        self._found: dict[Counts, tuple[Spot, ...] | None] = {}
        self._undecided: set[Counts] = set()

    def arrange(self, counts: Counts, cancel: Cancel | None = None) -> tuple[Spot, ...] | None:
        """Return where ``counts`` can lie, None if they cannot; cut edge to edge if possible.

        Raises Undecided when it cannot tell, and Cancelled.
        """
        spots = arrange(self.field, self.sizes, counts)
        return self.scatter(counts, cancel) if spots is None else spots

    def scatter(self, counts: Counts, cancel: Cancel | None = None) -> tuple[Spot, ...] | None:
        """Return where ``counts`` can lie anyhow, None if they cannot.

        Raises Undecided when it cannot tell, and Cancelled.
        """
        if counts in self._undecided:
            raise Undecided
        if counts not in self._found:
            spots = None
            if self.relaxation.allows(counts):
                spots = self._search(counts, cancel)
                if spots is None:
                    self.relaxation.rule_out(counts)
            self._found[counts] = spots
        return self._found[counts]

    def _search(self, counts: Counts, cancel: Cancel | None) -> tuple[Spot, ...] | None:
        """Search on the shorter floor, which is the faster way; turn everything for that."""
        turned = self.field.width > self.field.height
        field = Field(self.field.height, self.field.width) if turned else self.field
        sizes = [Footprint(s.height, s.width, s.turns) if turned else s for s in self.sizes]
        search = FreeSearch(field, sizes, counts, effort=self.effort, cancel=cancel)
        try:
            spots = search.find()
        except Undecided:
            self._undecided.add(counts)
            raise
        finally:
            self.steps += search.steps
        if spots is None or not turned:
            return spots
        return tuple(Spot(s.size, s.y, s.x, s.height, s.width) for s in spots)


def arrange_by(
    rule: Rule, field: Field, sizes: tuple[Footprint, ...], counts: Counts
) -> tuple[Spot, ...] | None:
    """Return where ``counts`` can lie under ``rule``; None if they cannot, or none was found."""
    if rule is Rule.TRIMMER:
        return arrange(field, sizes, counts)
    try:
        return knife(field, sizes).arrange(counts)
    except Undecided:
        return None


@lru_cache(maxsize=16)
def knife(field: Field, sizes: tuple[Footprint, ...]) -> Knife:
    """Return the knife rule for a field and set of footprints, with what it has found out."""
    return Knife(field, sizes)
