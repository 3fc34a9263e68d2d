"""Bars and banners by evidence: a strip along a side that carries lettering of its own.

Edges alone do not make one: masts, horizons and the joints of bricks run as straight. What tells a
bar is lettering that runs along it and lies between its edges.
"""

from __future__ import annotations

from typing import NamedTuple

from engine.artwork.mapping import area, overlap
from engine.artwork.sights import Sight, Word
from engine.artwork.windows import PixelRect
from engine.model import Picture, Trim

CROSSING = 0.12
"""Part of a line's thickness by which it may reach over a bar's edge and still not cross it."""


class Band(NamedTuple):
    """A bar or a banner."""

    side: str
    """The side of the picture that it lies along."""
    trim: Trim
    """What cuts it off, the border with it."""
    box: PixelRect
    """In pixels of the straightened picture."""
    words: tuple[Word, ...]
    """What it says."""

    @property
    def may_go(self) -> bool:
        """Whether nothing in it belongs to the title."""
        return not any(word.stays for word in self.words)


def bands(picture: Picture, sight: Sight) -> tuple[Band, ...]:
    """Return the bars of ``picture`` that carry lettering, at most one for each side."""
    found: dict[str, Band] = {}
    for trim in picture.bars:
        sides = [side for side in Trim._fields if getattr(trim, side) > getattr(picture.trim, side)]
        if len(sides) == 1:
            band = _band(picture, sight, sides[0], trim)
            if band is not None and (
                sides[0] not in found or area(band.box) < area(found[sides[0]].box)
            ):
                found[sides[0]] = band
    return tuple(found.values())


def _band(picture: Picture, sight: Sight, side: str, trim: Trim) -> Band | None:
    box = strip(picture, side, picture.trim, trim)
    words = sight.within(box)
    if not words or any(crosses(word, box) for word in sight.words if word not in words):
        return None
    upright = side in {"left", "right"}
    along = any(word.upright == upright or len(word.text) <= 2 for word in words)
    return Band(side, trim, box, words) if along else None


def strip(picture: Picture, side: str, border: Trim, trim: Trim) -> PixelRect:
    """Return the box along ``side`` between what ``border`` leaves and what ``trim`` leaves."""
    width, height = picture.width, picture.height
    outer = PixelRect(
        border.left * width,
        border.top * height,
        (1.0 - border.right) * width,
        (1.0 - border.bottom) * height,
    )
    match side:
        case "left":
            return outer._replace(right=trim.left * width)
        case "right":
            return outer._replace(left=(1.0 - trim.right) * width)
        case "top":
            return outer._replace(bottom=trim.top * height)
        case _:
            return outer._replace(top=(1.0 - trim.bottom) * height)


def crosses(word: Word, box: PixelRect) -> bool:
    """Return whether a line lies on both sides of an edge of ``box``, by more than a hair."""
    hair = CROSSING * min(word.box.width, word.box.height)
    common = overlap(word.box, box)
    if common.width <= hair or common.height <= hair:
        return False
    return word.box.width - common.width > hair or word.box.height - common.height > hair
