"""Box fronts: titles along every rim, in bars and banners, with and without a subject."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

import numpy as np
from PIL import Image, ImageOps

from engine.artwork.windows import PixelRect
from tests.bench.blind import placing, words
from tests.bench.blind.canvas import Canvas
from tests.bench.blind.photographs import Scene
from tests.bench.blind.placing import Kit
from tests.bench.blind.truth import Bar, Role

SHAPES = (0.63, 0.70, 0.72, 0.78, 0.82, 0.88, 0.97, 1.0, 1.0, 1.14, 1.38)
"""Width to height of box fronts and labels, tall to wide (common practice, no published source)."""
SHORT = (880, 1060)
"""Pixels of the shorter side: enough for the largest panel at 120 to the inch."""
TRIES = 8

Draw = Callable[[Random, Kit, str], Canvas]


def size_of(dice: Random, shape: float = 0.0) -> tuple[int, int]:
    """Return a size in pixels, of this width to height or of a usual one."""
    shape = shape or dice.choice(SHAPES) * dice.uniform(0.98, 1.02)
    short = dice.randint(*SHORT)
    return (short, round(short / shape)) if shape < 1.0 else (round(short * shape), short)


def scene(dice: Random, kit: Kit, size: tuple[int, int] | None = None) -> Scene:
    """Return a photograph for a front, with a subject two times in three."""
    subject = dice.choice(("anywhere", "anywhere", ""))
    return kit.album.scene(dice, size or size_of(dice), subject)


def seen_whole(draw: Draw) -> Draw:
    """Return a drawing that is begun again where lettering comes to lie on the subject."""

    def again(dice: Random, kit: Kit, title: str) -> Canvas:
        for _ in range(TRIES):
            canvas = draw(dice, kit, title)
            if not placing.covers_subject(canvas):
                break
        return canvas

    return again


def rim(side: str) -> Draw:
    """Return the drawing of a front whose title runs along ``side``."""

    def draw(dice: Random, kit: Kit, title: str) -> Canvas:
        canvas = Canvas.of(scene(dice, kit))
        placing.at_rim(dice, kit, canvas, title, side, quiet=False)
        if dice.random() < 0.3:
            placing.small_print(dice, kit, canvas)
        return canvas

    return seen_whole(draw)


def any_rim(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front whose title stands along some rim."""
    return rim(dice.choice(("top", "bottom", "left", "right")))(dice, kit, title)


