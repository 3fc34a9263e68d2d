"""Composing inserts and printing sheets: pens, marks, proofs."""

from engine.press.compose import Insert, compose
from engine.press.inked import bled, ink_of
from engine.press.pens.base import Pen, Ring, Rings, box, frame, moved, turned
from engine.press.pens.pdf import PdfDocument
from engine.press.pens.recorder import Recorder
from engine.press.proof import insert_page, page_picture, proof, rasterise
from engine.press.sheetpage import sheet_page, write_sheet

__all__ = [
    "Insert",
    "PdfDocument",
    "Pen",
    "Recorder",
    "Ring",
    "Rings",
    "bled",
    "box",
    "compose",
    "frame",
    "ink_of",
    "insert_page",
    "moved",
    "page_picture",
    "proof",
    "rasterise",
    "sheet_page",
    "turned",
    "write_sheet",
]
