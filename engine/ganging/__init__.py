"""Ganging: what waits, full sheets, the next batch, the whole-backlog plan, fillers, offcuts."""

from engine.ganging.batches import next_batch
from engine.ganging.cuts import Cut, CutOrder, cut_order
from engine.ganging.fillers import Filled, Offer, Why, fill, spares
from engine.ganging.inserts import Coming, Item, Lack, Laid, Layout, Unfinished, fits
from engine.ganging.offcuts import gang_offcuts, offcut_stock, offcuts
from engine.ganging.planning import plan
from engine.ganging.queue import gang, gang_part_full

__all__ = [
    "Coming",
    "Cut",
    "CutOrder",
    "Filled",
    "Item",
    "Lack",
    "Laid",
    "Layout",
    "Offer",
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
