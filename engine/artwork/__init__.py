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
from engine.artwork.inspecting import base_colour, inspect
from engine.artwork.opening import SUFFIXES, open_picture
from engine.artwork.rendering import Sides, render

__all__ = [
    "SUFFIXES",
    "Deficiency",
    "Fitting",
    "Group",
    "GroupColour",
    "Mark",
    "Origin",
    "Palette",
    "Sides",
    "agreed_colour",
    "base_colour",
    "choose_colours",
    "contrast",
    "cost",
    "difference",
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
]
