"""What is found in a picture once, when it is taken in, so that proposing needs no file."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from engine.artwork.bars import find_bars
from engine.artwork.borders import find_border, find_turn, lies_askew
from engine.artwork.opening import open_wholly
from engine.artwork.pixels import dominant, main_colours, oklab, to_hex
from engine.artwork.screenshots import dot_size
from engine.artwork.splitting import find_split
from engine.artwork.straightening import straightened
from engine.model import Picture, Trim
from engine.model.errors import PictureError
from engine.model.waiting import Cancel
from engine.workers import Asked, Job, Pool, Reason
from engine.workers.limits import LOOKING

if TYPE_CHECKING:
    from PIL import Image

    from engine.artwork.pixels import Pixels

STRIP = 0.04
"""Part of the picture's width that its side strip takes: the edge of a cover as it is seen when
it stands on a shelf."""

LOOK_SIDE = 640
"""Pixels on the longer side of the copy that is looked at: a sixth of a percent each."""

ENOUGH = 2 * LOOK_SIDE + 1
"""What a large JPEG is decoded to at least before it is scaled to that. The largest screenshots, of
2560 pixels, are still decoded whole, so that their dots are found."""

DARK = 12
"""Levels below this look black and are taken for it: OKLab makes much of differences there, where
a scanner has only noise."""

FRAMES = 2
"""How many borders inside each other are cut: a scanner's background, then a printed frame."""


class Framing(NamedTuple):
    """How a picture is to be cut before it is fitted."""

    turn: float = 0.0
    trim: Trim = Trim()
    bars: tuple[Trim, ...] = ()
    split: tuple[float, float] | None = None
    askew: bool = False


Progressing = Callable[[int, int], None]
"""Called with how many pictures were looked at, and of how many."""


def inspect(path: Path, source: str) -> Picture:
    """Return what can be said of the picture in ``path``, all of it decoded by a worker process.

    ``source`` is the file name it came with, used in messages. Raises PictureError.
    """
    return _named(_looking().ask(source, os.fsencode(path.absolute())), path, source)


def inspect_all(
    paths: Mapping[str, Path], progress: Progressing | None = None, cancel: Cancel | None = None
) -> Iterator[tuple[str, Picture | PictureError]]:
    """Yield what ``inspect`` says of each picture, or why it cannot be used, in their order.

    ``paths`` are by the name that each came with. All workers look at once, one for each core.
    Raises Cancelled when ``cancel`` says so.
    """
    asked = [Asked(source, (os.fsencode(path.absolute()),)) for source, path in paths.items()]
    found = zip(paths.items(), _looking().each(asked, cancel), strict=True)
    for done, ((source, path), answer) in enumerate(found, start=1):
        if progress:
            progress(done, len(paths))
        yield source, _named(answer, path, source) if isinstance(answer, Picture) else answer


def _named(picture: Picture, path: Path, source: str) -> Picture:
    return msgspec.structs.replace(picture, name=path.name, source=source)


@cache
def _looking() -> Pool[Picture, PictureError]:
    return Pool(Job(f"{__name__}:look", Picture, LOOKING, PictureError, _refusal))


def _refusal(name: str, reason: Reason) -> PictureError:
    return PictureError(name, f"cannot be opened: {reason}", "Save it as PNG or JPEG")


def look(path: bytes) -> Picture:
    """Do what ``inspect`` does, but here, and name nothing: the name of a file need not be text.

    For workers. Raises PictureError.
    """
    file = Path(os.fsdecode(path))
    opened = open_wholly(file, enough=ENOUGH)
    width, height = opened.size
    look = opened.image
    dot = dot_size(look) if look.size == opened.size else 0
    look.thumbnail((LOOK_SIDE, LOOK_SIDE), reducing_gap=3.0)
    framing = Framing() if dot else find_framing(look)
    lab = _within(oklab(straightened(look, framing.turn)), framing.trim)
    return Picture(
        name="",
        source="",
        width=width,
        height=height,
        side=to_hex(dominant(_strip(lab, framing.split))[0]),
        notes=opened.notes,
        turn=framing.turn,
        trim=framing.trim,
        askew=framing.askew,
        bars=framing.bars,
        split=framing.split,
        palette=tuple(to_hex(colour) for colour in main_colours(lab)),
        dot=dot,
    )


def find_framing(look: Image.Image) -> Framing:
    """Return how the picture ``look`` is to be straightened, trimmed and split."""
    from PIL import ImageFilter

    calm = look.filter(ImageFilter.BoxBlur(1)).point(lambda level: max(level, DARK))
    lab = oklab(calm)
    turn = find_turn(lab)
    if turn:
        lab = oklab(straightened(calm, turn))
    askew = lies_askew(lab)
    trim = Trim()
    for _ in range(FRAMES):
        found = find_border(_within(lab, trim))
        if not any(found):
            break
        trim = inside(trim, found)
    lab = _within(lab, trim)
    split = find_split(lab)
    bars = () if split else tuple(inside(trim, bar) for bar in find_bars(lab))
    return Framing(turn, trim, bars, split, askew)


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
