"""Colours: told apart by every eye, legible, one for each group of games."""

from engine.colours.colour import (
    contrast,
    difference,
    ink_on,
    luminance,
    matte_colour,
    standing_out,
)
from engine.colours.deficiency import Deficiency, seen_as
from engine.colours.groups import (
    Group,
    GroupColour,
    GroupPalette,
    Origin,
    agreed_colour,
    choose_colours,
)
from engine.colours.hues import HUE_NAMES, InRow, colour_name, in_row

__all__ = [
    "HUE_NAMES",
    "Deficiency",
    "Group",
    "GroupColour",
    "GroupPalette",
    "InRow",
    "Origin",
    "agreed_colour",
    "choose_colours",
    "colour_name",
    "contrast",
    "difference",
    "in_row",
    "ink_on",
    "luminance",
    "matte_colour",
    "seen_as",
    "standing_out",
]
