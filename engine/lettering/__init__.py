"""Lettering: fonts, the title on the edge, and from how far it reads."""

from engine.lettering.coverage import Missing, check
from engine.lettering.fonts import default_font
from engine.lettering.instances import instance
from engine.lettering.legibility import height_for, reading_distance
from engine.lettering.setting import (
    Line,
    Setting,
    Style,
    is_sure,
    judge,
    lay,
    propose_title,
    safe_area,
    set_lines,
)
from engine.lettering.shaping import shape

__all__ = [
    "Line",
    "Missing",
    "Setting",
    "Style",
    "check",
    "default_font",
    "height_for",
    "instance",
    "is_sure",
    "judge",
    "lay",
    "propose_title",
    "reading_distance",
    "safe_area",
    "set_lines",
    "shape",
]
