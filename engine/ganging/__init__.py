"""Ganging: footprints, what a sheet can hold, full sheets, and the whole-backlog plan."""

from engine.ganging.batches import Batch, batches, next_batch
from engine.ganging.cuts import CAUTIONS, Cut, CutOrder, Fence, cut_order
from engine.ganging.footprints import Coming, Item, Lack, Laid, Layout, Unfinished
from engine.ganging.planning import Plan, plan
from engine.ganging.queue import Ganged, gang, gang_part_full
from engine.ganging.waiting import Cancel, Cancelled

__all__ = [
    "CAUTIONS",
    "Batch",
    "Cancel",
    "Cancelled",
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
    "Unfinished",
    "batches",
    "cut_order",
    "gang",
    "gang_part_full",
    "next_batch",
    "plan",
]
