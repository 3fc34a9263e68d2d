"""Lettering: fonts, the title on the edge, and from how far it reads."""

from engine.lettering.abridging import Abridged, AbridgingStep, AbridgingWay, abridgements
from engine.lettering.coverage import check
from engine.lettering.fontfile import Embedding, faces_in, facts
from engine.lettering.fonts import choose_font, default_font, kept
from engine.lettering.furnishing import furnish
from engine.lettering.furniture import safe_area
from engine.lettering.large import set_block, set_large
from engine.lettering.layout import lay
from engine.lettering.legibility import reading_distance
from engine.lettering.logos import Show, fitted, logo_height, propose_logo
from engine.lettering.machine import fonts_to_hand, weighted
from engine.lettering.remedies import remedies
from engine.lettering.setting import Setting, is_sure, judge, propose_title, set_lines
from engine.lettering.shaping import PlacedRun, shape
from engine.lettering.shelf import Mode, Shelf
from engine.lettering.standins import StandIns, fallbacks, keep_fonts, machine_fonts
from engine.lettering.style import STYLE, TypeStyle, style_of
from engine.lettering.trying import tried

__all__ = [
    "STYLE",
    "Abridged",
    "AbridgingStep",
    "AbridgingWay",
    "Embedding",
    "Mode",
    "PlacedRun",
    "Setting",
    "Shelf",
    "Show",
    "StandIns",
    "TypeStyle",
    "abridgements",
    "check",
    "choose_font",
    "default_font",
    "faces_in",
    "facts",
    "fallbacks",
    "fitted",
    "fonts_to_hand",
    "furnish",
    "is_sure",
    "judge",
    "keep_fonts",
    "kept",
    "lay",
    "logo_height",
    "machine_fonts",
    "propose_logo",
    "propose_title",
    "reading_distance",
    "remedies",
    "safe_area",
    "set_block",
    "set_large",
    "set_lines",
    "shape",
    "style_of",
    "tried",
    "weighted",
]
