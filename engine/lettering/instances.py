"""Static instances of variable fonts, and any font as a file of its own.

HarfBuzz pins the axes in some 30 ms, so nothing is kept on disk: a cache file could only go
stale.
"""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING
from zlib import crc32

from engine.lettering.fontfile import open_raw
from engine.model import FontRef
from engine.model.errors import FontError

if TYPE_CHECKING:
    import uharfbuzz as hb


@lru_cache(maxsize=64)
def static_face(font: FontRef) -> hb.Face:
    """Return the face of ``font`` with its axes pinned; glyph ids are the file's own.

    Raises FontError when the file cannot be read, is no font or has no such axis.
    """
    import uharfbuzz as hb

    face = open_raw(font.path, font.face)
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
    """Return ``font`` as a static font file of one face, its PostScript name like no other's.

    Glyph ids are those of the runs that ``shape`` and ``lay`` give, as it is the instance
    they were shaped on. The same font gives the same bytes. Raises FontError when it cannot
    be read.
    """
    import uharfbuzz as hb
    from fontTools.ttLib import TTFont

    wanted = hb.SubsetInput()
    wanted.keep_everything()
    data = _subset(static_face(font), wanted, font)
    opened = TTFont(BytesIO(data), lazy=True, recalcTimestamp=False, recalcBBoxes=False)
    # 63 characters is the most that PostScript allows; two files may share a name.
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
