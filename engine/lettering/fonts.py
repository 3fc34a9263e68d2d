"""Which font: the one that ships, or one that a person chose."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from engine.lettering.fontfile import Embedding, FontFacts, facts
from engine.lettering.machine import WEIGHT
from engine.lettering.trying import tried
from engine.model import FontRef
from engine.model.errors import FontError
from engine.model.shipped import shipped_font


@lru_cache(maxsize=1)
def default_font() -> FontRef:
    """Return the sans that ships: semi-bold, Latin, Greek and Cyrillic, open licence.

    Raises FontError when its package is damaged.
    """
    return FontRef(str(shipped_font()), 0, (("wdth", 100.0), ("wght", WEIGHT)))


def choose_font(path: Path, face: int = 0, axes: tuple[tuple[str, float], ...] = ()) -> FontRef:
    """Return a font file's face as a font to set titles in.

    A worker process tries it first. Raises FontError when it cannot be read, has no such face
    or axis, an axis' value is out of its range, or its maker does not permit what a printed
    page needs.
    """
    font = FontRef(str(path), face, tuple(sorted(axes)))
    tried(font)
    known = facts(font)
    _refuse_unpermitted(known, path.name)
    ranges = {axis.tag: axis for axis in known.axes}
    for tag, value in font.axes:
        if (axis := ranges.get(tag)) is None:
            raise FontError(path.name, f"has no axis {tag}", "Leave that axis out")
        if not axis.least <= value <= axis.most:
            what = f"axis {tag} runs from {axis.least:g} to {axis.most:g}, not to {value:g}"
            raise FontError(path.name, what, "Give a value in that range")
    return font


def kept(font: FontRef, folder: Path) -> FontRef:
    """Return a font whose path is a name in ``folder``, as it is opened, tried by a worker process.

    One of the machine, whose path is absolute, is taken as it is. Raises FontError where the path
    leads out of the folder by its name or by a link, and what ``tried`` raises.
    """
    path = folder / font.path
    found = FontRef(str(path), font.face, font.axes)
    if Path(font.path).is_absolute():
        return found
    if not font.is_kept or path.is_symlink():
        raise FontError(font.path, "leads out of the collection", "Choose the font anew")
    tried(found)
    return found


@lru_cache(maxsize=256)
def narrowed(font: FontRef, width: float) -> tuple[FontRef, float]:
    """Return ``font`` condensed to ``width`` (1 is natural), and the squeeze still to be done.

    A font with a width axis is condensed by its maker's drawing as far as the axis goes; any
    other by scaling, which thins the upright strokes.
    """
    if width == 1.0:
        return font, 1.0
    axis = next((axis for axis in facts(font).axes if axis.tag == "wdth"), None)
    if axis is None:
        return font, width
    places = dict(font.axes)
    natural = places.get("wdth", axis.usual)
    places["wdth"] = max(axis.least, natural * width)
    squeeze = width * natural / places["wdth"]
    return FontRef(font.path, font.face, tuple(sorted(places.items()))), squeeze


def _refuse_unpermitted(known: FontFacts, name: str) -> None:
    if known.embedding is Embedding.RESTRICTED:
        what = "its licence bits forbid embedding (fsType restricted)"
    elif not known.subset:
        what = "its licence bits forbid embedding a part of it (fsType no subsetting)"
    elif not known.outlines:
        what = "it has no outlines that may be embedded"
    else:
        return
    raise FontError(name, what, "Choose another font or ask its maker")
