"""What is found in a picture once, when it is taken in, so that proposing needs no file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from engine.artwork.bars import find_bars
from engine.artwork.borders import find_border, find_turn
from engine.artwork.opening import open_wholly
from engine.artwork.pixels import dominant, main_colours, oklab, to_hex
from engine.artwork.screenshots import dot_size
from engine.artwork.splitting import find_split
from engine.artwork.straightening import straightened
from engine.model import Picture, Trim

if TYPE_CHECKING:
    from PIL import Image

    from engine.artwork.pixels import Pixels

STRIP = 0.04
"""Part of the picture's width that its side strip takes: the edge of a cover as it is seen when
it stands on a shelf."""

LOOK_SIDE = 640
"""Pixels on the longer side of the copy that is looked at: a sixth of a percent each."""

DARK = 12
"""Levels below this look black and are taken for it: OKLab makes much of differences there, where
a scanner has only noise."""

FRAMES = 2
"""How many borders inside each other are cut: a scanner's background, then a printed frame."""


class Shape(NamedTuple):
    """How a picture is to be cut before it is fitted."""

    turn: float = 0.0
    trim: Trim = Trim()
    bars: tuple[Trim, ...] = ()
    split: tuple[float, float] | None = None


def inspect(path: Path, source: str) -> Picture:
    """Return what can be said of the picture in ``path``, having decoded all of it.

    ``source`` is the file name it came with, used in messages. Raises PictureError.
    """
    opened = open_wholly(path, source=source)
    width, height = opened.size
    dot = dot_size(opened.image)
    look = opened.image
    look.thumbnail((LOOK_SIDE, LOOK_SIDE), reducing_gap=3.0)
    shape = Shape() if dot else find_shape(look)
    lab = _within(oklab(straightened(look, shape.turn)), shape.trim)
    return Picture(
        name=path.name,
        source=source,
        width=width,
        height=height,
        side=to_hex(dominant(_strip(lab, shape.split))[0]),
        notes=opened.notes,
        turn=shape.turn,
        trim=shape.trim,
        bars=shape.bars,
        split=shape.split,
        palette=tuple(to_hex(colour) for colour in main_colours(lab)),
        dot=dot,
    )


def find_shape(look: Image.Image) -> Shape:
    """Return how the picture ``look`` is to be straightened, trimmed and split."""
    from PIL import ImageFilter

    calm = look.filter(ImageFilter.BoxBlur(1)).point(lambda level: max(level, DARK))
    turn = find_turn(oklab(calm))
    lab = oklab(straightened(calm, turn))
    trim = Trim()
    for _ in range(FRAMES):
        found = find_border(_within(lab, trim))
        if not any(found):
            break
        trim = inside(trim, found)
    lab = _within(lab, trim)
    split = find_split(lab)
    bars = () if split else tuple(inside(trim, bar) for bar in find_bars(lab))
    return Shape(turn, trim, bars, split)


def inside(outer: Trim, inner: Trim) -> Trim:
    """Return the trim that cuts ``outer`` and, of what that leaves, ``inner``."""
    across, down = 1.0 - outer.left - outer.right, 1.0 - outer.top - outer.bottom
    return Trim(
        left=outer.left + across * inner.left,
        top=outer.top + down * inner.top,
        right=outer.right + across * inner.right,
        bottom=outer.bottom + down * inner.bottom,
    )


def _within(lab: Pixels, trim: Trim) -> Pixels:
    height, width = lab.shape[:2]
    left, top = round(trim.left * width), round(trim.top * height)
    return lab[top : height - round(trim.bottom * height), left : width - round(trim.right * width)]


def _strip(lab: Pixels, split: tuple[float, float] | None) -> Pixels:
    """Return the pixels that give the edge its colour: the left strip, or the spine of a wrap."""
    width = lab.shape[1]
    begins, ends = split or (0.0, STRIP)
    first = round(begins * width)
    return lab[:, first : max(first + 1, round(ends * width))]
