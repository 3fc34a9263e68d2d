"""Lettering: fonts, the title on the edge, and from how far it reads."""

from engine.lettering.abridging import Abridged, Step, Way, abridgements
from engine.lettering.coverage import Missing, check
from engine.lettering.fontfile import Embedding, FontFacts, faces_in, facts
from engine.lettering.fonts import choose_font, default_font
from engine.lettering.furnishing import Fill, Furnished, furnish
from engine.lettering.furniture import End, Furniture, safe_area
from engine.lettering.instances import instance
from engine.lettering.layout import Line, lay
from engine.lettering.legibility import height_for, reading_distance
from engine.lettering.logos import LogoSetting, Show, propose_logo
from engine.lettering.machine import fonts_to_hand
from engine.lettering.remedies import Remedy, remedies
from engine.lettering.setting import Setting, is_sure, judge, propose_title, set_lines
from engine.lettering.shaping import shape
from engine.lettering.shelf import Exempt, Mode, Shelf, set_shelf
from engine.lettering.style import STYLE, Style

__all__ = [
    "STYLE",
    "Abridged",
    "Embedding",
    "End",
    "Exempt",
    "Fill",
    "FontFacts",
    "Furnished",
    "Furniture",
    "Line",
    "LogoSetting",
    "Missing",
    "Mode",
    "Remedy",
    "Setting",
    "Shelf",
    "Show",
    "Step",
    "Style",
    "Way",
    "abridgements",
    "check",
    "choose_font",
    "default_font",
    "faces_in",
    "facts",
    "fonts_to_hand",
    "furnish",
    "height_for",
    "instance",
    "is_sure",
    "judge",
    "lay",
    "propose_logo",
    "propose_title",
    "reading_distance",
    "remedies",
    "safe_area",
    "set_lines",
    "set_shelf",
    "shape",
]
