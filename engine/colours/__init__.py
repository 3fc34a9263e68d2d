"""Colours: told apart by every eye, legible, one for each group of games."""

from engine.colours.colour import contrast, difference, ink_on, legible, luminance, matte_colour
from engine.colours.deficiency import Deficiency, seen_as
from engine.colours.groups import (
    Group,
    GroupColour,
    GroupPalette,
    Origin,
    agreed_colour,
    choose_colours,
)

__all__ = [
    "Deficiency",
    "Group",
    "GroupColour",
    "GroupPalette",
    "Origin",
    "agreed_colour",
    "choose_colours",
    "contrast",
    "difference",
    "ink_on",
    "legible",
    "luminance",
    "matte_colour",
    "seen_as",
]
