"""Colours as ``#rrggbb`` in sRGB: contrast, the ink to set on a base, differences, relatives.

Coloraide does the colour science; what is decided here is which of it Spinery uses. Luminance and
contrast are our own: by the coefficients that WCAG rounds to, they agree with its examples to 5e-5
where the library's differ by 8e-4, and take 1.5 microseconds instead of 21.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import TYPE_CHECKING

from engine.model import Matte

if TYPE_CHECKING:
    from coloraide import Color

BLACK = "#000000"
WHITE = "#ffffff"

STANDS_OUT = 7.0
"""What text on an edge should reach: WCAG 2.2, success criterion 1.4.6 (enhanced)."""

ALIKE = 10.0
"""CIEDE2000 by which an edge may leave its picture's colour for that and still match it when both
are seen at once; chosen by eye, no published source (1 is just noticeable side by side)."""


@cache
def _linear(level: int) -> float:
    """Return an 8-bit sRGB channel as light (IEC 61966-2-1, as WCAG 2.2 quotes it)."""
    c = level / 255.0
    return c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4


def luminance(colour: str) -> float:
    """Return the relative luminance of ``colour``, 0 to 1 (WCAG 2.2, definitions)."""
    red, green, blue = channels(colour)
    return 0.2126 * _linear(red) + 0.7152 * _linear(green) + 0.0722 * _linear(blue)


def channels(colour: str) -> tuple[int, int, int]:
    """Return red, green and blue of ``colour``, 0 to 255. Raises ValueError for no ``#rrggbb``."""
    if len(colour) != 7 or not colour.startswith("#"):
        raise ValueError(f"{colour!r} is no #rrggbb")
    red, green, blue = bytes.fromhex(colour[1:])
    return red, green, blue


def hex_colour(red: float, green: float, blue: float) -> str:
    """Return channels of 0 to 255, rounded and held in range, as ``#rrggbb``."""
    levels = (max(0, min(255, round(c))) for c in (red, green, blue))
    return "#" + "".join(f"{level:02x}" for level in levels)


def contrast(a: str, b: str) -> float:
    """Return the contrast ratio of two colours, 1 to 21, unrounded (WCAG 2.2, definitions)."""
    light, dark = sorted((luminance(a), luminance(b)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def ink_on(base: str) -> str:
    """Return black or white, whichever contrasts more with ``base``; black where they tie.

    That is 4.58 at the worst: the two ratios multiply to 21, and 4.58 is the root of 21.
    """
    return BLACK if contrast(BLACK, base) >= contrast(WHITE, base) else WHITE


@lru_cache(maxsize=4096)
def standing_out(base: str) -> str:
    """Return ``base``, or a lightness of its hue on which text stands out more.

    Black or white is legible on any colour, but on middle tones it is drab. Those move in OKLCh
    until the better of the two reaches STANDS_OUT, or as far as ALIKE allows.
    """
    ink = ink_on(base)
    if contrast(base, ink) >= STANDS_OUT:
        return base
    start = _color(base).convert("oklch")
    lightness = start["lightness"]
    reach = 1.0 if ink == BLACK else 0.0
    near, far = 0.0, 1.0
    for _ in range(12):
        share = (near + far) / 2
        tried = _moved(start, lightness + share * (reach - lightness))
        enough = contrast(tried, ink) >= STANDS_OUT or difference(base, tried) > ALIKE
        near, far = (near, share) if enough else (share, far)
    last = _moved(start, lightness + far * (reach - lightness))
    within = difference(base, last) <= ALIKE
    return last if within else _moved(start, lightness + near * (reach - lightness))


def _moved(colour: Color, lightness: float) -> str:
    return _hex(colour.clone().set("lightness", lightness))


def matte_colour(base: str, matte: Matte) -> str:
    """Return the flat colour that ``matte`` lays around a picture, its hue turned in OKLCh.

    EXTEND and BLUR are drawn from the picture; what they do not reach is ``base``.
    """
    turn = {Matte.COMPLEMENT: 180.0, Matte.ANALOGOUS: 30.0}.get(matte)
    if turn is None:
        return base
    colour = _color(base).convert("oklch")
    return _hex(colour.set("hue", lambda hue: (hue + turn) % 360.0))


def in_oklch(colour: str) -> tuple[float, float, float]:
    """Return lightness 0 to 1, chroma and hue in degrees of a colour; no hue of a grey is 0."""
    lightness, chroma, hue = _color(colour).convert("oklch").coords(nans=False)
    return float(lightness), float(chroma), float(hue) % 360.0


def shade(base: str, by: float) -> str:
    """Return ``base`` lighter by ``by`` in CIE L*, 0 to 100, or darker where it is light itself."""
    colour = _color(base).convert("lch-d65")
    lightness = colour["lightness"]
    return _moved(colour, lightness + by if lightness < 55 else lightness - by)


def difference(a: str, b: str) -> float:
    """Return the CIEDE2000 difference of two colours under D65 (ISO/CIE 11664-6)."""
    return float(_color(a).delta_e(_color(b), method="2000"))


def _color(colour: str) -> Color:
    from coloraide import Color

    return Color(colour)


def _hex(colour: Color) -> str:
    return colour.convert("srgb").fit(method="oklch-chroma").to_string(hex=True)
