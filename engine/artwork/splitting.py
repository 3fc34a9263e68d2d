"""Flat cover scans: back, spine and front in one picture, told by their shape and their edges.

A scan shows the back at the left, the spine, then the front at the right, as a cover lies flat
with its outside up.
"""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from engine.artwork.edges import peaks, unlike, votes
from engine.artwork.sights import Sight, sight_of
from engine.artwork.standing import split_through
from engine.model import Art, Picture

if TYPE_CHECKING:
    from engine.artwork.pixels import Pixels

WHOLE_SHAPE = (1.15, 1.80)
"""Width to height of a scan whose back is as wide as its front: keep cases come to 1.48, short ones
to 1.65 (their outside sizes are common practice, no published source)."""

FLAP_SHAPE = (0.75, 1.10)
"""The same for a card whose back is a short flap: cassette cards come to 0.92."""

SPINE = (0.02, 0.20)
"""Part of the width that a spine takes."""

CENTRED = 0.015
"""How far the middle of the spine may lie from the middle of the scan, as part of its width."""

WEAKER, BOTH = 0.25, 0.9
"""The votes that the fainter edge of a spine needs, and both together."""

OFF_CENTRE = 20.0
"""Votes that a pair of edges loses for lying off the centre by the whole width."""

UNLIKE, UNLIKE_BOTH = 0.015, 0.075
"""How much a spine must differ from what lies at either side of it, and from both together, in the
mean and the spread of the colours in OKLab: the joints of a brick wall are as straight as a spine's
edges, but a brick is like its neighbours."""

FLAP_CARD = (0.171, 0.307)
"""Where the spine of a cassette card begins and ends: back flap 16, spine 12.7 and front 65 mm
(common practice, no published source)."""

FLAP_OFF = 0.08
"""How far both together may lie from there, as part of the width."""

OFF_CARD = 6.0
"""Votes that a pair of edges loses for lying off by the whole width."""

FLAP_WEAKER, FLAP_BOTH = 0.4, 0.8
"""The votes its edges need."""


def find_split(lab: Pixels) -> tuple[float, float] | None:
    """Return where the spine of the flat cover scan ``lab`` begins and ends, as fractions.

    None where the picture has another shape or shows no two edges that could be a spine's.
    """
    height, width = lab.shape[:2]
    shape = width / height
    flap = FLAP_SHAPE[0] <= shape <= FLAP_SHAPE[1]
    if not flap and not WHOLE_SHAPE[0] <= shape <= WHOLE_SHAPE[1]:
        return None
    shares = votes(lab)
    places = sorted(peaks(shares, FLAP_WEAKER if flap else WEAKER))
    merit = _flap_merit if flap else _centred_merit
    pairs = [
        (merit(first / width, second / width, float(shares[first] + shares[second])), first, second)
        for first, second in combinations(places, 2)
    ]
    for score, first, second in sorted(pairs, reverse=True):
        if score > 0.0 and _stands_out(lab, first, second):
            return (first + 0.5) / width, (second + 0.5) / width
    return None


def _centred_merit(first: float, second: float, both: float) -> float:
    """Return how good a pair of edges is as a spine in the middle; 0 where it is none."""
    off = abs((first + second) / 2 - 0.5)
    score = both - OFF_CENTRE * off
    fits = SPINE[0] <= second - first <= SPINE[1] and off <= CENTRED and score >= BOTH
    return score if fits else 0.0


def _flap_merit(first: float, second: float, both: float) -> float:
    """Return how good a pair of edges is as a spine beside a back flap; 0 where it is none."""
    off = abs(first - FLAP_CARD[0]) + abs(second - FLAP_CARD[1])
    score = both - OFF_CARD * off
    return score if off <= FLAP_OFF and score >= FLAP_BOTH else 0.0


def _stands_out(lab: Pixels, first: int, second: int) -> bool:
    """Return whether the band from ``first`` to ``second`` is unlike both its neighbours."""
    width = second - first
    band = lab[:, first + 3 : max(first + 4, second - 2)]
    before = lab[:, max(0, first - 2 - width) : first - 2]
    after = lab[:, second + 3 : second + 3 + width]
    differences = (unlike(band, before), unlike(band, after))
    return min(differences) >= UNLIKE and sum(differences) >= UNLIKE_BOTH


ALONG, APART, SHAPED = 0.8, 0.2, 0.03
"""That a picture is a wrap which has the shape of one, though no edges of a spine were found and
nothing is written across where it would be: where something is written along it; where all is
written on the one side or the other; where it only has the shape."""


def like_a_wrap(picture: Picture, sight: Sight) -> float:
    """Return how likely it is that a picture is a wrap whose spine was not found, 0 to 1.

    A card with a short back has the shape of many a front: there only words along its spine tell.
    """
    across, trim = picture.width, picture.trim
    high = picture.height * (1 - trim.top - trim.bottom)
    shape = across * (1 - trim.left - trim.right) / high
    flap = FLAP_SHAPE[0] <= shape <= FLAP_SHAPE[1]
    if not sight.words or not (flap or WHOLE_SHAPE[0] <= shape <= WHOLE_SHAPE[1]):
        return 0.0
    begins, ends = (0.15 * across, 0.37 * across) if flap else (0.42 * across, 0.58 * across)
    middle, most = (begins + ends) / 2, 0.1 * across
    boxes = [word.box for word in sight.words]
    if any(box.left < middle - most and box.right > middle + most for box in boxes):
        return 0.0
    if any(
        word.upright and begins < (word.box.left + word.box.right) / 2 < ends
        for word in sight.words
    ):
        return ALONG
    if flap:
        return 0.0
    both = any(box.right < middle for box in boxes) and any(box.left > middle for box in boxes)
    return APART if both else SHAPED


def split_of(picture: Picture, sight: Sight) -> tuple[float, float] | None:
    """Return the split of a picture that its lettering bears out; None where it is to be whole."""
    if picture.split is None:
        return None
    art = Art(picture=picture.name, trim=picture.trim, split=picture.split)
    size = (picture.width, picture.height)
    return None if any(split_through(word, size, art) for word in sight.words) else picture.split


def is_parted(picture: Picture, title: str) -> bool:
    """Return whether a picture is a flat cover scan whose spine is known, for a game's title."""
    return split_of(picture, sight_of(picture, title)) is not None
