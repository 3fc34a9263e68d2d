"""How much ink a print takes, by a stated model, and the modes that save some.

The model: ideal inks by the conversion that page languages give for want of anything better
(ISO 32000-1, 10.3.5: cyan, magenta and yellow are the complements of red, green and blue; black
takes over all that the three have in common). A pixel of #808080 is half covered with black and
with nothing else. Real printers mix greys of colours, lay light inks and save at the corners, so
the figures rank modes and inserts; they do not foretell when a cartridge is empty.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from engine.colours.arrays import encoded
from engine.colours.colour import BLACK, WHITE, channels, hex_colour, ink_on, luminance
from engine.model import InkMode

if TYPE_CHECKING:
    from PIL import Image


class Coverage(NamedTuple):
    """Coverage of an area in percent of it, 0 to 100 for each colour.

    A page of 5 % of each is what the yields of cartridges are measured with (ISO/IEC 24711 and
    24712).
    """

    cyan: float
    magenta: float
    yellow: float
    black: float

    @property
    def total(self) -> float:
        """Return the sum of the four, 0 to 400."""
        return sum(self)

    def on(self, part: float) -> Coverage:
        """Return the coverage of a larger area of which this one takes ``part``, 0 to 1."""
        return Coverage(*(colour * part for colour in self))

    def saving(self, full: Coverage) -> float:
        """Return the part of ``full``'s ink that this one saves; below 0 where it takes more."""
        return 1.0 - self.total / full.total if full.total else 0.0


def coverage(image: Image.Image) -> Coverage:
    """Return the ink that ``image`` takes, in percent of its own area."""
    import numpy as np

    levels = np.asarray(image.convert("RGB")).reshape(-1, 3)
    darkest = 255.0 - levels.max(axis=1)
    red, green, blue = (255.0 - levels[:, band] - darkest for band in range(3))
    return Coverage(*(float(each.mean()) / 2.55 for each in (red, green, blue, darkest)))


def sum_of(inks: list[Coverage]) -> Coverage:
    """Return the coverage of all of ``inks`` together, each given in percent of the same area."""
    return (
        Coverage(*(sum(colour) for colour in zip(*inks, strict=True)))
        if inks
        else Coverage(0, 0, 0, 0)
    )


DRAFT = 0.5
"""How dense a draft is."""


def art_in(image: Image.Image, mode: InkMode) -> Image.Image:
    """Return the art ``image`` as ``mode`` prints it."""
    from PIL import Image as Pillow

    match mode:
        case InkMode.GREY:
            return _greys(image)
        case InkMode.EDGES | InkMode.LETTERS:
            return Pillow.new("RGB", image.size, WHITE)
        case InkMode.DRAFT:
            return Pillow.blend(Pillow.new("RGB", image.size, WHITE), image, DRAFT)
        case _:
            return image


def base_in(colour: str, mode: InkMode) -> str:
    """Return the base colour of an edge as ``mode`` prints it."""
    match mode:
        case InkMode.GREY:
            return _grey(colour)
        case InkMode.LETTERS:
            return WHITE
        case InkMode.DRAFT:
            return hex_colour(*(255 - (255 - level) * DRAFT for level in channels(colour)))
        case _:
            return colour


def text_in(base: str, text: str, mode: InkMode) -> str:
    """Return the colour of the title on ``base`` as ``mode`` prints both; legible as before.

    Where the mode changes the base, it is whichever of black and white contrasts more.
    """
    printed = base_in(base, mode)
    if printed == base:
        return text
    return BLACK if mode is InkMode.LETTERS else ink_on(printed)


def _grey(colour: str) -> str:
    """Return the grey of the same luminance."""
    import numpy as np

    level = float(encoded(np.asarray(luminance(colour))))
    return hex_colour(level, level, level)


def _greys(image: Image.Image) -> Image.Image:
    """Return ``image`` in greys of the same luminance, pixel by pixel."""
    import numpy as np
    from PIL import Image as Pillow

    from engine.colours.arrays import linear

    light = linear(np.arange(256))
    levels = np.asarray(image.convert("RGB"))
    weights = (0.2126, 0.7152, 0.0722)
    seen = sum(weight * light[levels[..., band]] for band, weight in enumerate(weights))
    grey = np.round(encoded(np.asarray(seen))).astype(np.uint8)
    return Pillow.fromarray(grey).convert("RGB")
