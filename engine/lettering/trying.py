"""Trying a font that a person brought, in a worker process, before the program itself opens it.

What shapes text and cuts fonts down is native code, fed with tables that anybody may have written.
The worker does with the font all that setting a title does; what ends it there, or takes too long,
never reaches the program.
"""

from __future__ import annotations

import os
from functools import cache, lru_cache
from math import ceil
from pathlib import Path

from engine.model import FontRef
from engine.model.errors import FontError
from engine.workers import Job, Pool, Reason
from engine.workers.limits import TRYING

MAX_BYTES = 100_000_000
"""The largest collections of a whole script in all weights have some fifty million."""

SAMPLE = 2_000
"""Characters that are set and drawn: all of most fonts, and of the largest every tenth or so."""


def tried(font: FontRef) -> None:
    """Raise FontError where a font cannot be read, or breaks what reads it."""
    path = Path(font.path)
    try:
        state = path.stat()
    except OSError as fault:
        raise FontError(path.name, "cannot be read", "Choose a font file that is there") from fault
    if state.st_size > MAX_BYTES:
        what = f"has {state.st_size / 1e6:.0f} MB"
        raise FontError(path.name, what, f"{MAX_BYTES / 1e6:.0f} MB is the most")
    refused = _refused(path.absolute(), font.face, state.st_size, state.st_mtime_ns)
    if refused is not None:
        raise refused


@lru_cache(maxsize=64)
def _refused(path: Path, face: int, _size: int, _changed: int) -> FontError | None:
    """Return what is wrong with a font file as it is now."""
    try:
        _trying().ask(path.name, os.fsencode(path), face)
    except FontError as fault:
        return fault
    return None


@cache
def _trying() -> Pool[int, FontError]:
    return Pool(Job(f"{__name__}:attempt", int, TRYING, FontError, _refusal), most=1)


def _refusal(name: str, reason: Reason) -> FontError:
    return FontError(name, f"cannot be used: {reason}", "Choose another font")


def attempt(path: bytes, face: int) -> int:
    """Do with a font what setting titles does; return how many glyphs that took. For workers.

    Raises FontError.
    """
    import uharfbuzz as hb
    from fontTools.pens.basePen import NullPen

    from engine.lettering.fontfile import facts, open_raw
    from engine.lettering.instances import static_face

    file = os.fsdecode(path)
    known = facts(FontRef(file, face))
    places = tuple((axis.tag, axis.usual) for axis in known.axes)
    static_face(FontRef(file, face, places))
    whole = open_raw(file, face)
    sized = hb.Font(whole)
    characters = sorted(whole.unicodes)
    chosen = characters[:: max(1, ceil(len(characters) / SAMPLE))]
    glyphs: set[int] = set()
    for start in range(0, len(chosen), 100):
        buffer = hb.Buffer()
        buffer.add_codepoints(chosen[start : start + 100])
        buffer.guess_segment_properties()
        hb.shape(sized, buffer)
        glyphs |= {info.codepoint for info in buffer.glyph_infos}
    for glyph in glyphs:
        sized.get_glyph_extents(glyph)
        sized.draw_glyph_with_pen(glyph, NullPen())
    wanted = hb.SubsetInput()
    wanted.glyph_set.update(glyphs)
    try:
        hb.subset(whole, wanted)
    except RuntimeError as fault:
        raise FontError("", "its outlines cannot be read", "Choose another font") from fault
    return len(glyphs)
