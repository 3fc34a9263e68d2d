"""Straight edges that cross a whole picture: where a bar, a banner or a spine begins.

Every row votes for the columns at which its colour changes most, near by; where a printed edge
runs from top to bottom nearly all rows vote for one column. Texture votes everywhere a little.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeVar

from engine.artwork.pixels import distance

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from engine.artwork.pixels import Pixels

    Floating = TypeVar("Floating", bound=np.floating[Any])

SPAN = 2
"""Pixels to either side of a column between which its change of colour is measured."""

NEAR = 4
"""Pixels to either side within which a column's change must be the largest to get the vote."""

CHANGE = 0.04
"""The least change of colour that votes, in OKLab."""


def votes(lab: Pixels) -> NDArray[np.float64]:
    """Return for each column of ``lab`` the part of the rows, 0 to 1, that see an edge there."""
    import numpy as np

    height, width = lab.shape[:2]
    change = np.zeros((height, width), dtype=np.float32)
    if width <= 2 * (SPAN + NEAR):
        return np.zeros(width)
    change[:, SPAN:-SPAN] = distance(lab[:, 2 * SPAN :], lab[:, : -2 * SPAN])
    voted = (change > CHANGE) & (change >= _largest_near(change))
    near = voted.copy()
    near[:, 1:] |= voted[:, :-1]
    near[:, :-1] |= voted[:, 1:]
    return np.asarray(near.mean(axis=0), dtype=np.float64)


def _largest_near(rows: NDArray[Floating]) -> NDArray[Floating]:
    """Return for each place the largest value within NEAR columns: maxima of maxima, doubling.

    0.5 ms for what is looked at of a picture, where numpy's sliding windows take 14 and scipy's
    running maximum, 140 MB of a library, takes 0.8.
    """
    import numpy as np

    span = 2 * NEAR + 1
    largest = np.pad(rows, ((0, 0), (NEAR, NEAR)))
    reached = 1
    while reached < span:
        shift = min(reached, span - reached)
        largest = np.maximum(largest[:, :-shift], largest[:, shift:])
        reached += shift
    return largest


def peaks(shares: NDArray[np.float64], least: float) -> list[int]:
    """Return the columns that get at least ``least`` and no less than any near them, best first."""
    import numpy as np

    places = np.flatnonzero((shares >= least) & (shares >= _largest_near(shares[None])[0]))
    apart: list[int] = []
    for x in sorted(map(int, places), key=lambda place: -shares[place]):
        if all(abs(x - other) > NEAR for other in apart):
            apart.append(x)
    return apart


def unlike(one: Pixels, other: Pixels) -> float:
    """Return how much two areas differ in the mean and the spread of their colours, in OKLab."""
    import numpy as np

    return float(np.linalg.norm(_character(one) - _character(other)))


def _character(pixels: Pixels) -> Pixels:
    """Return the mean and the spread of ``pixels``, six numbers."""
    import numpy as np

    flat = pixels.reshape(-1, 3)
    return np.concatenate([flat.mean(axis=0), flat.std(axis=0)])
