"""How a picture lies on its panel, what that costs it, and which way costs least.

Pure arithmetic on the facts that were found when the picture was taken in and read; no file is
opened. docs/artwork.md explains the measure.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import msgspec

from engine.artwork.banding import Band, bands
from engine.artwork.cropping import placed
from engine.artwork.sights import Sight, sight_of
from engine.artwork.splitting import split_of
from engine.artwork.standing import Surface, View, view_of
from engine.artwork.telling import Says
from engine.artwork.trimming import Cut, cuts, mended
from engine.artwork.weighing import Ground, weigh
from engine.artwork.windows import PixelRect, moved_split, part_of
from engine.artwork.wording import Laying, describe
from engine.model import Art, Fit, Loss, Matte, Picture, Size, Value
from engine.model.risk import Risk, chance_of
from engine.model.units import MM_PER_INCH

FINE_PPI = 200.0
"""Below this a person sees dots at reading distance: a warning (150 to 200 is bearable and 300 the
habit; common practice, no published source)."""

COARSE_PPI = 120.0
"""Below this the proposal is not sure."""

STRETCHES = (0.0, 0.02, 0.035)
"""How far a picture that is cropped or laid on a matte may be stretched as well, tried in turn:
more than 4 % of stretch is seen on faces and circles."""

BAND = (0.18, 0.65)
"""Part of the panel that a band of words takes at least and at most."""

BAND_MM = (8.0, 18.0)
"""How high a band below a picture is at least, and how wide one beside it."""

BANDED = (0.04, 0.35)
"""What a band costs at once, and for all of the panel: less than a matte, for it says something."""

UNTITLED = 0.5
"""What it costs to say the title nowhere on the insert."""

SURE = 0.9
"""How likely it must be that nothing is wrong for a fit to be sure; docs/sure.md has the curve."""

WORTH_A_WORD = 0.02
"""Chances below this are not told."""

MUCH = 0.36
"""Part of a picture: what fills a panel only by cropping more off than this is no better than a
matte."""

BESIDE = 0.3
"""How much the panels beside the main one count."""


class Fitting(Value, frozen=True):
    """One way to lay a picture on a panel, with what it costs."""

    art: Art
    loss: Loss
    ppi: float
    """Pixels to the inch as printed, the lower of both directions; 0 for plain."""
    words: str
    warnings: tuple[str, ...] = ()
    risks: tuple[Risk, ...] = ()

    @property
    def chance(self) -> float:
        """How likely it is that nothing is wrong with it, 0 to 1."""
        return chance_of(self.risks)

    @property
    def sure(self) -> bool:
        """Whether it may be accepted unseen."""
        return self.chance >= SURE

    @property
    def doubts(self) -> tuple[str, ...]:
        """What could be wrong with it, the likeliest first, where that keeps it from being sure."""
        if self.sure:
            return ()
        worth = tuple(risk.words for risk in self.risks if risk.chance >= WORTH_A_WORD)
        return worth or (self.risks[0].words,)


class Wanted(NamedTuple):
    """What a picture is fitted for."""

    surface: Surface
    """The main panel."""
    beside: tuple[Surface, ...] = ()
    """The other panels that show a part of a flat cover scan."""
    title: str = ""
    lines: tuple[str, ...] = ()
    """What else may be said beside a picture: series, maker, year; none empty."""
    titled: bool = False
    """Whether an edge of the insert says the title."""
    banded: bool = True
    """Whether a band of words may stand beside a picture."""


def cost(loss: Loss) -> float:
    """Return one number for ``loss``: 0 for nothing, about 0.1 for what one just minds.

    Chosen by eye, no published source: stretching grows with its square, since a few percent are
    not seen; cropping grows faster than its area; a matte costs a step at once, since it shows that
    the picture does not fit, then its area.
    """
    matte = 0.6 * loss.empty + 0.05 * min(1.0, loss.empty / 0.02)
    return 10.0 * loss.distortion**2 + 0.5 * loss.cropped + loss.cropped**2 + matte


def propose_fit(picture: Picture, panel: Size, part: str = "", *, title: str = "") -> Fitting:
    """Return the way to lay ``picture`` on ``panel`` that costs least.

    ``panel`` is in its reading frame; ``part`` is the part of a flat cover scan it takes.
    """
    return fittings(picture, Wanted(Surface(panel, part), title=title, titled=True))[0]


def fittings(picture: Picture, wanted: Wanted) -> tuple[Fitting, ...]:
    """Return the ways to lay ``picture`` as ``wanted``, the cheapest first, one of each kind.

    Each is tried with the border trimmed and, where there is a bar that may go, with that trimmed
    too. What could be wrong with a way counts with what it costs. A screenshot is drawn dot for dot
    first of all: scaled otherwise its dots are no longer alike. Plain is not among them: it needs
    no picture.
    """
    sight = sight_of(picture, wanted.title)
    bars = bands(picture, sight)
    best: dict[tuple[Fit, bool], tuple[float, Fitting]] = {}
    ways = sorted(_ways(picture, wanted, sight, bars), key=lambda way: _leaves_room(way[0]))
    filled = 0.0
    for art, cut in ways:
        found = _weighed(picture, art, wanted, sight, bars, filled)
        if not _leaves_room(art) and found.loss.cropped <= MUCH:
            filled = max(filled, found.chance)
        price = 0.0 if picture.dot and art.fit is Fit.PIXELS else _price(picture, found, wanted)
        price += cut.price + (UNTITLED if _is_untitled(art, wanted, sight) else 0.0)
        look = (art.fit, bool(art.band))
        if look not in best or price < best[look][0]:
            best[look] = (price, found)
    return tuple(found for _, found in sorted(best.values(), key=lambda each: each[0]))


def judge(picture: Picture, art: Art, panel: Size, part: str = "") -> Fitting:
    """Return what laying ``picture`` on ``panel`` as ``art`` says costs, in numbers and words."""
    if art.picture is None:
        return Fitting(art, Loss(empty=1.0), 0.0, f"no picture, {art.pattern}")
    view = _view(picture, art, Surface(panel, part))
    loss = _with_band(_loss(view), art)
    resolution = min(view.across, view.down) * MM_PER_INCH
    taller = view.across > view.down
    words = describe(picture, art, Laying(part, _own(view.whole), _shown(view), loss, taller))
    return Fitting(art, loss, resolution, words, _warnings(art, resolution))


def _weighed(
    picture: Picture,
    art: Art,
    wanted: Wanted,
    sight: Sight,
    bars: tuple[Band, ...],
    filled: float,
) -> Fitting:
    found = judge(picture, art, wanted.surface.size, wanted.surface.part)
    size, border = (picture.width, picture.height), mended(picture, sight)
    views = [view_of(size, picture.dot, art, border, one) for one in _surfaces(art, wanted)]
    needless = 0.0 if _is_wanted(art, wanted, sight) else filled
    ground = Ground(picture, sight, bars, tuple(views), wanted.titled, needless)
    return msgspec.structs.replace(found, risks=weigh(art, ground, found.loss, found.ppi))


def _leaves_room(art: Art) -> bool:
    """Return whether art shows less of the picture than the panel could."""
    return bool(art.band) or art.fit in {Fit.MATTE, Fit.PIXELS}


def _is_wanted(art: Art, wanted: Wanted, sight: Sight) -> bool:
    """Return whether art has a band that the insert needs to say its title at all."""
    return bool(art.band) and sight.says is Says.NO and not wanted.titled


def _is_untitled(art: Art, wanted: Wanted, sight: Sight) -> bool:
    """Return whether an insert would say its title nowhere."""
    return sight.says is Says.NO and not (wanted.titled or art.band)


def _price(picture: Picture, found: Fitting, wanted: Wanted) -> float:
    band = abs(found.art.band)
    bare = msgspec.structs.replace(found.loss, empty=_nothing(found.loss.empty - band))
    price = cost(bare) + (1.0 - found.chance)
    if band:
        price += BANDED[0] + BANDED[1] * band
    if found.art.split is not None:
        for surface in wanted.beside:
            price += BESIDE * cost(_loss(_view(picture, found.art, surface)))
    return price


def _surfaces(art: Art, wanted: Wanted) -> tuple[Surface, ...]:
    return (wanted.surface, *(wanted.beside if art.split is not None else ()))


def _view(picture: Picture, art: Art, surface: Surface) -> View:
    return view_of((picture.width, picture.height), picture.dot, art, picture.trim, surface)


def _own(box: PixelRect) -> PixelRect:
    return PixelRect(0.0, 0.0, box.width, box.height)


def _shown(view: View) -> PixelRect:
    left, top = view.whole.left, view.whole.top
    shown = view.shown
    return PixelRect(shown.left - left, shown.top - top, shown.right - left, shown.bottom - top)


def _ways(
    picture: Picture, wanted: Wanted, sight: Sight, bars: tuple[Band, ...]
) -> Iterator[tuple[Art, Cut]]:
    """Yield ways to lay a picture, and what was cut off it first."""
    split = split_of(picture, sight)
    says_nothing = sight.says is Says.NO and not wanted.titled
    for cut in cuts(picture, sight, bars, titled=wanted.titled, split=split):
        bare = Art(
            picture=picture.name,
            trim=cut.trim,
            split=moved_split(split, picture.trim, cut.trim),
            turn=picture.turn,
        )
        if picture.dot:
            yield msgspec.structs.replace(bare, fit=Fit.PIXELS), cut
        for stretch in STRETCHES:
            eased = msgspec.structs.replace(bare, stretch=stretch)
            filled = placed(picture, eased, wanted.surface, sight, bars)
            yield filled or eased, cut
            yield msgspec.structs.replace(eased, fit=Fit.MATTE, matte=Matte.MIRROR), cut
        yield msgspec.structs.replace(bare, fit=Fit.STRETCH), cut
        if split is None and wanted.title and wanted.banded:
            for art in _banded(picture, bare, wanted, always=says_nothing):
                banded = placed(picture, art, wanted.surface, sight, bars)
                if banded is not None:
                    yield banded, cut


def _banded(picture: Picture, bare: Art, wanted: Wanted, *, always: bool) -> Iterator[Art]:
    """Yield ways to lay a picture beside a band of words, as whole as that leaves it.

    A picture that would leave no room for one is cropped for it where ``always``.
    """
    panel = wanted.surface.size
    whole = part_of((picture.width, picture.height), bare)
    shape = whole.width / whole.height
    for sign, left, long, least in (
        (1.0, 1.0 - panel.width / shape / panel.height, panel.height, BAND_MM[0]),
        (-1.0, 1.0 - panel.height * shape / panel.width, panel.width, BAND_MM[1]),
    ):
        narrowest = max(BAND[0], least / long)
        if left > BAND[1] or narrowest > BAND[1] or (left < narrowest and not always):
            continue
        yield msgspec.structs.replace(
            bare,
            fit=Fit.PIXELS if picture.dot else Fit.FILL,
            stretch=0.0 if picture.dot else STRETCHES[-1],
            band=round(sign * max(left, narrowest), 4),
            words=wanted.title,
            lines=wanted.lines,
        )


def _loss(view: View) -> Loss:
    seen = view.seen.width * view.seen.height
    across, down = view.across, view.down
    return Loss(
        distortion=_nothing(max(across, down) / min(across, down) - 1.0),
        cropped=_nothing(1.0 - seen / (view.whole.width * view.whole.height)),
        empty=_nothing(1.0 - seen / (view.shown.width * view.shown.height)),
    )


def _with_band(loss: Loss, art: Art) -> Loss:
    """Return the loss on a whole panel of what is lost on all of it but the band."""
    band = abs(art.band)
    return msgspec.structs.replace(loss, empty=band + (1.0 - band) * loss.empty) if band else loss


def _nothing(value: float) -> float:
    """Return ``value``, or 0 for what is only the rounding of floats."""
    return value if value > 1e-9 else 0.0


def _warnings(art: Art, resolution: float) -> tuple[str, ...]:
    if art.fit is Fit.PIXELS or resolution >= FINE_PPI:
        return ()
    seen = "dots will show" if resolution < COARSE_PPI else "a little soft"
    return (f"{resolution:.0f} pixels to the inch as printed: {seen}",)
