"""What could be wrong with a way to lay a picture on its panels, and how likely each is.

The chances are what was measured on drawn covers whose truth is known (``tests.bench.blind``),
rounded; docs/decisions/sure.md says how.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import exp, log
from typing import NamedTuple

from engine.artwork.banding import Band
from engine.artwork.cropping import BAR_LEFT, at_cuts
from engine.artwork.mapping import area, overlap
from engine.artwork.sights import Sight, Word
from engine.artwork.splitting import like_a_wrap
from engine.artwork.standing import (
    ROOMY,
    Standing,
    View,
    nearest,
    on_spine,
    split_through,
    standing,
)
from engine.artwork.telling import Says
from engine.artwork.windows import PixelRect
from engine.model import Art, Fit, Loss, Picture
from engine.model.risk import Risk

SUBJECT = (-3.0, 7.0, 1.5)
"""Log-odds that a crop loses the subject: at once, for all of the picture cropped, and for the
logarithm of how much draws the eye at the cut."""

COARSE = 120.0
"""Pixels to the inch as printed below which dots show. Common practice, no published source."""

NEAR = 0.12
"""That lettering is cut which lies nearer a cut than ``ROOMY``, for boxes are not read exactly."""

SQUEEZED = 0.5
"""That trimming a border brings lettering too near the cut, where it does by what was read."""

ASKEW = 0.9
"""That a cover which lies slanted on a ground is not meant to print so. Judged by eye."""

BARE_SPLIT = 0.25
"""That a picture is no wrap which is split by its edges alone: nothing is written on its spine."""

PARTED = 0.3
"""That a part of a wrap which is shown whole on a matte could have filled its panel."""

BARRED = 0.2
"""That what is trimmed as a bar is a part of the picture, or a part of the bar."""

LEAST_BAR, PART_LEFT = 0.03, 0.8
"""The part of a bar that is seen at all, and that a part looks as if it was not meant to stay."""

EMPTY = 0.02
"""That a matte which no crop seems able to spare could have been spared."""


class Ground(NamedTuple):
    """What a way is judged by."""

    picture: Picture
    sight: Sight
    bars: tuple[Band, ...]
    views: tuple[View, ...]
    """The main panel's first."""
    titled: bool
    """Whether an edge of the insert says the title."""
    filled: float
    """How likely it is that another way would fill the panel and be right."""


def weigh(art: Art, ground: Ground, loss: Loss, ppi: float) -> tuple[Risk, ...]:
    """Return what could be wrong with ``art``, the likeliest first."""
    found = (
        *_lettering(art, ground),
        *_title(art, ground),
        *_unread(ground, loss),
        *_subject(ground),
        *_slant(ground),
    )
    found += (*_shape(art, ground, loss), *_soft(art, ppi), *_split(art, ground))
    return tuple(sorted(found, key=lambda risk: -risk.chance))


def _lettering(art: Art, ground: Ground) -> Iterator[Risk]:
    size = (ground.picture.width, ground.picture.height)
    for word in ground.sight.words:
        if split_through(word, size, art):
            yield Risk(1.0, f"It is split through “{word.text}”.")
            continue
        if on_spine(word, size, art):
            continue
        how = standing(word, ground.views)
        if how is Standing.CUT:
            yield Risk(1.0, f"It cuts “{word.text}”.")
        elif how is Standing.WHOLE:
            yield from _closeness(word, ground)
        elif word.stays and not (ground.titled and _goes(word, art, ground)):
            yield Risk(1.0, f"It loses “{word.text}”.")


def _slant(ground: Ground) -> Iterator[Risk]:
    if ground.picture.askew:
        yield Risk(ASKEW, "It lies askew in its picture, on a ground that shows around it.")


def _closeness(word: Word, ground: Ground) -> Iterator[Risk]:
    whole = PixelRect(0.0, 0.0, ground.picture.width, ground.picture.height)
    for view in ground.views:
        if area(overlap(word.box, view.seen)) < 0.5 * area(word.box):
            continue
        for outer, chance in ((view.home, NEAR), (whole, SQUEEZED)):
            near = nearest(word, view, outer)
            if near < ROOMY - 1e-3:
                words = f"“{word.text}” comes within {max(0.0, near):.1f} mm of the cut."
                yield Risk(chance, words)
                break


