"""Ganging: footprints, what a sheet can hold, full sheets, and the whole-backlog plan."""

from engine.ganging.cuts import Cut, CutOrder, Fence, cut_order
from engine.ganging.footprints import Coming, Item, Lack, Laid, Layout
from engine.ganging.planning import Plan, plan
from engine.ganging.queue import Ganged, gang, gang_part_full

__all__ = [
    "Coming",
    "Cut",
    "CutOrder",
    "Fence",
    "Ganged",
    "Item",
    "Lack",
    "Laid",
    "Layout",
    "Plan",
    "cut_order",
    "gang",
    "gang_part_full",
    "plan",
]
