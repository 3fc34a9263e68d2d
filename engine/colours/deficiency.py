"""Colours as people with a colour-vision deficiency see them.

Machado, Oliveira and Fernandes, 'A physiologically-based model for simulation of color vision
deficiency', IEEE Transactions on Visualization and Computer Graphics 15(6), 2009; their matrices
for severity 1.0, on linear sRGB. The tritan one is known to be the weakest of the three.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from engine.colours.colour import channels, hex_colour
from engine.colours.difference import encoded, linear

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


class Deficiency(StrEnum):
    """Which cones are missing."""

    PROTAN = "protan"
    DEUTAN = "deutan"
    TRITAN = "tritan"


MACHADO_2009 = {
    Deficiency.PROTAN: (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    Deficiency.DEUTAN: (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    Deficiency.TRITAN: (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}


def light_seen_as(light: NDArray[np.float64], kind: Deficiency) -> NDArray[np.float64]:
    """Return linear sRGB, last axis R, G, B, as seen with ``kind``, held within sRGB."""
    import numpy as np

    return np.asarray(np.clip(light @ np.array(MACHADO_2009[kind]).T, 0.0, 1.0))


def seen_as(colour: str, kind: Deficiency) -> str:
    """Return ``colour`` as seen with ``kind``, as ``#rrggbb``."""
    red, green, blue = encoded(light_seen_as(linear(channels(colour)), kind))
    return hex_colour(red, green, blue)
