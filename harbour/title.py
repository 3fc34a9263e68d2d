"""Lettering on covers: a title set as large as the room a scene leaves for it."""

from __future__ import annotations

from itertools import combinations, pairwise
from typing import NamedTuple

import fontpkg_noto_sans
from PIL import ImageFont

from harbour.canvas import Box, Canvas, Room

_LEADING = 1.06
_MOST = 26.0
"""The largest size of a title, in canvas units, wherever the room is larger still."""
_PROBE = 200
"""Pixels at which widths are measured."""


class Style(NamedTuple):
    """A way of lettering."""

    weight: int
    width: float
    capitals: bool = False
    italic: bool = False
    align: str = "centre"
    """Which way the lines are ranged: 'left' or 'centre'."""


STYLES = {
    "poster": Style(900, 65, capitals=True),
    "grotesque": Style(800, 100),
    "narrow": Style(700, 70, align="left"),
    "capitals": Style(600, 100, capitals=True),
    "thin": Style(300, 90, capitals=True),
    "book": Style(600, 92, italic=True),
}


def letter(canvas: Canvas, room: Room, text: str, style: Style, *, most: float = _MOST) -> None:
    """Set ``text`` in ``room``, what follows a colon smaller and beneath.

    ``most`` is the largest size, in canvas units.
    """
    box = room.box
    if room.panel:
        canvas.rect(box, room.panel, radius=1.2)
        box = Box(box.x + 4, box.y + 3, box.width - 8, box.height - 6)
    main, _, sub = text.partition(": ")
    if style.capitals:
        main, sub = main.upper(), sub.upper()
    if not sub:
        _block(canvas, box, room.ink, main, style, most)
        return
    upper = box.height * 0.64
    _block(canvas, box._replace(height=upper), room.ink, main, style, most)
    lower = box._replace(y=box.y + upper + 1, height=box.height - upper - 1)
    light = style._replace(weight=max(400, style.weight - 200))
    _block(canvas, lower, room.ink, sub, light, most)


def _block(canvas: Canvas, box: Box, ink: str, text: str, style: Style, most: float) -> None:
    lines, size = _largest(text, box, style, most)
    font = _font(style, size * canvas.scale)
    # hinting rounds advances to whole pixels, so a line may come out wider than it was measured
    over = max(font.getlength(line) for line in lines) / (box.width * canvas.scale)
    if over > 1:
        size /= over
        font = _font(style, size * canvas.scale)
    step = size * _LEADING
    top = box.y + (box.height - step * len(lines)) / 2
    left = style.align == "left"
    x, anchor = (box.x, "ls") if left else (box.x + box.width / 2, "ms")
    for number, line in enumerate(lines):
        canvas.text(line, (x, top + step * number + size * 0.86), font, ink, anchor)


def _largest(text: str, box: Box, style: Style, most: float) -> tuple[tuple[str, ...], float]:
    """Return the division into at most four lines that can be set largest, and its size."""
    probe = _font(style, _PROBE)
    wide = {word: probe.getlength(word) / _PROBE for word in (*text.split(), " ")}
    best: tuple[tuple[str, ...], float] = ((text,), 0.0)
    for lines in _divisions(text.split(), 4):
        widest = max(
            sum(wide[word] for word in line.split()) + wide[" "] * line.count(" ") for line in lines
        )
        size = min(box.width / widest, box.height / (len(lines) * _LEADING), most)
        if size > best[1] * 1.02:
            best = (lines, size)
    return best


def _divisions(words: list[str], most: int) -> list[tuple[str, ...]]:
    found = []
    for count in range(min(most, len(words))):
        for cuts in combinations(range(1, len(words)), count):
            bounds = (0, *cuts, len(words))
            found.append(tuple(" ".join(words[a:b]) for a, b in pairwise(bounds)))
    return found


def _font(style: Style, size: float) -> ImageFont.FreeTypeFont:
    """Return the sans that ships, in ``style``; plain layout, so that every machine agrees."""
    name = "NotoSans-Italic[wdth,wght].ttf" if style.italic else "NotoSans[wdth,wght].ttf"
    font = ImageFont.truetype(
        str(fontpkg_noto_sans.ROOT / "files" / name),
        max(1.0, size),
        layout_engine=ImageFont.Layout.BASIC,
    )
    font.set_variation_by_axes([style.weight, style.width])
    return font
