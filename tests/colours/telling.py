"""How well colours are told apart, worked out by the colour library alone."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from coloraide import Color

EYES = (None, "protan", "deutan", "tritan")


def smallest_difference(colours: Sequence[str]) -> float:
    """Return the least CIEDE2000 difference of two colours to the eye that tells them least.

    Deficiencies by Machado, Oliveira and Fernandes (2009) at severity 1.0.
    """
    seen = {(eye, colour): seen_by(eye, colour) for eye in EYES for colour in set(colours)}
    return min(
        (
            seen[eye, one].delta_e(seen[eye, other], method="2000")
            for eye in EYES
            for one, other in combinations(colours, 2)
        ),
        default=float("inf"),
    )


def seen_by(eye: str | None, colour: str) -> Color:
    plain = Color(colour)
    return plain.filter(eye, 1, method="machado", out_space="srgb").clip() if eye else plain
