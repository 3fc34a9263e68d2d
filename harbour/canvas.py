"""A canvas for drawing covers: short side 100 units whatever the pixels, y downwards.

Scenes draw in units, so that one scene serves a box front, a landscape and a little screen.
Pillow draws without smoothing, so the canvas is drawn larger than asked and reduced at the end.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from random import Random
from typing import NamedTuple

from PIL import Image, ImageDraw, ImageFont, ImageOps

Point = tuple[float, float]
Colour = str
"""``#rrggbb``, or ``#rrggbbaa`` to let what is beneath show through."""


class Box(NamedTuple):
    """A rectangle in canvas units, from its upper left corner."""

    x: float
    y: float
    width: float
    height: float


class Room(NamedTuple):
    """Where a scene leaves room for the title, and what it stands on."""

    box: Box
    ink: Colour
    panel: Colour | None = None
    """Colour of a panel laid under the title; None where the scene is calm enough."""


class Canvas:
    """A picture in the making."""

    def __init__(self, width: int, height: int, *, oversample: int = 2) -> None:
        """Begin a picture that will be ``width`` by ``height`` pixels."""
        self._over = oversample
        self.image: Image.Image = Image.new("RGB", (width * oversample, height * oversample))
        self._draw = ImageDraw.Draw(self.image, "RGBA")
        self.scale = min(self.image.size) / 100
        """Pixels of the working image to the unit."""
        self.w = self.image.width / self.scale
        self.h = self.image.height / self.scale

    def finished(self) -> Image.Image:
        """Return the picture at the size that was asked for."""
        return self.image.reduce(self._over) if self._over > 1 else self.image

    def _px(self, points: Iterable[Point]) -> list[Point]:
        return [(x * self.scale, y * self.scale) for x, y in points]

    def fade(self, top: Colour, bottom: Colour, box: Box | None = None) -> None:
        """Fill ``box`` (or everything) from ``top`` down to ``bottom``."""
        x, y, width, height = box or Box(0, 0, self.w, self.h)
        ramp = ImageOps.colorize(_ramp(round(height * self.scale)), top, bottom)
        size = (round(width * self.scale), ramp.height)
        wide = ramp.resize(size, Image.Resampling.NEAREST)
        self.image.paste(wide, (round(x * self.scale), round(y * self.scale)))

    def fade_out(self, colour: Colour, box: Box) -> None:
        """Lay a mist of ``colour`` over ``box``, clear at its top and half dense at its foot."""
        x, y, width, height = box
        column = _ramp(round(height * self.scale)).point([i * 5 // 8 for i in range(256)])
        veil = column.resize((round(width * self.scale), column.height), Image.Resampling.NEAREST)
        self.image.paste(colour, (round(x * self.scale), round(y * self.scale)), veil)

    def rect(self, box: Box, fill: Colour, radius: float = 0) -> None:
        """Fill a rectangle, its corners rounded by ``radius``."""
        x, y, width, height = (n * self.scale for n in box)
        self._draw.rounded_rectangle(
            (x, y, x + max(width - 1, 0), y + max(height - 1, 0)), radius * self.scale, fill
        )

    def polygon(self, points: Sequence[Point], fill: Colour) -> None:
        """Fill a polygon."""
        self._draw.polygon(self._px(points), fill)

    def line(self, points: Sequence[Point], fill: Colour, width: float) -> None:
        """Draw a line through ``points``, its bends and ends rounded."""
        stroke = max(1, round(width * self.scale))
        self._draw.line(self._px(points), fill, stroke, joint="curve")
        if stroke > 2 and len(fill) == 7:
            for x, y in (points[0], points[-1]):
                self.disc(x, y, width / 2, fill)

    def disc(self, x: float, y: float, radius: float, fill: Colour) -> None:
        """Fill a circle."""
        self.oval(x, y, radius, radius, fill)

    def oval(self, x: float, y: float, rx: float, ry: float, fill: Colour) -> None:
        """Fill an ellipse."""
        s = self.scale
        self._draw.ellipse(((x - rx) * s, (y - ry) * s, (x + rx) * s, (y + ry) * s), fill)

    def ring(self, x: float, y: float, radius: float, fill: Colour, width: float) -> None:
        """Draw a circle's outline, its outer edge at ``radius``."""
        s = self.scale
        at = ((x - radius) * s, (y - radius) * s, (x + radius) * s, (y + radius) * s)
        self._draw.ellipse(at, outline=fill, width=max(1, round(width * s)))

    def slice(self, at: Point, radius: float, start: float, end: float, fill: Colour) -> None:
        """Fill a sector from ``start`` to ``end`` degrees, clockwise from the right."""
        (x, y), s = at, self.scale
        box = ((x - radius) * s, (y - radius) * s, (x + radius) * s, (y + radius) * s)
        self._draw.pieslice(box, start, end, fill)

    def glow(self, x: float, y: float, radius: float, colour: Colour, steps: int = 5) -> None:
        """Draw light that fades outwards from a point."""
        for step in range(steps, 0, -1):
            self.disc(x, y, radius * step / steps, colour[:7] + f"{int(70 / steps) + 6:02x}")

    def text(
        self, words: str, at: Point, font: ImageFont.FreeTypeFont, fill: Colour, anchor: str
    ) -> None:
        """Write ``words`` at ``at``; ``font`` is already of the size in pixels."""
        x, y = at
        self._draw.text((x * self.scale, y * self.scale), words, fill, font, anchor)

    def flip(self) -> None:
        """Turn the picture so far left to right."""
        self.image.paste(ImageOps.mirror(self.image))

    def picture(self, image: Image.Image, box: Box) -> None:
        """Paste a picture, stretched to ``box``."""
        x, y, width, height = (round(n * self.scale) for n in box)
        self.image.paste(image.resize((width, height)), (x, y))

    def mirror(self, line: float, tint: Colour) -> None:
        """Turn what is above ``line`` upside down below it, veiled by ``tint``."""
        top, width, height = round(line * self.scale), self.image.width, self.image.height
        depth = min(height - top, top)
        if depth > 0:
            above = self.image.crop((0, top - depth, width, top))
            self.image.paste(ImageOps.flip(above), (0, top))
        self.rect(Box(0, line, self.w, self.h - line), tint)


def chance(seed: str) -> Random:
    """Return a source of chance that is the same every time and on every machine."""
    return Random(seed)  # noqa: S311  # a drawing that repeats itself, no secret


def _ramp(height: int) -> Image.Image:
    """Return a column of grey one pixel wide, black at the top, white at the foot."""
    column = Image.linear_gradient("L").crop((0, 0, 1, 256))
    return column.resize((1, max(1, height)), Image.Resampling.BILINEAR)


def wave(width: float, level: float, height: float, length: float, phase: float) -> list[Point]:
    """Return points of a sine from x = 0 to ``width`` around ``level``."""
    steps = max(24, round(width / length * 16))
    return [
        (
            width * i / steps,
            level + height * math.sin(math.tau * (width * i / steps / length + phase)),
        )
        for i in range(steps + 1)
    ]


def ridge(width: float, level: float, rough: float, peaks: Sequence[float]) -> list[Point]:
    """Return a skyline through ``peaks`` (0 to 1 each), ``rough`` units high over ``level``."""
    last = len(peaks) - 1
    return [(width * i / last, level - rough * peak) for i, peak in enumerate(peaks)]


def polar(x: float, y: float, radius: float, degrees: float) -> Point:
    """Return the point ``radius`` away from (x, y), clockwise from the right."""
    turn = math.radians(degrees)
    return (x + radius * math.cos(turn), y + radius * math.sin(turn))
