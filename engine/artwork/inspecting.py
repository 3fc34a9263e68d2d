"""What is found in a picture once, when it is taken in, so that proposing needs no file."""

from __future__ import annotations

from pathlib import Path

from engine.artwork.opening import open_wholly
from engine.artwork.pixels import dominant, oklab, to_hex
from engine.artwork.screenshots import dot_size
from engine.values import Picture

STRIP = 0.04
"""Part of the picture's width that its side strip takes: the edge of a cover as it is seen when
it stands on a shelf."""

LOOK_SIDE = 1000
"""Pixels on the longer side of the copy that is looked at."""


def inspect(path: Path, source: str) -> Picture:
    """Return what can be said of the picture in ``path``, having decoded all of it.

    ``source`` is the file name it came with, used in messages. Raises PictureError.
    """
    opened = open_wholly(path, source=source)
    width, height = opened.size
    look = opened.image.copy()
    look.thumbnail((LOOK_SIDE, LOOK_SIDE), reducing_gap=3.0)
    strip = oklab(look.crop((0, 0, max(1, round(STRIP * look.width)), look.height)))
    return Picture(
        name=path.name,
        source=source,
        width=width,
        height=height,
        side=to_hex(dominant(strip)[0]),
        notes=opened.notes,
        dot=dot_size(opened.image),
    )


def base_colour(picture: Picture) -> str:
    """Return the colour proposed for the insert of a game with ``picture``: its side strip's."""
    return picture.side