def _title(art: Art, ground: Ground) -> Iterator[Risk]:
    """Yield the doubt that an insert says its title nowhere."""
    sight = ground.sight
    if ground.titled or not sight.read:
        return
    if art.band:
        if sight.says is Says.PERHAPS:
            yield Risk(0.5, "Perhaps the picture says the title already.")
        return
    seen = any(
        word.stays and standing(word, ground.views) is Standing.WHOLE for word in sight.words
    )
    if sight.says is Says.NO or not seen:
        yield Risk(0.9, "It may say the title nowhere.")
    elif sight.says is Says.PERHAPS:
        yield Risk(0.4, "The title was not made out in the picture.")


def _goes(word: object, art: Art, ground: Ground) -> bool:
    """Return whether a line goes with the whole bar it stands on."""
    return any(
        word in band.words and getattr(art.trim, band.side) >= getattr(band.trim, band.side) - 1e-9
        for band in ground.bars
    )


def _unread(ground: Ground, loss: Loss) -> Iterator[Risk]:
    if loss.cropped <= 0.005:
        return
    if not ground.sight.read:
        yield Risk(0.4, "It was not read yet: the crop may cut lettering.")
    elif not ground.sight.legible:
        words = "Its title is in letters that are not read: the crop may cut them."
        yield Risk(0.4, words)
    elif ground.sight.says is not Says.YES:
        words = "Its title was not made out in the picture: the crop may cut it."
        yield Risk(0.2 if ground.sight.words else 0.02, words)


def _subject(ground: Ground) -> Iterator[Risk]:
    for view in ground.views:
        cropped = 1.0 - area(view.seen) / area(view.whole)
        if cropped <= 0.0:
            continue
        level = view.whole.width - view.shown.width > view.whole.height - view.shown.height
        start, end = (
            (view.shown.left, view.shown.right) if level else (view.shown.top, view.shown.bottom)
        )
        drawn = at_cuts(ground.sight, view, start, end, level=level)
        odds = SUBJECT[0] + SUBJECT[1] * cropped + SUBJECT[2] * log(drawn + 0.05)
        chance = 1.0 / (1.0 + exp(-odds))
        yield Risk(chance, "The crop may cut what it is about.")
        return


def _shape(art: Art, ground: Ground, loss: Loss) -> Iterator[Risk]:
    if loss.distortion > 0.04:
        chance = min(1.0, (loss.distortion - 0.04) / 0.06 + ground.sight.round)
        yield Risk(chance, f"It is stretched by {loss.distortion:.0%}.")
    if loss.empty > 0.1 and art.fit is not Fit.PIXELS:
        words = f"{loss.empty:.0%} of the panel shows no picture, though a crop might do."
        yield Risk(max(ground.filled, PARTED if art.split else EMPTY), words)
    for bar in ground.bars:
        seen = overlap(bar.box, ground.views[0].seen)
        upright = bar.side in {"left", "right"}
        share = seen.width / bar.box.width if upright else seen.height / bar.box.height
        if LEAST_BAR < share < BAR_LEFT:
            yield Risk(PART_LEFT, "A part of a bar is left.")
    if art.trim in ground.picture.bars:
        yield Risk(BARRED, "What is trimmed may be no bar.")


def _soft(art: Art, ppi: float) -> Iterator[Risk]:
    if art.fit is not Fit.PIXELS and ppi < COARSE:
        yield Risk(0.6, f"{ppi:.0f} pixels to the inch as printed: dots show.")


def _split(art: Art, ground: Ground) -> Iterator[Risk]:
    sight, split = ground.sight, art.split
    if split is not None:
        if not sight.read:
            yield Risk(0.3, "It was not read yet: it may be no wrap.")
        elif not any(on_spine(word, sight.size, art) for word in sight.words):
            yield Risk(BARE_SPLIT, "Its spine says nothing: it may be no wrap.")
    elif ground.picture.split is None:
        chance = like_a_wrap(ground.picture, sight)
        if chance:
            yield Risk(chance, "It may be a wrap whose spine was not found.")
