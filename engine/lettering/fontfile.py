"""A font file as it lies on disk: its faces, what they call themselves, what they permit."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from engine.model import FontRef, Value
from engine.model.errors import FontError

if TYPE_CHECKING:
    import uharfbuzz as hb


class Embedding(StrEnum):
    """What the font's maker permits, from OS/2 fsType (OpenType specification, OS/2 table)."""

    INSTALLABLE = "installable"
    """Bits 0 to 3 clear: no restriction."""
    EDITABLE = "editable"
    """Bit 3: may be embedded in documents that are edited."""
    PRINT = "preview and print"
    """Bit 2: may be embedded to view and print."""
    RESTRICTED = "restricted"
    """Bit 1 alone: may not be embedded without the maker's leave."""


class Axis(NamedTuple):
    """An axis of a variable font."""

    tag: str
    least: float
    usual: float
    most: float


class FontFacts(Value, frozen=True):
    """A face of a font file, described."""

    font: FontRef
    family: str
    style: str
    weight: float
    """OpenType weight class, 400 regular."""
    italic: bool
    embedding: Embedding
    subset: bool
    """Whether a part of it may be embedded (bit 8 of fsType clear)."""
    outlines: bool
    """Whether outlines may be embedded (bit 9 of fsType clear) and there are any."""
    axes: tuple[Axis, ...] = ()

    @property
    def usable(self) -> bool:
        """Whether a printed page may carry it as Spinery embeds fonts: a subset, as outlines."""
        return self.embedding is not Embedding.RESTRICTED and self.subset and self.outlines


def open_raw(path: str, index: int) -> hb.Face:
    """Return a face of a font file; FontError when it cannot be read or is no font."""
    import uharfbuzz as hb

    name = Path(path).name
    try:
        face = hb.Face(hb.Blob.from_file_path(path), index)
    except (OSError, hb.HarfBuzzError) as fault:
        raise FontError(name, "cannot be read", "Choose a font file that is there") from fault
    try:
        is_whole = face.glyph_count and "cmap" in face.table_tags
    except UnicodeDecodeError:  # a tag is no text
        is_whole = False
    if not is_whole:
        which = f"has no face {index}" if index else "is no TrueType or OpenType font"
        raise FontError(name, which, "Choose a .ttf, .otf or .ttc file")
    return face


def facts(font: FontRef) -> FontFacts:
    """Return what a font says of itself; FontError when it cannot be read."""
    import uharfbuzz as hb

    face = open_raw(font.path, font.face)
    sized = hb.Font(face)
    bits = int.from_bytes(face.reference_table("OS/2").data[8:10] or b"\0\0")
    tables = set(face.table_tags)
    return FontFacts(
        font,
        _name(face, hb.OTNameIdPredefined.TYPOGRAPHIC_FAMILY, hb.OTNameIdPredefined.FONT_FAMILY),
        _name(
            face, hb.OTNameIdPredefined.TYPOGRAPHIC_SUBFAMILY, hb.OTNameIdPredefined.FONT_SUBFAMILY
        ),
        float(sized.get_style_value(hb.StyleTag.WEIGHT)),
        bool(sized.get_style_value(hb.StyleTag.ITALIC))
        or bool(sized.get_style_value(hb.StyleTag.SLANT_ANGLE)),
        _embedding(bits),
        not bits & 0x0100,
        not bits & 0x0200 and bool(tables & {"glyf", "CFF ", "CFF2"}),
        tuple(
            Axis(axis.tag, axis.min_value, axis.default_value, axis.max_value)
            for axis in face.axis_infos
        ),
    )


def faces_in(path: Path) -> Iterator[FontFacts]:
    """Yield the faces of a font file or collection; FontError when it cannot be read."""
    for index in range(max(1, open_raw(str(path), 0).count)):
        yield facts(FontRef(str(path), index))


def _embedding(bits: int) -> Embedding:
    """Return the permission; where several bits are set the least restrictive holds."""
    if not bits & 0x000E:
        return Embedding.INSTALLABLE
    if bits & 0x0008:
        return Embedding.EDITABLE
    return Embedding.PRINT if bits & 0x0004 else Embedding.RESTRICTED


def _name(face: hb.Face, *wanted: int) -> str:
    for name in wanted:
        if found := face.get_name(name, "en"):
            return str(found)
    return ""
