"""Ganging: footprints, what a sheet can hold, full sheets, and the whole-backlog plan."""

from engine.ganging.batches import Batch, batches, next_batch
from engine.ganging.cuts import CAUTIONS, Cut, CutOrder, cut_order
from engine.ganging.feed import Feed
from engine.ganging.fillers import Filled, Offer, Why, fill, spares
from engine.ganging.footprints import Coming, Item, Lack, Laid, Layout, Unfinished, fits
from engine.ganging.inhand import Fence
from engine.ganging.offcuts import OnOffcut, gang_offcuts, offcut_stock, offcuts
from engine.ganging.planning import Plan, plan
from engine.ganging.queue import Ganged, gang, gang_part_full
from engine.ganging.waiting import Cancel, Cancelled, go_on

__all__ = [
    "CAUTIONS",
    "Batch",
    "Cancel",
    "Cancelled",
    "Coming",
    "Cut",
    "CutOrder",
    "Feed",
    "Fence",
    "Filled",
    "Ganged",
    "Item",
    "Lack",
    "Laid",
    "Layout",
    "Offer",
    "OnOffcut",
    "Plan",
    "Unfinished",
    "Why",
    "batches",
    "cut_order",
    "fill",
    "fits",
    "gang",
    "gang_offcuts",
    "gang_part_full",
    "go_on",
    "next_batch",
    "offcut_stock",
    "offcuts",
    "plan",
    "spares",
]
