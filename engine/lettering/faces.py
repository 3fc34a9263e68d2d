"""An opened font: its measures, its characters and the extents of its glyphs."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from engine.lettering.instances import static_face
from engine.model import FontRef

if TYPE_CHECKING:
    import uharfbuzz as hb

_SIMPLE = frozenset(
    chr(code)
    for first, last in (
        (0x20, 0x7E),
        (0xA0, 0x24F),
        (0x370, 0x52F),
        (0x1E00, 0x1FFF),
        (0x2010, 0x2026),
    )
    for code in range(first, last + 1)
)
"""Latin, Greek and Cyrillic with their punctuation."""


class Extents(NamedTuple):
    """The ink of a glyph around its origin, in the font's units; y grows upwards."""

    left: int
    bottom: int
    right: int
    top: int


class _ExtentsByGlyph(dict[int, Extents]):
    """Extents by glyph, asked of the font once each."""

    def __init__(self, font: hb.Font) -> None:
        self._font = font

    def __missing__(self, gid: int) -> Extents:
        e = self._font.get_glyph_extents(gid)
        box = Extents(0, 0, 0, 0)
        if e is not None:  # HarfBuzz measures downwards from the top: the height is negative
            left, top = e.x_bearing, e.y_bearing
            box = Extents(left, top + e.height, left + e.width, top)
        self[gid] = box
        return box


class Face:
    """A font opened for shaping. Measures are in ems, so that they hold at every size."""

    def __init__(self, font: FontRef) -> None:
        """Open the static instance of ``font``; FontError when that cannot be done."""
        import uharfbuzz as hb

        self._hb = hb
        self.ref = font
        self.hb_face = static_face(font)
        self.hb_font = hb.Font(self.hb_face)
        self.characters = frozenset(map(chr, self.hb_face.unicodes))
        self.upem: int = self.hb_face.upem
        self.boxes = _ExtentsByGlyph(self.hb_font)
        self.cap = self._cap_height(hb.OTMetricsTag.CAP_HEIGHT)
        self.rise = max(self.cap, self._reach("bdfhkl", top=True))
        """Ink top of what every Latin title has: capitals and ascenders."""
        self.fall = min(0.0, self._reach("gpqy", top=False))
        """Ink bottom of the descenders, below zero."""
        self.simple = _SIMPLE & self.characters
        """Characters that each stand for themselves, one after the other."""
        self.inks = {char: self._ink(char) for char in self.simple}
        self.tall = {char for char, box in self.inks.items() if not self._is_level(box)}
        """Those of them whose ink goes above ``rise`` or below ``fall``."""

    def glyph(self, char: str) -> int:
        """Return the glyph of a character; 0 where the font has none."""
        return self.hb_font.get_nominal_glyph(ord(char)) or 0

    def shaped(self, text: str, start: int, end: int, direction: str) -> hb.Buffer:
        """Return the glyphs of part of ``text``, with the rest as context for joining.

        ``direction`` is HarfBuzz's: ltr, rtl or ttb. No language is named, so that a title
        gives the same glyphs whatever language the machine speaks.
        """
        buffer = self._hb.Buffer()
        buffer.add_str(text, start, end - start)
        buffer.language = "und"
        buffer.guess_segment_properties()
        buffer.direction = direction
        self._hb.shape(self.hb_font, buffer)
        return buffer

    def _ink(self, char: str) -> Extents:
        return self.boxes[self.glyph(char)]

    def _is_level(self, box: Extents) -> bool:
        return box.top <= self.rise * self.upem and box.bottom >= self.fall * self.upem

    def _reach(self, letters: str, *, top: bool) -> float:
        boxes = [self._ink(char) for char in letters if self.glyph(char)]
        if top:
            return max((box.top for box in boxes), default=0) / self.upem
        return min((box.bottom for box in boxes), default=0) / self.upem

    def _cap_height(self, tag: object) -> float:
        stated: int | None = self.hb_font.get_metric_position(tag)
        if stated:
            return stated / self.upem
        # OS/2 before version 2 has no sCapHeight; the specification says to measure the H.
        return self._reach("HIE", top=True) or 0.7


@lru_cache(maxsize=256)
def open_face(font: FontRef) -> Face:
    """Return ``font`` opened; FontError when it is no usable font."""
    return Face(font)
