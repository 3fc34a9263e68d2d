"""Colours in a row: by hue, the greys apart, as a person sorts things by colour."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from engine.colours.colour import in_oklch

GREY = 0.035
"""OKLCh chroma below which a colour has no hue to speak of (chosen by eye, no published source)."""

HUES = {
    10.0: "pink",
    45.0: "red",
    78.0: "orange",
    115.0: "yellow",
    165.0: "green",
    215.0: "teal",
    280.0: "blue",
    325.0: "violet",
    360.0: "pink",
}
"""Names of hues by the OKLCh angle in degrees at which each ends (by eye, no published source)."""

_START = min(HUES)
"""The row begins with red: pink, which lies across 0, is at its end."""

DARK, LIGHT = 0.445, 0.84
"""OKLCh lightness below which a colour is called dark, and above which light (by eye, no published
source)."""

BLACK, WHITE = 0.2, 0.97
"""The same for greys that are called black and white."""

HUE_NAMES = tuple(dict.fromkeys((*[*HUES.values()][1:], "grey")))
"""The names as they follow each other in the row."""


class InRow(NamedTuple):
    """Where a colour stands in a row of colours: what these are sorted by."""

    grey: bool
    hue: float
    """Degrees from the row's start; 0 for all greys."""
    lightness: float
    """0 to 1."""
    name: str


@lru_cache(maxsize=4096)
def in_row(colour: str) -> InRow:
    """Return the place of ``#rrggbb``: by hue from red to pink, dark before light, greys last."""
    lightness, chroma, hue = in_oklch(colour)
    if chroma < GREY:
        return InRow(True, 0.0, lightness, "grey")  # noqa: FBT003
    name = next(name for end, name in HUES.items() if hue <= end)
    return InRow(False, (hue - _START) % 360.0, lightness, name)  # noqa: FBT003


def colour_name(colour: str) -> str:
    """Return what to call ``#rrggbb``: 'dark blue', 'light grey', 'black'."""
    grey, _, lightness, name = in_row(colour)
    if grey and not BLACK <= lightness <= WHITE:
        return "black" if lightness < BLACK else "white"
    tone = "dark " if lightness < DARK else "light " if lightness > LIGHT else ""
    return tone + name
