"""Where lettering stands on a cover: along a rim, flush to a side, in a band, in a corner."""

from __future__ import annotations

from random import Random
from typing import NamedTuple

from engine.artwork.windows import PixelRect
from tests.bench.blind import words
from tests.bench.blind.canvas import Canvas
from tests.bench.blind.lettering import Piece, piece, styled
from tests.bench.blind.photographs import Album
from tests.bench.blind.truth import Role, around
from tests.bench.blind.typefaces import Typeface, able

GAP = (0.035, 0.08)
"""Least and most distance of lettering from a rim, as part of the shorter side: a person showing
the whole cover on the smallest panel still has a millimetre there."""


class Kit(NamedTuple):
    """What covers are made of."""

    album: Album
    faces: tuple[Typeface, ...]


def gap(dice: Random, canvas: Canvas, most: float = GAP[1]) -> float:
    """Return a distance from the rim, in pixels."""
    return dice.uniform(GAP[0], most) * min(canvas.width, canvas.height)


def drawn(
    dice: Random,
    kit: Kit,
    canvas: Canvas,
    text: str,
    room: PixelRect,
    *,
    way: str = "level",
    quiet: bool = False,
) -> Piece:
    """Return ``text`` as a piece as large as ``room``, in a look that reads there."""
    mean, spread = canvas.lightness(room)
    face = dice.choice(able(kit.faces, text))
    look = styled(dice, face, mean, spread=spread, quiet=quiet)
    length, thickness = room.width, room.height
    if way != "level":
        length, thickness = thickness, length
        look = look._replace(slant=0.0)
    return piece(text, look, length, thickness).turned(way)


def at_rim(dice: Random, kit: Kit, canvas: Canvas, text: str, side: str, *, quiet: bool) -> None:
    """Set the title along a rim: level at the top or bottom, turned at the left or right."""
    width, height, off = canvas.width, canvas.height, gap(dice, canvas)
    if side in {"top", "bottom"}:
        across = min(dice.uniform(0.45, 0.92) * width, width - 2.2 * GAP[0] * min(width, height))
        down = dice.uniform(0.07, 0.15) * height
        x = dice.choice((off, (width - across) / 2, width - off - across))
        x = min(max(x, GAP[0] * width), width - GAP[0] * width - across)
        y = off if side == "top" else height - off - down
        way = "level"
    else:
        across, down = dice.uniform(0.06, 0.12) * width, dice.uniform(0.4, 0.85) * height
        x = off if side == "left" else width - off - across
        y = dice.uniform(off, height - off - down)
        way = dice.choice(("down", "up"))
    room = PixelRect(x, y, x + across, y + down)
    found = drawn(dice, kit, canvas, text, room, way=way, quiet=quiet)
    ink = found.ink
    x = x if side != "right" else room.right - ink.width
    y = y if side != "bottom" else room.bottom - ink.height
    canvas.put(found, (x, y), text, Role.TITLE)


def flush(dice: Random, kit: Kit, canvas: Canvas, text: str) -> None:
    """Set the title upright in a stack of lines, flush to the left or the right."""
    side, off = dice.choice(("left", "right")), gap(dice, canvas, 0.06)
    y = dice.uniform(0.15, 0.5) * canvas.height
    for part in parted(text, 3):
        room = PixelRect(off, y, off + 0.55 * canvas.width, y + 0.085 * canvas.height)
        if side == "right":
            room = PixelRect(canvas.width - room.right, y, canvas.width - off, room.bottom)
        found = drawn(dice, kit, canvas, part, room)
        x = off if side == "left" else room.right - found.ink.width
        y = canvas.put(found, (x, y), part, Role.TITLE).bottom + 0.015 * canvas.height


