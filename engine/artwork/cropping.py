"""Where a picture is cropped: beside its lettering, and where it loses least of what it shows."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from engine.artwork.banding import Band
from engine.artwork.mapping import area, overlap
from engine.artwork.placing import Span, Strip, best, places
from engine.artwork.sights import Sight
from engine.artwork.standing import AWAY, CLEAR, ROOMY, Surface, View, on_spine, view_of
from engine.artwork.trimming import mended
from engine.artwork.windows import PixelRect, focus_on
from engine.model import Art, Picture

BAR_LEFT = 0.45
"""A bar of which less is left does not look as if it was meant to stay."""

CUT, CUT_WIDTH = 0.1, 0.02
"""What it costs to cut where the eye is drawn as on the average, and the part of the whole's side
to either side of the cut that is looked at."""

FACE = 1.0
"""What it costs to lose all of a face, of all that draws the eye."""


def placed(
    picture: Picture, art: Art, surface: Surface, sight: Sight, bands: Sequence[Band]
) -> Art | None:
    """Return ``art``, which fills ``surface``, with the focus at which it loses least.

    None where no place leaves all lettering whole or out of sight.
    """
    size = (picture.width, picture.height)
    view = view_of(size, picture.dot, art, mended(picture, sight), surface)
    level = view.whole.width - view.shown.width > view.whole.height - view.shown.height
    there, shown = _along(view.whole, level=level)[2], _along(view.shown, level=level)[2]
    if there - shown <= 1e-9 * there:
        return art
    start = _along(view.whole, level=level)[0]
    strips = _strips(view, bands, level=level)
    roomy = _spans(size, art, view, sight, ROOMY, level=level)
    close = _spans(size, art, view, sight, CLEAR, level=level)
    ways: tuple[Sequence[Span | Strip], ...] = (
        (*roomy, *strips),
        roomy,
        (*close, *strips),
        close,
    )
    where = next(filter(None, (places(there, shown, things) for things in ways)), [])
    at = best(
        there,
        shown,
        where,
        lambda at: _price(sight, view, start + at, start + at + shown, level=level),
    )
    if at is None:
        return None
    focus = list(art.focus)
    focus[0 if level else 1] = focus_on(there, shown, at)
    return msgspec.structs.replace(art, focus=(focus[0], focus[1]))


def lost(sight: Sight, view: View, start: float, end: float, *, level: bool) -> float:
    """Return how much of what draws the eye lies outside a window along one way, 0 to 1 and more.

    Of a face that is not all in sight as much again counts as is cut.
    """
    first, last, _ = _along(view.whole, level=level)
    whole = sight.interest(first, last, level=level)
    inside = sight.interest(max(start, first), min(end, last), level=level)
    parts = []
    for face in sight.faces:
        if area(overlap(face, view.whole)) > 0.5 * area(face):
            low, high, long = _along(face, level=level)
            parts.append(1.0 - max(0.0, min(high, end) - max(low, start)) / long)
    return (1.0 - inside / whole if whole else 0.0) + FACE * max(parts, default=0.0)


def _price(sight: Sight, view: View, start: float, end: float, *, level: bool) -> float:
    return lost(sight, view, start, end, level=level) + CUT * at_cuts(
        sight, view, start, end, level=level
    )


def at_cuts(sight: Sight, view: View, start: float, end: float, *, level: bool) -> float:
    """Return how much draws the eye where a window cuts, 1 where it does as on the whole's average.

    The greater one of both cuts; 0 where the window ends with the whole, or nearly so.
    """
    first, last, long = _along(view.whole, level=level)
    near = CUT_WIDTH * long
    whole = sight.interest(first, last, level=level)
    if not whole:
        return 0.0
    cuts = [cut for cut, there in ((start, start - first), (end, last - end)) if there > near]
    there = (sight.interest(cut - near, cut + near, level=level) for cut in cuts)
    return max(there, default=0.0) / whole / (2 * CUT_WIDTH)


def _spans(
    size: tuple[int, int], art: Art, view: View, sight: Sight, clear: float, *, level: bool
) -> list[Span]:
    """Return what must not be cut nor come nearer than ``clear`` mm to a cut."""
    scale = view.across if level else view.down
    start, end, _ = _along(view.whole, level=level)
    home_start, home_end, _ = _along(view.home, level=level)
    spans = []
    for word in sight.words:
        low, high, _ = _along(word.box, level=level)
        if on_spine(word, size, art) or area(overlap(word.box, view.whole)) < 0.5 * area(word.box):
            continue
        spans.append(
            Span(
                start=low - start,
                end=high - start,
                before=min(clear * scale, max(0.0, low - max(home_start, start))),
                after=min(clear * scale, max(0.0, min(home_end, end) - high)),
                away=AWAY * scale,
                may_go=not word.stays,
            )
        )
    return spans


def _strips(view: View, bands: Sequence[Band], *, level: bool) -> list[Strip]:
    start, _, long = _along(view.whole, level=level)
    hair = 0.005 * long
    strips = []
    for band in bands:
        low, high, _ = _along(overlap(band.box, view.whole), level=level)
        if (band.side in {"left", "right"}) == level and high - low > hair:
            strips.append(Strip(low - start, high - start, BAR_LEFT))
    return strips


def _along(box: PixelRect, *, level: bool) -> tuple[float, float, float]:
    """Return where a box starts and ends along one way, and how long it is."""
    if level:
        return box.left, box.right, box.width
    return box.top, box.bottom, box.height
