"""What a picture says and shows, laid over the picture once it is straightened.

Made anew from the picture's reading for each game that it is proposed for, since which of its
lettering must stay hangs on the game's title. Lengths are pixels of the straightened picture.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import accumulate
from typing import NamedTuple

from engine.artwork.mapping import area, overlap, straight_box
from engine.artwork.telling import Says, can_read, says, title_lines
from engine.artwork.windows import PixelRect
from engine.model import Picture
from engine.model.reading import TextLine

AIR = 0.1
"""Part of a line's thickness by which the reader's box stands off its ink on each side, at least:
19 times in 20 (measured on drawn covers by ``tests.bench.blind``)."""

STRAY, SLENDER, VAST = 2, 4.0, 0.12
"""A box of no more letters that is so many times longer than thick is a post or a seam; one that
takes so much of the picture is a ring or a body."""

LOOSE = 0.25
"""Part of a box outside another with which it still counts as within."""


class Word(NamedTuple):
    """A line of lettering."""

    box: PixelRect
    text: str
    stays: bool
    """It may be a line of the title."""
    upright: bool


class Sight(NamedTuple):
    """What is known of a picture's content."""

    size: tuple[int, int]
    read: bool
    """Whether the picture was read at all; without that nothing else is known."""
    says: Says = Says.PERHAPS
    """Whether the lettering says the title."""
    legible: bool = True
    """Whether the title is in a script that is read."""
    words: tuple[Word, ...] = ()
    faces: tuple[PixelRect, ...] = ()
    across: tuple[int, ...] = ()
    down: tuple[int, ...] = ()
    round: float = 0.0

    def within(self, box: PixelRect) -> tuple[Word, ...]:
        """Return the lines that lie within ``box`` but for a little."""
        return tuple(
            word
            for word in self.words
            if area(overlap(word.box, box)) >= (1.0 - LOOSE) * area(word.box) > 0.0
        )

    def interest(self, start: float, end: float, *, level: bool) -> float:
        """Return how much of what draws the eye lies between two columns, or two rows.

        ``level`` is for columns. Where the picture was not read, what lies there of its middle.
        """
        bins = self.across if level else self.down
        there = self.size[0] if level else self.size[1]
        return _between(bins or UNREAD, start / there, end / there)


UNREAD = (1, 2, 3, 4, 4, 3, 2, 1)
"""What draws the eye in a picture that was not read: its middle more than its rims."""


def sight_of(picture: Picture, title: str) -> Sight:
    """Return what ``picture`` says and shows, for the game of that title."""
    size, reading = (picture.width, picture.height), picture.reading
    if reading is None:
        return Sight(size, read=False)
    lines = tuple(line for line in reading.lines if not _is_stray(line, size))
    stay = title_lines(lines, size[0] / size[1], title)
    return Sight(
        size=size,
        read=True,
        says=says(lines, title),
        legible=can_read(title),
        words=tuple(
            Word(_ink(line, picture), line.text, stays, line.upright)
            for line, stays in zip(lines, stay, strict=True)
        ),
        faces=tuple(straight_box(face, picture.turn, size) for face in reading.faces),
        across=reading.across,
        down=reading.down,
        round=reading.round,
    )


def _is_stray(line: TextLine, size: tuple[int, int]) -> bool:
    across, down = (line.right - line.left) * size[0], (line.bottom - line.top) * size[1]
    slender = max(across, down) > SLENDER * min(across, down)
    vast = across * down > VAST * size[0] * size[1]
    return (slender or vast) and len(line.text.strip()) <= STRAY


def _ink(line: TextLine, picture: Picture) -> PixelRect:
    """Return the box of a line, without the air that the reader leaves around it."""
    box = (line.left, line.top, line.right, line.bottom)
    left, top, right, bottom = straight_box(box, picture.turn, (picture.width, picture.height))
    air = AIR * min(right - left, bottom - top)
    return PixelRect(left + air, top + air, right - air, bottom - air)


def _between(bins: tuple[int, ...], start: float, end: float) -> float:
    """Return what lies between two fractions of a row of bins, each of them even in itself."""
    return _until(bins, max(start, end)) - _until(bins, start)


def _until(bins: tuple[int, ...], end: float) -> float:
    place = min(max(end, 0.0), 1.0) * len(bins)
    full = min(int(place), len(bins) - 1)
    return _sums(bins)[full] + bins[full] * (place - full)


@lru_cache(maxsize=1024)
def _sums(bins: tuple[int, ...]) -> tuple[int, ...]:
    """Return what lies before each bin."""
    return tuple(accumulate(bins, initial=0))
