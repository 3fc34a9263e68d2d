"""Pictures: opening them safely, fitting them, their colours."""

from engine.artwork.colour import contrast, difference, ink_on, legible, luminance, matte_colour
from engine.artwork.deficiency import Deficiency, seen_as
from engine.artwork.fitting import Fitting, cost, fittings, judge, propose_fit
from engine.artwork.groups import (
    Group,
    GroupColour,
    Mark,
    Origin,
    Palette,
    agreed_colour,
    choose_colours,
    smallest_difference,
)
from engine.artwork.ink import Ink, art_in, base_in, coverage, sum_of, text_in
from engine.artwork.inspecting import base_colour, inspect
from engine.artwork.opening import SUFFIXES, open_picture
from engine.artwork.patterns import Patch, draw_pattern
from engine.artwork.rendering import Sides, render

__all__ = [
    "SUFFIXES",
    "Deficiency",
    "Fitting",
    "Group",
    "GroupColour",
    "Ink",
    "Mark",
    "Origin",
    "Palette",
    "Patch",
    "Sides",
    "agreed_colour",
    "art_in",
    "base_colour",
    "base_in",
    "choose_colours",
    "contrast",
    "cost",
    "coverage",
    "difference",
    "draw_pattern",
    "fittings",
    "ink_on",
    "inspect",
    "judge",
    "legible",
    "luminance",
    "matte_colour",
    "open_picture",
    "propose_fit",
    "render",
    "seen_as",
    "smallest_difference",
    "sum_of",
    "text_in",
]
