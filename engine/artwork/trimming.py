"""What may be cut off a picture before it is fitted: its border, and a bar that may go."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from engine.artwork.banding import Band, crosses, strip
from engine.artwork.mapping import area, overlap
from engine.artwork.sights import Sight
from engine.model import Picture, Trim

BAR_PRICE = 0.03
"""What cutting a bar or banner off costs, besides half its area: it is part of the picture, but not
of its art."""

TITLE_PRICE = 0.1
"""What it costs besides where the bar carries the title, which an edge then says alone."""


class Cut(NamedTuple):
    """A trim, and what it costs."""

    trim: Trim
    price: float = 0.0


def cuts(
    picture: Picture,
    sight: Sight,
    bars: Sequence[Band],
    *,
    titled: bool,
    split: tuple[float, float] | None,
) -> Iterator[Cut]:
    """Yield the trims that cut no lettering: the border's, then with each bar that may go.

    A bar that carries the title may go where an edge of the insert says it.
    """
    border = mended(picture, sight)
    yield Cut(border)
    if split is not None:
        return
    for band in bars:
        if band.may_go or titled:
            trim = border._replace(**{band.side: getattr(band.trim, band.side)})
            kept = _left(trim) / _left(border)
            price = BAR_PRICE + 0.5 * (1.0 - kept) + (0.0 if band.may_go else TITLE_PRICE)
            yield Cut(trim, price)


def mended(picture: Picture, sight: Sight) -> Trim:
    """Return the border's trim without the sides on which it would cut lettering off.

    Lettering on a border is no border's: there it is a frame, whose side is left.
    """
    trim = picture.trim
    for side in Trim._fields:
        if getattr(trim, side):
            box = strip(picture, side, Trim(), picture.trim)
            if any(
                crosses(word, box) or area(overlap(word.box, box)) > 0.5 * area(word.box)
                for word in sight.words
            ):
                trim = trim._replace(**{side: 0.0})
    return trim


def _left(trim: Trim) -> float:
    """Return the part of the picture that ``trim`` leaves."""
    return (1.0 - trim.left - trim.right) * (1.0 - trim.top - trim.bottom)