@seen_whole
def flush(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front whose title stands upright, flush to a side."""
    canvas = Canvas.of(scene(dice, kit))
    placing.flush(dice, kit, canvas, title)
    return canvas


@seen_whole
def two_lines(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front whose title stands in two lines."""
    canvas = Canvas.of(scene(dice, kit))
    placing.two_lines(dice, kit, canvas, title)
    return canvas


def busy(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front whose title stands on a busy photograph, plain if that still reads."""
    canvas = Canvas.of(kit.album.scene(dice, size_of(dice), busy=True))
    side = dice.choice(("top", "bottom", "left", "right"))
    placing.at_rim(dice, kit, canvas, title, side, quiet=dice.random() < 0.6)
    return canvas


@seen_whole
def printed_small(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front with a title at the top or bottom and small print in corners."""
    canvas = Canvas.of(scene(dice, kit))
    placing.at_rim(dice, kit, canvas, title, dice.choice(("top", "bottom")), quiet=False)
    placing.small_print(dice, kit, canvas)
    return canvas


def extreme(tall: bool) -> Draw:
    """Return the drawing of a front much too tall, or too wide, for every panel."""

    def draw(dice: Random, kit: Kit, title: str) -> Canvas:
        shape = dice.uniform(0.46, 0.58) if tall else dice.uniform(1.5, 1.95)
        canvas = Canvas.of(scene(dice, kit, size_of(dice, shape)))
        side = dice.choice(("top", "bottom", "left", "right"))
        placing.at_rim(dice, kit, canvas, title, side, quiet=False)
        return canvas

    return seen_whole(draw)


def off_centre(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front without lettering whose subject stands near a rim."""
    return Canvas.of(kit.album.scene(dice, size_of(dice), "off"))


@seen_whole
def off_centre_titled(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front whose subject stands near a rim, its title along another."""
    canvas = Canvas.of(kit.album.scene(dice, size_of(dice), "off"))
    side = dice.choice(("top", "bottom", "left", "right"))
    placing.at_rim(dice, kit, canvas, title, side, quiet=False)
    return canvas


def bare(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front without lettering."""
    return Canvas.of(scene(dice, kit))


# --- Bars and banners --------------------------------------------------------------------


def banner(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front whose title stands in a banner at the top or bottom."""
    side = dice.choice(("top", "bottom"))
    canvas, room = banded(dice, kit, side, (0.11, 0.2))
    if dice.random() < 0.4:
        slogan = PixelRect(room.left, room.top + 0.74 * room.height, room.right, room.bottom)
        placing.in_band(dice, kit, canvas, dice.choice(words.SLOGANS), Role.SLOGAN, slogan, side)
        room = PixelRect(room.left, room.top, room.right, room.top + 0.62 * room.height)
    placing.in_band(dice, kit, canvas, title, Role.TITLE, room, side)
    if dice.random() < 0.5:
        placing.small_print(dice, kit, canvas)
    return canvas


@seen_whole
def bar(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front with a bar of small print along a side; its title stands on the picture."""
    side = dice.choice(("left", "right", "left", "right", "bottom"))
    canvas, room = banded(dice, kit, side, (0.06, 0.14))
    upright = side in {"left", "right"}
    ends = ((0.02, 0.32), (0.4, 0.98)) if dice.random() < 0.5 else ((0.68, 0.98), (0.02, 0.6))
    texts = ((dice.choice(words.MAKERS), Role.MAKER), (dice.choice(words.SLOGANS), Role.SLOGAN))
    for (text, role), (start, end) in zip(texts, ends, strict=True):
        placing.in_band(dice, kit, canvas, text, role, _along(room, start, end, upright), side)
    _title_beside(dice, kit, canvas, title)
    return canvas


def title_bar(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front whose title stands in a bar along a side, as on a cassette's spine."""
    side = dice.choice(("left", "right"))
    canvas, room = banded(dice, kit, side, (0.08, 0.17))
    placing.in_band(dice, kit, canvas, title, Role.TITLE, _along(room, 0.02, 0.72, True), side)
    maker = dice.choice(words.MAKERS)
    placing.in_band(dice, kit, canvas, maker, Role.MAKER, _along(room, 0.78, 0.98, True), side)
    return canvas


def banded(
    dice: Random, kit: Kit, side: str, depths: tuple[float, float]
) -> tuple[Canvas, PixelRect]:
    """Return a front with an empty band along ``side``, and the room for lettering on it."""
    width, height = size_of(dice)
    upright = side in {"left", "right"}
    depth = round(dice.uniform(*depths) * (width if upright else height))
    inner = (width - depth, height) if upright else (width, height - depth)
    strip = band(dice, kit, (depth, height) if upright else (width, depth))
    canvas = Canvas(Image.new("RGB", (width, height)))
    rest = Canvas.of(scene(dice, kit, inner))
    first = side in {"left", "top"}
    canvas.paste(rest, ((depth if upright else 0, 0 if upright else depth) if first else (0, 0)))
    at = {"right": (width - depth, 0), "bottom": (0, height - depth)}.get(side, (0, 0))
    canvas.image.paste(strip, at)
    canvas.bars.append(Bar(side, depth / (width if upright else height)))
    air, ends = 0.2 * depth, 0.05 * (height if upright else width)
    left, top = at
    right, bottom = left + strip.width, top + strip.height
    if upright:
        return canvas, PixelRect(left + air, top + ends, right - air, bottom - ends)
    return canvas, PixelRect(left + ends, top + air, right - ends, bottom - air)


def band(dice: Random, kit: Kit, size: tuple[int, int]) -> Image.Image:
    """Return a strip of one colour, of a fading one, or of a tinted texture."""
    first, last = (np.array([dice.randrange(256) for _ in range(3)]) for _ in range(2))
    kind = dice.choice(("flat", "flat", "fading", "texture"))
    if kind == "texture":
        grey = ImageOps.grayscale(kit.album.scene(dice, size, busy=True).image)
        low = tuple(int(level) for level in first // 3)
        return ImageOps.colorize(grey, low, tuple(int(level + 50) for level in low))
    width, height = size
    along = np.linspace(0, 1, max(width, height))
    along = along[:, None, None] if height > width else along[None, :, None]
    ends = last if kind == "fading" else first
    levels = first * (1 - along) + ends * along + np.zeros((height, width, 3))
    return Image.fromarray(levels.astype(np.uint8))


def _along(room: PixelRect, start: float, end: float, upright: bool) -> PixelRect:
    """Return the part of a band's room between two fractions of its length."""
    if upright:
        return PixelRect(
            room.left, room.top + start * room.height, room.right, room.top + end * room.height
        )
    return PixelRect(
        room.left + start * room.width, room.top, room.left + end * room.width, room.bottom
    )


def _title_beside(dice: Random, kit: Kit, canvas: Canvas, title: str) -> None:
    """Set the title on the picture beside a bar, at the top, or the bottom where that is free."""
    (only,) = canvas.bars
    free = [side for side in ("top", "bottom") if side != only.side]
    left = {"left": round(only.depth * canvas.width)}.get(only.side, 0)
    below = round(only.depth * canvas.height) if only.side == "bottom" else 0
    right = round(only.depth * canvas.width) if only.side == "right" else 0
    box = (left, 0, canvas.width - right, canvas.height - below)
    beside = Canvas(canvas.image.crop(box))
    placing.at_rim(dice, kit, beside, title, dice.choice(free), quiet=False)
    canvas.paste(beside, (box[0], box[1]))
