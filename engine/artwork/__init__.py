"""Pictures: opening them safely, fitting them, their colours."""

from engine.artwork.adjusting import join, move_focus, move_split, move_trim, turn_by
from engine.artwork.colour import contrast, difference, ink_on, legible, luminance, matte_colour
from engine.artwork.deficiency import Deficiency, seen_as
from engine.artwork.fitting import Fitting, cost, fittings, judge, propose_fit
from engine.artwork.groups import (
    Group,
    GroupColour,
    Origin,
    Palette,
    agreed_colour,
    choose_colours,
    smallest_difference,
)
from engine.artwork.ink import Ink, art_in, base_in, coverage, sum_of, text_in
from engine.artwork.inspecting import base_colour, colour_choices, inspect
from engine.artwork.opening import SUFFIXES, open_picture
from engine.artwork.patterns import draw_pattern
from engine.artwork.rendering import Sides, render
from engine.artwork.shapes import Patch, Ring
from engine.artwork.signs import draw_sign, room_for
from engine.values import Sign

__all__ = [
    "SUFFIXES",
    "Deficiency",
    "Fitting",
    "Group",
    "GroupColour",
    "Ink",
    "Origin",
    "Palette",
    "Patch",
    "Ring",
    "Sides",
    "Sign",
    "agreed_colour",
    "art_in",
    "base_colour",
    "base_in",
    "choose_colours",
    "colour_choices",
    "contrast",
    "cost",
    "coverage",
    "difference",
    "draw_pattern",
    "draw_sign",
    "fittings",
    "ink_on",
    "inspect",
    "join",
    "judge",
    "legible",
    "luminance",
    "matte_colour",
    "move_focus",
    "move_split",
    "move_trim",
    "open_picture",
    "propose_fit",
    "render",
    "room_for",
    "seen_as",
    "smallest_difference",
    "sum_of",
    "text_in",
    "turn_by",
]
