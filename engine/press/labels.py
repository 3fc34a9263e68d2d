"""Room for labels beside what a page shows: numbers of inserts and cuts, letters of scores."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from engine.model import Rect
from engine.press.pens.base import Ring, Rings, box
from engine.press.ticks import Tick, area_of

if TYPE_CHECKING:
    from shapely import Polygon


class Labels:
    """Finds places in an area, clear of what is there and of each other."""

    def __init__(
        self, area: Ring, taken: Iterable[Rings], ticks: Iterable[Tick], off: float
    ) -> None:
        """Keep off what is ``taken`` in ``area``, and off ``ticks`` by ``off`` mm."""
        from shapely import LineString, Polygon, STRtree, prepare

        self._area = Polygon(area)
        prepare(self._area)
        lines = (LineString([tick[:2], tick[2:]]).buffer(off) for tick in ticks)
        self._taken = STRtree([*map(area_of, taken), *lines])
        self._placed: list[Polygon] = []

    def place(self, spots: Iterable[Rect]) -> Rect | None:
        """Take the first of ``spots`` that is free; None where none is."""
        from shapely import Polygon

        for spot in spots:
            label = Polygon(box(spot))
            if self._area.covers(label) and not self._meets(label):
                self._placed.append(label)
                return spot
        return None

    def _meets(self, label: Polygon) -> bool:
        return bool(
            self._taken.query(label, predicate="intersects").size
            or any(label.intersects(other) for other in self._placed)
        )
