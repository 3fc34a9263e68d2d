"""Composing inserts and printing sheets: pens, marks, proofs."""

from engine.ganging.cutorder import in_words, order_of
from engine.press.checklines import (
    OF_BACK,
    SAID,
    CheckFigures,
    CheckLines,
    calibrated,
    check_lines,
    doubts,
)
from engine.press.checkpage import check_page
from engine.press.closeup import panel_picture
from engine.press.compose import Insert, compose
from engine.press.cutpage import cut_page
from engine.press.inked import bled, ink_of
from engine.press.machine import machine_file
from engine.press.pens.base import Pen, Ring, Rings, box, frame, moved, turned
from engine.press.pens.pdf import PdfDocument
from engine.press.pens.recorder import Recorder
from engine.press.proof import insert_page, page_picture, proof
from engine.press.scoring import steps as score_steps
from engine.press.sheetpage import bleed_on, draw_sheet, sheet_page
from engine.press.strip import STRIP_SIZE
from engine.press.ticket import draw_ticket, empty_page, ticket_lines, title_of
from engine.press.worksteps import WorkKind, WorkStep, score_settings, work_steps

__all__ = [
    "OF_BACK",
    "SAID",
    "STRIP_SIZE",
    "CheckFigures",
    "CheckLines",
    "Insert",
    "PdfDocument",
    "Pen",
    "Recorder",
    "Ring",
    "Rings",
    "WorkKind",
    "WorkStep",
    "bled",
    "bleed_on",
    "box",
    "calibrated",
    "check_lines",
    "check_page",
    "compose",
    "cut_page",
    "doubts",
    "draw_sheet",
    "draw_ticket",
    "empty_page",
    "frame",
    "in_words",
    "ink_of",
    "insert_page",
    "machine_file",
    "moved",
    "order_of",
    "page_picture",
    "panel_picture",
    "proof",
    "score_settings",
    "score_steps",
    "sheet_page",
    "ticket_lines",
    "title_of",
    "turned",
    "work_steps",
]
