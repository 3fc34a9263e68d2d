"""An insert where it lies on a page."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from fontTools.misc.transform import Transform

from engine.press.compose import Insert
from engine.press.pens.base import Pen, Ring, Rings, moved
from engine.press.ticks import Score, Tick, Waste, crop_ticks, draw_ticks, score_ticks


class PlacedInsert(NamedTuple):
    """An insert, and the transform from its net's frame to the page's."""

    insert: Insert
    at: Transform

    def draw(self, pen: Pen, bleed: float) -> None:
        """Draw the insert; raises what ``Insert.draw`` raises."""
        self.insert.draw(moved(pen, self.at), bleed)

    def dieline(self) -> Rings:
        """Return where it is cut on the page."""
        return self._rings(self.insert.net.dieline)

    def bled(self, bleed: float) -> Rings:
        """Return how far its colour reaches on the page."""
        return self._rings(self.insert.net.bleed(bleed))

    def ticks(self, waste: Waste) -> tuple[Tick, ...]:
        """Return its crop and score ticks on the page."""
        scores = [
            Score(self.at.transformPoint((s.x1, s.y1)), self.at.transformPoint((s.x2, s.y2)))
            for s in self.insert.net.scores
        ]
        return (*crop_ticks(self.dieline(), waste), *score_ticks(scores, waste))

    def _rings(self, rings: Iterable[Ring]) -> Rings:
        return [[self.at.transformPoint(point) for point in ring] for ring in rings]


def draw_inserts(
    pen: Pen, inserts: Iterable[PlacedInsert], bleed: float, area: Ring, gutter: float
) -> tuple[Tick, ...]:
    """Draw ``inserts``, then over them the ticks of all in ``area``; return those ticks."""
    placed = tuple(inserts)
    for one in placed:
        one.draw(pen, bleed)
    waste = Waste(area, [one.dieline() for one in placed], gutter)
    ticks = tuple(tick for one in placed for tick in one.ticks(waste))
    draw_ticks(pen, ticks)
    return ticks
