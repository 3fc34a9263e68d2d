"""An insert where it lies on a page."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from fontTools.misc.transform import Transform

from engine.cases import FlatNet
from engine.model import Placement, Sheet
from engine.model.errors import RefusedError
from engine.press.compose import Insert
from engine.press.pens.base import Pen, Ring, Rings, moved, turned
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

_SAME = 0.05
"""How far, in mm, an insert may differ from the room that was laid out for it."""


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
        return scores_of(self.insert.net, self.at)

    def _rings(self, rings: Iterable[Ring]) -> Rings:
        return [[self.at.transformPoint(point) for point in ring] for ring in rings]


def scores_of(net: FlatNet, at: Transform) -> tuple[Score, ...]:
    """Return where a net is scored on the page, to which ``at`` takes its frame."""
    to = at.transformPoint
    return tuple(Score(to((s.x1, s.y1)), to((s.x2, s.y2)), s.angle) for s in net.scores)


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


def placed_on(sheet: Sheet, inserts: Mapping[str, Insert]) -> list[PlacedInsert]:
    """Return the inserts of a sheet where they lie, by their games or their designs' fingerprints.

    Raises RefusedError where one is no longer the one that was laid out.
    """
    return [
        _place(sheet, number, placement, _of(placement, inserts))
        for number, placement in enumerate(sheet.placements, start=1)
    ]


def _of(placement: Placement, inserts: Mapping[str, Insert]) -> Insert:
    own = inserts.get(placement.design)
    return inserts[placement.game] if own is None else own


def _place(sheet: Sheet, number: int, placement: Placement, insert: Insert) -> PlacedInsert:
    """Return where an insert lies; RefusedError where it is not the one that was laid out."""
    where = f"sheet {sheet.number}, insert {number}"
    mend = "Withdraw the sheet and press again"
    if insert.design.fingerprint != placement.design:
        raise RefusedError(where, "its design was changed after it was laid out", mend)
    width, height = insert.net.size
    across, up = (height, width) if placement.rotated else (width, height)
    if max(abs(across - placement.width), abs(up - placement.height)) > _SAME:
        what = (
            f"it is {across:.1f} × {up:.1f} mm now, but was laid out as "
            f"{placement.width:.1f} × {placement.height:.1f} mm"
        )
        raise RefusedError(where, what, mend)
    return PlacedInsert(insert, lying(insert.net, placement))


def lying(net: FlatNet, placement: Placement) -> Transform:
    """Return the transform from a net's frame to the page on which it is placed."""
    if placement.rotated:
        return turned(90, placement.x + net.size.height, placement.y)
    return turned(0, placement.x, placement.y)
