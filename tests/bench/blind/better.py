"""Whether a cover could have filled its panel rightly: what a matte's need is told by."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, product

import msgspec

from engine.cases import FlatNet
from engine.model import Art, Fit, Trim
from tests.bench.blind import printed
from tests.bench.blind.judging import EMPTY, Fault, Sight, faults, says_title
from tests.bench.blind.truth import SIDES, Bar, Cover, Edges, middle, straight

PLACES = 61
"""Places tried for the window along the side that is cropped."""
MUCH = 0.35
"""Part of the art: what fills a panel only by cropping more off than this is no better than a
matte."""


def empty_without_need(sight: Sight, net: FlatNet, titled: tuple[str, ...]) -> tuple[Fault, ...]:
    """Return the fault that more of the main panel is empty than had to be, if it is.

    A screenshot that is drawn dot for dot needs what it leaves; an insert that says its title
    nowhere else needs its band.
    """
    if not sight.views or sight.art.fit is Fit.PIXELS:
        return ()
    if sight.art.band and not (sight.titled or says_title(sight)):
        return ()
    empty = sight.views[0].empty
    if empty <= EMPTY or right_fill(sight.cover, net, titled) is None:
        return ()
    return (Fault("empty without need", f"{empty:.0%}"),)


def title_nowhere(sight: Sight) -> tuple[Fault, ...]:
    """Return the fault that an insert without an edge says its title nowhere, if it is."""
    if not sight.views or sight.titled or sight.art.band or says_title(sight):
        return ()
    return (Fault("title nowhere", "neither in the picture nor beside it"),)


def right_fill(cover: Cover, net: FlatNet, titled: tuple[str, ...]) -> Art | None:
    """Return an art that fills the main panel and has no fault; None where there is none."""
    for art in _fills(cover):
        sight = _sight(cover, art, net, titled)
        view = sight.views[0]
        cropped = 1.0 - printed.area(view.seen) / printed.area(sight.home(view.part))
        if cropped <= MUCH and not faults(sight):
            return art
    return None


def whole(cover: Cover, net: FlatNet, titled: tuple[str, ...]) -> Sight:
    """Return the cover cut as it should be and shown whole on a matte: never wrong."""
    art = Art(
        picture=cover.file,
        fit=Fit.MATTE,
        trim=next(_trims(cover)),
        split=cover.split,
        turn=cover.turn,
    )
    return _sight(cover, art, net, titled)


def _sight(cover: Cover, art: Art, net: FlatNet, titled: tuple[str, ...]) -> Sight:
    views = printed.views(art, net, cover.size, cover.dot, titled)
    return Sight(cover, cover.file, art, views, bool(titled))


def _fills(cover: Cover) -> Iterator[Art]:
    """Yield every way to fill a panel with a cover that is cut as it should be."""
    for trim in _trims(cover):
        art = Art(picture=cover.file, trim=trim, split=cover.split, turn=cover.turn)
        yield msgspec.structs.replace(art, fit=Fit.STRETCH)
        for place in range(PLACES):
            at = place / (PLACES - 1)
            yield msgspec.structs.replace(art, focus=(at, at))


def _trims(cover: Cover) -> Iterator[Trim]:
    """Yield the trims that cut the border, and with it the frame or any of the bars."""
    width, height = cover.size
    box = middle(straight(cover.art, cover.turn, cover.size))
    border = (box.left / width, box.top / height, 1 - box.right / width, 1 - box.bottom / height)
    spans = (box.width / width, box.height / height) * 2
    for frame, bars in product(dict.fromkeys((Edges(), cover.frame)), _some(cover.bars)):
        deeper = dict(zip(SIDES, frame, strict=True)) | {bar.side: bar.depth for bar in bars}
        cut = zip(border, deeper.values(), spans, strict=True)
        yield Trim(*(max(0.0, off + depth * span) for off, depth, span in cut))


def _some(bars: Sequence[Bar]) -> Iterator[tuple[Bar, ...]]:
    """Yield every choice of the bars, none first."""
    for count in range(len(bars) + 1):
        yield from combinations(bars, count)