def two_lines(dice: Random, kit: Kit, canvas: Canvas, text: str) -> None:
    """Set the title in two lines at the top or the bottom, each of its own size."""
    off, width = gap(dice, canvas), canvas.width
    parts = parted(text, 2)
    heights = [dice.uniform(0.06, 0.11) * canvas.height for _ in parts]
    space = 0.02 * canvas.height
    y = off
    if dice.random() < 0.5:
        y = canvas.height - off - sum(heights) - space * (len(parts) - 1)
    for part, height in zip(parts, heights, strict=True):
        across = dice.uniform(0.5, 0.9) * width
        room = PixelRect((width - across) / 2, y, (width + across) / 2, y + height)
        found = drawn(dice, kit, canvas, part, room)
        at = ((width - found.ink.width) / 2, y + (height - found.ink.height) / 2)
        canvas.put(found, at, part, Role.TITLE)
        y += height + space


def parted(text: str, most: int) -> list[str]:
    """Return the words of a title on at most so many lines, about as long as each other."""
    rest = text.split()
    lines: list[str] = []
    while rest:
        left = most - len(lines)
        count = max(1, round(len(rest) / left)) if left > 1 else len(rest)
        lines.append(" ".join(rest[:count]))
        rest = rest[count:]
    return lines


def in_band(
    dice: Random, kit: Kit, canvas: Canvas, text: str, role: Role, room: PixelRect, on: str
) -> None:
    """Set a line in the middle of ``room`` on a band; turned where that stands upright."""
    way = "level" if room.width >= room.height else dice.choice(("down", "up"))
    found = drawn(dice, kit, canvas, text, room, way=way, quiet=True)
    at = (
        room.left + (room.width - found.ink.width) / 2,
        room.top + (room.height - found.ink.height) / 2,
    )
    canvas.put(found, at, text, role, on)


def small_print(dice: Random, kit: Kit, canvas: Canvas) -> None:
    """Set a maker's name, and now and then a slogan, where there is still room for them."""
    texts = [(dice.choice(words.MAKERS), Role.MAKER)]
    if dice.random() < 0.5:
        texts.append((dice.choice(words.SLOGANS), Role.SLOGAN))
    for text, role in texts:
        for _ in range(12):
            if _in_corner(dice, kit, canvas, text, role):
                break


def _in_corner(dice: Random, kit: Kit, canvas: Canvas, text: str, role: Role) -> bool:
    off, width, height = gap(dice, canvas, 0.06), canvas.width, canvas.height
    across, down = 0.42 * width, dice.uniform(0.018, 0.03) * height
    x = dice.choice((off, (width - across) / 2, width - off - across))
    y = dice.choice((off, height - off - down))
    if not _free(canvas, PixelRect(x, y, x + across, y + down)):
        return False
    found = drawn(dice, kit, canvas, text, PixelRect(x, y, x + across, y + down), quiet=True)
    ink = found.ink
    x += {True: across - ink.width, False: 0.0}[x > width / 2 - 1]
    canvas.put(found, (x, y + down - ink.height), text, role)
    return True


def _free(canvas: Canvas, box: PixelRect) -> bool:
    """Return whether a box is clear of every line, with some room between."""
    room = 0.012 * canvas.height
    lines = [around(line.quad) for line in canvas.lines]
    return not any(
        box.left < line.right + room
        and line.left < box.right + room
        and box.top < line.bottom + room
        and line.top < box.bottom + room
        for line in lines
    ) and not _on_a_band(canvas, box)


def _on_a_band(canvas: Canvas, box: PixelRect) -> bool:
    """Return whether a box lies on a bar, or too near to its edge."""
    width, height = canvas.width, canvas.height
    for bar in canvas.bars:
        across, down = (bar.depth + GAP[0]) * width, (bar.depth + GAP[0]) * height
        within = {
            "left": box.left < across,
            "right": box.right > width - across,
            "top": box.top < down,
            "bottom": box.bottom > height - down,
        }
        if within[bar.side]:
            return True
    return False


def covers_subject(canvas: Canvas) -> bool:
    """Return whether a line hides more than a little of the subject."""
    if canvas.subject is None:
        return False
    box = around(canvas.subject.quad)
    hidden = 0.0
    for line in canvas.lines:
        ink = around(line.quad)
        across = min(box.right, ink.right) - max(box.left, ink.left)
        down = min(box.bottom, ink.bottom) - max(box.top, ink.top)
        hidden += max(0.0, across) * max(0.0, down)
    return hidden > 0.1 * box.width * box.height
