"""What becomes of a picture's lettering on the panels that show it: whole, cut or gone."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from typing import NamedTuple

import msgspec

from engine.artwork.mapping import overlap
from engine.artwork.sights import Word
from engine.artwork.windows import SPINE, PixelRect, moved_split, part_of, room, window
from engine.model import Art, Size, Trim

CLEAR = 1.0
"""mm between lettering and a cut, where the picture itself has as much: what a home printer's feed
and a hand at the trimmer err (0.5 to 1 mm each; common practice, no published source)."""

ROOMY = 1.4
"""mm that are better, since boxes of lettering are read no better than to some tenths of a mm."""

AWAY = 0.5
"""mm between a cut and lettering that is left out: it must not look in at the edge."""

HAIR = 1e-3
"""mm that is only the rounding of floats."""


class Surface(NamedTuple):
    """A panel that may take art."""

    size: Size
    """As it is read, in mm."""
    part: str = ""
    """The part of a flat cover scan that it takes."""


class View(NamedTuple):
    """What a panel shows of a picture. Boxes are in pixels of the straightened picture."""

    surface: Surface
    """The panel without the band of words."""
    whole: PixelRect
    """What trim and split leave for it."""
    shown: PixelRect
    """What lies on the panel; it reaches beyond ``whole`` where a matte shows."""
    home: PixelRect
    """The part itself, border off: how far lettering is from a rim of its own."""

    @property
    def seen(self) -> PixelRect:
        """Return what of the picture is in sight."""
        return overlap(self.whole, self.shown)

    @property
    def across(self) -> float:
        """Return pixels to a mm across the panel."""
        return self.shown.width / self.surface.size.width

    @property
    def down(self) -> float:
        """Return pixels to a mm down the panel."""
        return self.shown.height / self.surface.size.height


class Standing(StrEnum):
    """What becomes of a line of lettering."""

    WHOLE = "whole"
    CUT = "cut"
    GONE = "gone"


def view_of(size: tuple[int, int], dot: int, art: Art, border: Trim, surface: Surface) -> View:
    """Return what ``surface`` shows of a picture of ``size`` pixels whose border is ``border``."""
    whole = part_of(size, art, surface.part)
    surface = surface._replace(size=room(surface.size, art))
    bare = msgspec.structs.replace(art, band=0.0)
    inner = window((whole.width, whole.height), surface.size, bare, dot or 1)
    shown = PixelRect(
        whole.left + inner.left,
        whole.top + inner.top,
        whole.left + inner.right,
        whole.top + inner.bottom,
    )
    home = part_of(size, _uncut(art, border), surface.part)
    return View(surface, whole, shown, home)


def _uncut(art: Art, border: Trim) -> Art:
    """Return ``art`` trimmed by the border alone, its split where it was."""
    return msgspec.structs.replace(art, trim=border, split=moved_split(art.split, art.trim, border))


def standing(word: Word, views: Sequence[View]) -> Standing:
    """Return what becomes of a line on all panels: cut on one is cut, whole on one is whole."""
    found = {_standing(word, view) for view in views}
    return next((how for how in (Standing.CUT, Standing.WHOLE) if how in found), Standing.GONE)


def _standing(word: Word, view: View) -> Standing:
    box, seen = word.box, view.seen
    scales = (view.across, view.down, view.across, view.down)
    outside = (
        seen.left - box.right,
        seen.top - box.bottom,
        box.left - seen.right,
        box.top - seen.bottom,
    )
    if max(gap / scale for gap, scale in zip(outside, scales, strict=True)) >= AWAY - HAIR:
        return Standing.GONE
    have, own = _margins(box, seen), _margins(box, view.home)
    for there, once, scale in zip(have, own, scales, strict=True):
        if (
            there / scale < min(CLEAR, max(0.0, once / scale)) - HAIR
            and there < once - HAIR * scale
        ):
            return Standing.CUT
    return Standing.WHOLE


def nearest(word: Word, view: View, outer: PixelRect) -> float:
    """Return how near a line that is in sight comes to a cut, in mm, but for its own rim.

    Only sides count on which ``outer`` goes on beyond the cut.
    """
    scales = (view.across, view.down, view.across, view.down)
    have, own = _margins(word.box, view.seen), _margins(word.box, outer)
    return min(
        (
            there / scale
            for there, once, scale in zip(have, own, scales, strict=True)
            if once - there > HAIR * scale
        ),
        default=ROOMY,
    )


def _margins(inner: PixelRect, outer: PixelRect) -> tuple[float, float, float, float]:
    return (
        inner.left - outer.left,
        inner.top - outer.top,
        outer.right - inner.right,
        outer.bottom - inner.bottom,
    )


def on_spine(word: Word, size: tuple[int, int], art: Art) -> bool:
    """Return whether a line stands on the spine of a split scan, which the insert says anew."""
    if art.split is None:
        return False
    spine = part_of(size, art, SPINE)
    return spine.left <= (word.box.left + word.box.right) / 2 <= spine.right


def split_through(word: Word, size: tuple[int, int], art: Art) -> bool:
    """Return whether a split runs through a line."""
    if art.split is None:
        return False
    spine = part_of(size, art, SPINE)
    hair = HAIR + 0.12 * min(word.box.width, word.box.height)
    return any(
        word.box.left + hair < cut < word.box.right - hair for cut in (spine.left, spine.right)
    )
