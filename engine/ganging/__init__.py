"""Ganging: what waits, full sheets, the next batch, the whole-backlog plan, fillers, offcuts."""

from engine.ganging.batches import next_batch
from engine.ganging.cuts import Cut, CutOrder, cut_order
from engine.ganging.fillers import Filled, Offer, Why, fill, spares
from engine.ganging.inserts import Coming, Item, Lack, Laid, Layout, Unfinished, fits
from engine.ganging.offcuts import OnOffcut, gang_offcuts, offcut_stock, offcuts
from engine.ganging.planning import Plan, plan
from engine.ganging.queue import Ganged, gang, gang_part_full
from engine.packing.cut_order.shapes import Fence

__all__ = [
    "Coming",
    "Cut",
    "CutOrder",
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
    "cut_order",
    "fill",
    "fits",
    "gang",
    "gang_offcuts",
    "gang_part_full",
    "next_batch",
    "offcut_stock",
    "offcuts",
    "plan",
    "spares",
]
