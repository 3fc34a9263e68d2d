"""A second sign on an edge, for groups whose colours cannot be told apart.

Signs stand at the end of the edge where its title begins to read, inside the panel, in the edge's
reading frame: mm from its lower left corner, y up.
"""

from __future__ import annotations

from engine.model import Sign, Size
from engine.model.outlines import Ring, disc, oblong

INDENT = 1.5
"""From the end of the edge to the sign, in mm: what a home trimmer may err, and a little."""

STRIPE = 1.2
"""How wide a stripe is, and the gap between two, in mm."""

DOT = 0.45
"""A dot's width as part of the edge's height."""

TWO = {Sign.TWO_STRIPES, Sign.TWO_DOTS}


def draw_sign(sign: Sign, edge: Size) -> tuple[Ring, ...]:
    """Return the outlines of ``sign`` on ``edge``, to be filled with the colour of the title."""
    first = INDENT
    step = _width(sign, edge) + STRIPE
    starts = (first, first + step) if sign in TWO else (first,)
    match sign:
        case Sign.STRIPE | Sign.TWO_STRIPES:
            return tuple(oblong(x, 0.0, x + STRIPE, edge.height) for x in starts)
        case Sign.DOT | Sign.TWO_DOTS:
            radius = DOT * edge.height / 2
            return tuple(disc(x + radius, edge.height / 2, radius) for x in starts)
        case Sign.CORNER:
            return (((0.0, edge.height), (0.0, 0.0), (edge.height, edge.height)),)
        case _:
            return ()


def room_for(sign: Sign, edge: Size) -> float:
    """Return what the title should leave free at the beginning of ``edge``, in mm."""
    if sign is Sign.NONE:
        return 0.0
    if sign is Sign.CORNER:
        return edge.height
    width = _width(sign, edge)
    return INDENT + (2 * width + STRIPE if sign in TWO else width) + STRIPE


def _width(sign: Sign, edge: Size) -> float:
    return DOT * edge.height if sign in {Sign.DOT, Sign.TWO_DOTS} else STRIPE
