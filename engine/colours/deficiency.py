"""Colours as people with a colour-vision deficiency see them.

Machado, Oliveira and Fernandes, 'A physiologically-based model for simulation of color vision
deficiency', IEEE Transactions on Visualization and Computer Graphics 15(6), 2009, at severity 1.0,
as the colour library has it. Its tritan matrix is known to be the weakest of the three.
"""

from __future__ import annotations

from enum import StrEnum
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from coloraide import Color


class Deficiency(StrEnum):
    """Which cones are missing."""

    PROTAN = "protan"
    DEUTAN = "deutan"
    TRITAN = "tritan"


def seen_as(colour: str, kind: Deficiency) -> str:
    """Return ``colour`` as seen with ``kind``, as ``#rrggbb``."""
    return _seen_as(colour, kind).to_string(hex=True)


@lru_cache(maxsize=8192)
def lab_seen_as(colour: str, kind: Deficiency | None = None) -> tuple[float, float, float]:
    """Return L*, a*, b* under D65 of ``colour`` as seen with ``kind``; None is no deficiency.

    Kept, since the colours that groups can have are the same every time: to work them out for all
    four eyes takes 60 ms.
    """
    lightness, a, b = _seen_as(colour, kind).convert("lab-d65").coords()
    return lightness, a, b


def _seen_as(colour: str, kind: Deficiency | None) -> Color:
    from coloraide import Color

    plain = Color(colour)
    return plain.filter(kind, 1.0, method="machado", out_space="srgb").clip() if kind else plain
