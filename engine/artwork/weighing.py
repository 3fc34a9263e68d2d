"""What could be wrong with a way to lay a picture on its panels, and how likely each is.

The chances are what was measured on drawn covers whose truth is known (``tests.bench.blind``),
rounded; docs/decisions/sure.md says how.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.artwork.banding import Band
from engine.artwork.cropping import lost
from engine.artwork.sights import Sight
from engine.artwork.standing import Standing, View, on_spine, split_through, standing
from engine.model import Art, Fit, Loss, Picture
from engine.model.risk import Risk, RiskKind


class Ground(NamedTuple):
    """What a way is judged by."""

    picture: Picture
    sight: Sight
    bars: tuple[Band, ...]
    views: tuple[View, ...]
    """The main panel's first."""
    titled: bool
    """Whether an edge of the insert says the title."""


def weigh(art: Art, ground: Ground, loss: Loss, ppi: float) -> tuple[Risk, ...]:
    """Return what could be wrong with ``art``, the likeliest first."""
    found = (*_lettering(art, ground), *_unread(art, ground, loss), *_subject(art, ground, loss))
    found += (*_shape(art, ground, loss), *_soft(art, ppi), *_split(art, ground))
    return tuple(sorted(found, key=lambda risk: -risk.chance))


def _lettering(art: Art, ground: Ground) -> Iterator[Risk]:
    size = (ground.picture.width, ground.picture.height)
    for word in ground.sight.words:
        if split_through(word, size, art):
            yield Risk(RiskKind.SPLIT, 1.0, f"It is split through “{word.text}”.")
            continue
        if on_spine(word, size, art):
            continue
        how = standing(word, ground.views)
        if how is Standing.CUT:
            yield Risk(RiskKind.LETTERING, 1.0, f"It cuts “{word.text}”.")
        elif how is Standing.GONE and word.stays and not (ground.titled and _goes(word, art, ground)):
            yield Risk(RiskKind.TITLE, 1.0, f"It loses “{word.text}”.")


def _goes(word: object, art: Art, ground: Ground) -> bool:
    """Return whether a line goes with the whole bar it stands on."""
    return any(
        word in band.words
        and getattr(art.trim, band.side) >= getattr(band.trim, band.side) - 1e-9
        for band in ground.bars
    )


def _unread(art: Art, ground: Ground, loss: Loss) -> Iterator[Risk]:
    if loss.cropped > 0.005 and not ground.sight.read:
        yield Risk(RiskKind.LETTERING, 0.4, "It was not read yet: the crop may cut lettering.")


def _subject(art: Art, ground: Ground, loss: Loss) -> Iterator[Risk]:
    if loss.cropped <= 0.0:
        return
    view = ground.views[0]
    level = view.whole.width - view.shown.width > view.whole.height - view.shown.height
    start, end = (
        (view.shown.left, view.shown.right) if level else (view.shown.top, view.shown.bottom)
    )
    chance = min(1.0, 0.5 * lost(ground.sight, view, start, end, level=level))
    yield Risk(RiskKind.SUBJECT, chance, "The crop may cut what the picture shows.")


def _shape(art: Art, ground: Ground, loss: Loss) -> Iterator[Risk]:
    if loss.distortion > 0.04:
        chance = min(1.0, (loss.distortion - 0.04) / 0.06 + ground.sight.round)
        yield Risk(RiskKind.STRETCH, chance, f"It is stretched by {loss.distortion:.0%}.")
    if loss.empty > 0.1 and art.fit is not Fit.PIXELS:
        yield Risk(RiskKind.MATTE, 0.15, f"{loss.empty:.0%} of the panel shows no picture.")


def _soft(art: Art, ppi: float) -> Iterator[Risk]:
    if art.fit is not Fit.PIXELS and ppi < 120.0:
        yield Risk(RiskKind.SOFTNESS, 0.6, f"{ppi:.0f} pixels to the inch as printed: dots show.")


def _split(art: Art, ground: Ground) -> Iterator[Risk]:
    if art.split is not None and not ground.sight.read:
        yield Risk(RiskKind.SPLIT, 0.3, "It was not read yet: it may be no wrap.")
