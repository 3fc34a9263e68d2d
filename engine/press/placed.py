"""An insert where it lies on a page."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from fontTools.misc.transform import Transform

from engine.press.compose import Insert
from engine.press.pens.base import Pen, Ring, Rings, moved
from engine.press.ticks import (
    Score,
    ScoreTick,
    Tick,
    Waste,
    crop_ticks,
    draw_score_ticks,
    draw_ticks,
    score_ticks,
)


class Marked(NamedTuple):
    """The ticks that were drawn."""

    crops: tuple[Tick, ...]
    scores: tuple[ScoreTick, ...]

    @property
    def lines(self) -> tuple[Tick, ...]:
        """All that other marks keep off."""
        return (*self.crops, *(line for score in self.scores for line in score.lines))


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

    def scores(self) -> tuple[Score, ...]:
        """Return where it is scored on the page."""
        to = self.at.transformPoint
        return tuple(
            Score(to((s.x1, s.y1)), to((s.x2, s.y2)), s.angle) for s in self.insert.net.scores
        )

    def _rings(self, rings: Iterable[Ring]) -> Rings:
        return [[self.at.transformPoint(point) for point in ring] for ring in rings]


def draw_inserts(
    pen: Pen, inserts: Iterable[PlacedInsert], bleed: float, area: Ring, gutter: float
) -> Marked:
    """Draw ``inserts``, then over them the ticks of all in ``area``; return those ticks."""
    placed = tuple(inserts)
    for one in placed:
        one.draw(pen, bleed)
    waste = Waste(area, [one.dieline() for one in placed], gutter)
    ticks = Marked(
        tuple(tick for one in placed for tick in crop_ticks(one.dieline(), waste)),
        tuple(tick for one in placed for tick in score_ticks(one.scores(), waste)),
    )
    draw_ticks(pen, ticks.crops)
    draw_score_ticks(pen, ticks.scores)
    return ticks
