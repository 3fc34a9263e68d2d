"""Bars and banners: a band along one side of a box front that is none of its art.

Found by the straight edge between the band and the art. They are only offered: a trim takes them
where the rest then suits the panel.
"""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

from engine.artwork.borders import SIDES, seen_from
from engine.artwork.edges import peaks, unlike, votes
from engine.model import Trim

if TYPE_CHECKING:
    from engine.artwork.pixels import Pixels

WIDTHS = (0.03, 0.33)
"""Part of the picture's side that a bar may take."""

CLEAR, FAINT = 0.6, 0.45
"""Part of the rows that must see its edge; the lower one will do where the bar is unlike what lies
beside it."""

UNLIKE = 0.08
"""How unlike that is, in the mean and the spread of the colours in OKLab."""

A_SIDE = 3
"""Bars offered on each side: one may have stripes or lines of lettering."""


def find_bars(lab: Pixels) -> tuple[Trim, ...]:
    """Return the trims that cut a bar or a banner off the picture ``lab``, the clearest first.

    The last ones cut a side bar and a banner at once.
    """
    single: list[tuple[float, str, float]] = []
    for side in SIDES:
        rows = seen_from(lab, side)
        length = rows.shape[1]
        shares = votes(rows)
        inside = [
            x
            for x in peaks(shares, FAINT)
            if WIDTHS[0] <= (x + 1) / length <= WIDTHS[1]
            and (shares[x] >= CLEAR or _stands_out(rows, x))
        ]
        single += [(float(shares[x]), side, (x + 1) / length) for x in inside[:A_SIDE]]
    single.sort(reverse=True)
    upright = [(side, depth) for _, side, depth in single if side in {"left", "right"}]
    level = [(side, depth) for _, side, depth in single if side in {"top", "bottom"}]
    both = [dict(pair) for pair in product(upright[:1], level[:1])]
    return tuple(Trim(**cut) for cut in [*({s: d} for _, s, d in single), *both])


def _stands_out(rows: Pixels, x: int) -> bool:
    """Return whether the bar that ends at column ``x`` is unlike as wide a band beside it."""
    return unlike(rows[:, : max(1, x - 2)], rows[:, x + 3 : 2 * x + 3]) >= UNLIKE
