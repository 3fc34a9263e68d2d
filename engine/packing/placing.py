"""Where a pattern lies, under either rule."""

from __future__ import annotations

from engine.packing.patterns.layouts import arrange
from engine.packing.patterns.tidiness import Spots
from engine.packing.rectangles import Counts, Field, Footprint
from engine.packing.skyline.search import scatter


def place(
    field: Field, sizes: tuple[Footprint, ...], counts: Counts, *, freely: bool
) -> Spots | None:
    """Return where ``counts`` lie: cut edge to edge if that can be, else ``freely`` if allowed.

    None if they cannot lie so, or if no way of lying freely was found.
    """
    spots = arrange(field, sizes, counts)
    return scatter(field, sizes, counts) if spots is None and freely else spots
