"""A font as a page needs it: a subset to embed, the outlines of its glyphs, its figures.

Nothing here knows how a page is written. Figures are in thousandths of the type size, as
a page's font dictionaries want them (ISO 32000-1, 9.2.4).
"""

from __future__ import annotations

import struct
from collections.abc import Collection
from io import BytesIO
from typing import Any, NamedTuple

from engine.model import FontRef
from engine.model.errors import FontError

_DROPPED = ("GDEF", "GPOS", "GSUB", "OS/2", "STAT", "cmap", "gasp", "name", "post", "prep")
"""Tables that a reader of the page does not use: it is given glyphs, not characters."""


class Typeface:
    """One font at one place in its design space."""

    def __init__(self, ref: FontRef) -> None:
        """Open the file of ``ref``; raises FontError if it is gone or no font."""
        import uharfbuzz as hb

        try:
            self._face: Any = hb.Face(hb.Blob.from_file_path(ref.path), ref.face)
        except (OSError, hb.HarfBuzzError) as error:
            raise FontError(ref.path, "the font cannot be opened", "Choose another") from error
        if not self._face.glyph_count:
            raise FontError(ref.path, "this is no font", "Choose a TrueType or OpenType file")
        self._axes = dict(ref.axes)
        self._font: Any = hb.Font(self._face)
        self._font.set_variations(self._axes)
        self._scale: float = 1000 / self._face.upem

    @property
    def embeds(self) -> bool:
        """Whether its outlines are TrueType, of which a page can hold a subset."""
        return "glyf" in self._face.table_tags

    @property
    def name(self) -> str:
        """Its PostScript name, told apart from other places in the same design space."""
        import uharfbuzz as hb

        given = self._face.get_name(hb.OTNameIdPredefined.POSTSCRIPT_NAME, "en") or "Font"
        place = "".join(f"{tag}{value:g}" for tag, value in sorted(self._axes.items()))
        return "".join(c for c in given + place if c.isascii() and (c.isalnum() or c == "-"))

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top of the box around all its glyphs laid over each other."""
        head = self._face.reference_table("head").data
        left, bottom, right, top = struct.unpack(">4h", head[36:44])  # OpenType 1.9, head
        return left * self._scale, bottom * self._scale, right * self._scale, top * self._scale

    @property
    def ascent(self) -> float:
        """How high a line of it reaches."""
        return float(self._font.get_font_extents("ltr").ascender) * self._scale

    @property
    def descent(self) -> float:
        """How deep a line of it reaches; negative."""
        return float(self._font.get_font_extents("ltr").descender) * self._scale

    @property
    def cap_height(self) -> float:
        """The height of its capitals."""
        import uharfbuzz as hb

        height = self._font.get_metric_position_with_fallback(hb.OTMetricsTag.CAP_HEIGHT)
        return float(height) * self._scale

    def advance(self, gid: int) -> float:
        """Return how far glyph ``gid`` moves along the line."""
        return float(self._font.get_glyph_h_advance(gid)) * self._scale

    def subset(self, gids: Collection[int]) -> bytes:
        """Return a TrueType file of these glyphs under their own numbers, the axes pinned."""
        import uharfbuzz as hb

        wanted: Any = hb.SubsetInput()
        wanted.glyph_set.update(set(gids))
        wanted.drop_table_tag_set.update(int.from_bytes(t.encode()) for t in _DROPPED)
        wanted.flags = (
            hb.SubsetFlags.RETAIN_GIDS
            | hb.SubsetFlags.NOTDEF_OUTLINE
            | hb.SubsetFlags.NO_HINTING
            | hb.SubsetFlags.NO_LAYOUT_CLOSURE
        )
        if self._face.has_var_data:
            wanted.pin_all_axes_to_default(self._face)
            for tag, value in self._axes.items():
                wanted.pin_axis_location(self._face, tag, value)
        try:
            return bytes(hb.subset(self._face, wanted).blob.data)
        except RuntimeError as error:
            what = "its outlines cannot be read"
            raise FontError(self.name, what, "Choose another font") from error

    def draw(self, gid: int, pen: Any) -> None:
        """Draw the outline of glyph ``gid`` onto a fontTools ``pen``, its baseline from the origin.

        It is to be filled by the non-zero rule.
        """
        from fontTools.pens.transformPen import TransformPen

        scale = self._scale
        self._font.draw_glyph_with_pen(gid, TransformPen(pen, (scale, 0, 0, scale, 0, 0)))


class Code(NamedTuple):
    """What one two-byte code of an embedded font stands for."""

    gid: int
    text: str
    """The characters that a search finds it by; may be empty."""
    advance: float
    """In thousandths, to three places: what the page states and the pen counts with."""


class Codes:
    """The codes of one embedded font, given out in the order of use from 1.

    A glyph that stands for different characters in different places gets a code for each,
    so that what is read back is always what was set.
    """

    def __init__(self) -> None:
        self._codes: dict[Code, int] = {}

    def __iter__(self) -> Any:
        return iter(self._codes)

    def __len__(self) -> int:
        return len(self._codes)

    def of(self, gid: int, text: str, advance: float) -> tuple[int, Code]:
        """Return the code for this glyph standing for this text, and what it states."""
        code = Code(gid, text, round(advance, 3))
        return self._codes.setdefault(code, len(self._codes) + 1), code

    def glyph_map(self) -> bytes:
        """Return the CIDToGIDMap: two bytes of glyph number for each code from 0."""
        return b"\0\0" + b"".join(struct.pack(">H", code.gid) for code in self._codes)

    def to_unicode(self) -> bytes:
        """Return the ToUnicode character map (ISO 32000-1, 9.10.3)."""
        lines = [
            f"<{number:04X}> <{code.text.encode('utf-16-be').hex().upper()}>"
            for code, number in self._codes.items()
        ]
        blocks = [lines[i : i + 100] for i in range(0, len(lines), 100)]
        body = "\n".join(
            f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar" for block in blocks
        )
        return (_CMAP_HEAD + body + _CMAP_FOOT).encode("ascii")


_CMAP_HEAD = """/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<0000> <FFFF>
endcodespacerange
"""
_CMAP_FOOT = """
endcmap
CMapName currentdict /CMap defineresource pop
end
end
"""


def blank() -> bytes:
    """Return a TrueType file whose glyph 1 has no outline.

    Text that a page shows as outlines is laid in it, unseen, so that it can be found. Glyph 0
    stands for a character that is missing, and no text may use it (ISO 19005-2, 6.2.11.8).
    """
    from fontTools.fontBuilder import FontBuilder
    from fontTools.pens.ttGlyphPen import TTGlyphPen

    builder = FontBuilder(1000, isTTF=True)
    names = [".notdef", "space"]
    builder.setupGlyphOrder(names)
    builder.setupGlyf({name: TTGlyphPen(None).glyph() for name in names})
    builder.setupHorizontalMetrics(dict.fromkeys(names, (0, 0)))
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupMaxp()
    builder.updateHead(created=0, modified=0)
    builder.font.recalcTimestamp = False
    file = BytesIO()
    builder.save(file)
    return file.getvalue()
