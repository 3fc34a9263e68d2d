"""Packing rectangles into fields, in whole numbers: patterns, plans, free placement, cut orders."""

from engine.packing.cancelling import Cancel, Cancelled, go_on
from engine.packing.cut_order.search import order
from engine.packing.cut_order.shapes import Box, Fence, Setting, Shape, Shapes, parts
from engine.packing.cutting_stock.column_generation import SHEET, CuttingPlan
from engine.packing.cutting_stock.fewest import fewest
from engine.packing.cutting_stock.programme import cover
from engine.packing.patterns.encoding import Encoding
from engine.packing.patterns.knapsack import Knapsack
from engine.packing.patterns.maximal import Patterns, Prize, TooMany
from engine.packing.patterns.tidiness import Spots
from engine.packing.placing import place
from engine.packing.rectangles import (
    Counts,
    Field,
    Footprint,
    Spot,
    minus,
    plus,
    total,
    within,
)
from engine.packing.skyline.search import dearest

__all__ = [
    "SHEET",
    "Box",
    "Cancel",
    "Cancelled",
    "Counts",
    "CuttingPlan",
    "Encoding",
    "Fence",
    "Field",
    "Footprint",
    "Knapsack",
    "Patterns",
    "Prize",
    "Setting",
    "Shape",
    "Shapes",
    "Spot",
    "Spots",
    "TooMany",
    "cover",
    "dearest",
    "fewest",
    "go_on",
    "minus",
    "order",
    "parts",
    "place",
    "plus",
    "total",
    "within",
]
