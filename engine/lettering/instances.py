"""Static instances of variable fonts.

HarfBuzz pins the axes in some 30 ms, so nothing is kept on disk: a cache file could only go
stale.
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

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


def _subset(face: hb.Face, wanted: hb.SubsetInput, font: FontRef) -> bytes:
    import uharfbuzz as hb

    try:
        return bytes(hb.subset(face, wanted).blob.data)
    except RuntimeError as fault:
        name = Path(font.path).name
        raise FontError(name, "its outlines cannot be read", "Choose another font") from fault
