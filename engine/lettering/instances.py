"""Static TrueType instances: the very bytes that are shaped on and embedded.

HarfBuzz pins the axes of a variable font in some 30 ms, so nothing is kept on disk: a
cache file could only go stale.
"""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING
from zlib import crc32

from engine.errors import FontError
from engine.values import FontRef

if TYPE_CHECKING:
    import uharfbuzz as hb


@lru_cache(maxsize=64)
def static_face(font: FontRef) -> hb.Face:
    """Return the face of ``font`` with its axes pinned; glyph ids are the file's own.

    Raises FontError when the file cannot be read, is no font or has no such axis.
    """
    import uharfbuzz as hb

    face = _open(font)
    if not face.axis_infos:
        return face
    wanted = hb.SubsetInput()
    wanted.keep_everything()
    wanted.pin_all_axes_to_default(face)
    for tag, value in font.axes:
        if not wanted.pin_axis_location(face, tag, value):
            raise FontError(Path(font.path).name, f"has no axis {tag}", "Leave that axis out")
    return hb.Face(_subset(face, wanted, font))


@lru_cache(maxsize=16)
def instance(font: FontRef) -> bytes:
    """Return ``font`` as a static TrueType file with a PostScript name of its own.

    Glyph ids are those of the runs that ``shape`` gives. The same font gives the same
    bytes. Raises FontError as ``static_face`` does.
    """
    import uharfbuzz as hb
    from fontTools.ttLib import TTFont

    wanted = hb.SubsetInput()
    wanted.keep_everything()
    data = _subset(static_face(font), wanted, font)
    opened = TTFont(BytesIO(data), lazy=True, recalcTimestamp=False, recalcBBoxes=False)
    name = f"{opened['name'].getDebugName(6) or 'Font'}"[:50] + f"-{crc32(data):08x}"
    for record in opened["name"].names:
        if record.nameID in {3, 4, 6}:
            record.string = name
    out = BytesIO()
    opened.save(out, reorderTables=None)
    return out.getvalue()


def _subset(face: hb.Face, wanted: hb.SubsetInput, font: FontRef) -> bytes:
    import uharfbuzz as hb

    try:
        return bytes(hb.subset(face, wanted).blob.data)
    except RuntimeError as fault:
        name = Path(font.path).name
        raise FontError(name, "its outlines cannot be read", "Choose another font") from fault


def _open(font: FontRef) -> hb.Face:
    import uharfbuzz as hb

    path = Path(font.path)
    try:
        blob = hb.Blob.from_file_path(font.path)
    except (OSError, hb.HarfBuzzError) as fault:
        raise FontError(path.name, "cannot be read", "Choose a font file that exists") from fault
    face = hb.Face(blob, font.face)
    if not face.glyph_count or "cmap" not in face.table_tags:
        raise FontError(path.name, "is no TrueType or OpenType font", "Choose a .ttf, .otf or .ttc")
    return face
