"""How a picture lies on its panel, what that costs it, and which way costs least.

Pure arithmetic on the facts that were found when the picture was taken in; no file is opened.
docs/artwork.md explains the measure.
"""

from __future__ import annotations

from engine.artwork.windows import PixelRect, part_of, window
from engine.artwork.wording import Laying, describe
from engine.model import Art, Fit, Loss, Picture, Size, Trim, Value
from engine.model.units import MM_PER_INCH

FINE_PPI = 200.0
"""Below this a person sees dots at reading distance: a warning (150 to 200 is bearable and 300 the
habit; common practice, no published source)."""

COARSE_PPI = 120.0
"""Below this the proposal is not sure."""

BAR_COST = 0.03
"""What cutting a bar or banner off costs, besides half its area: it is part of the picture, but not
of its art."""


class Fitting(Value, frozen=True):
    """One way to lay a picture on a panel, with what it costs."""

    art: Art
    loss: Loss
    ppi: float
    """Pixels to the inch as printed, the lower of both directions; 0 for plain."""
    words: str
    warnings: tuple[str, ...] = ()

    @property
    def sure(self) -> bool:
        """Whether its resolution allows it to be accepted without a look."""
        return self.art.picture is None or self.ppi >= COARSE_PPI


def cost(loss: Loss) -> float:
    """Return one number for ``loss``: 0 for nothing, about 0.1 for what one just minds.

    Chosen by eye, no published source: stretching grows with its square, since a few percent are
    not seen; cropping grows faster than its area, since titles stand at the edges; a matte costs
    a step at once, since it shows that the picture does not fit, then its area.
    """
    matte = loss.empty + 0.1 * min(1.0, loss.empty / 0.02)
    return 10.0 * loss.distortion**2 + loss.cropped + 2.0 * loss.cropped**2 + matte


def propose_fit(picture: Picture, panel: Size, part: str = "") -> Fitting:
    """Return the way to lay ``picture`` on ``panel`` that costs least.

    ``panel`` is in its reading frame; ``part`` is the part of a flat cover scan it takes.
    """
    return fittings(picture, panel, part)[0]


def fittings(picture: Picture, panel: Size, part: str = "") -> tuple[Fitting, ...]:
    """Return the ways to lay ``picture`` on ``panel``, the cheapest first, one of each kind.

    Each is tried with the border trimmed and, where there is a bar or banner and the rest then
    fits without stretching, with that trimmed too. A screenshot is drawn dot for dot first of all:
    scaled otherwise its dots are no longer alike. Plain is not among them: it needs no picture.
    """
    best: dict[Fit, tuple[float, Fitting]] = {}
    for art in _ways(picture):
        found = judge(picture, art, panel, part)
        price = 0.0 if art.fit is Fit.PIXELS else cost(found.loss) + _bar_cost(picture, art)
        if art.fit not in best or price < best[art.fit][0]:
            best[art.fit] = (price, found)
    return tuple(found for _, found in sorted(best.values(), key=lambda each: each[0]))


def _bar_cost(picture: Picture, art: Art) -> float:
    if art.trim not in picture.bars:
        return 0.0
    kept = _area(art.trim) / _area(picture.trim)
    return BAR_COST + 0.5 * (1.0 - kept)


def _area(trim: Trim) -> float:
    """Return the part of the picture that ``trim`` leaves."""
    return (1.0 - trim.left - trim.right) * (1.0 - trim.top - trim.bottom)


def _ways(picture: Picture) -> list[Art]:
    fits = [Fit.FILL, Fit.STRETCH, Fit.MATTE]
    if picture.dot:
        fits.append(Fit.PIXELS)
    trims = (picture.trim, *picture.bars)
    return [
        Art(picture=picture.name, fit=fit, trim=trim, split=picture.split, turn=picture.turn)
        for trim in trims
        for fit in fits
    ]


def judge(picture: Picture, art: Art, panel: Size, part: str = "") -> Fitting:
    """Return what laying ``picture`` on ``panel`` as ``art`` says costs, in numbers and words."""
    if art.picture is None:
        return Fitting(art, Loss(empty=1.0), 0.0, f"no picture, {art.pattern}")
    whole = part_of((picture.width, picture.height), art, part)
    shown = window((whole.width, whole.height), panel, art, picture.dot or 1)
    across, down = shown.width / panel.width, shown.height / panel.height
    loss = _loss(whole, shown, across, down)
    resolution = min(across, down) * MM_PER_INCH
    words = describe(picture, art, Laying(part, whole, shown, loss, taller=across > down))
    return Fitting(art, loss, resolution, words, _warnings(art, resolution))


def _loss(whole: PixelRect, shown: PixelRect, across: float, down: float) -> Loss:
    seen_across = min(shown.right, whole.width) - max(shown.left, 0.0)
    seen_down = min(shown.bottom, whole.height) - max(shown.top, 0.0)
    seen = seen_across * seen_down
    return Loss(
        distortion=_nothing(max(across, down) / min(across, down) - 1.0),
        cropped=_nothing(1.0 - seen / (whole.width * whole.height)),
        empty=_nothing(1.0 - seen / (shown.width * shown.height)),
    )


def _nothing(value: float) -> float:
    """Return ``value``, or 0 for what is only the rounding of floats."""
    return value if value > 1e-9 else 0.0


def _warnings(art: Art, resolution: float) -> tuple[str, ...]:
    if art.fit is Fit.PIXELS or resolution >= FINE_PPI:
        return ()
    seen = "dots will show" if resolution < COARSE_PPI else "a little soft"
    return (f"{resolution:.0f} pixels to the inch as printed: {seen}",)
