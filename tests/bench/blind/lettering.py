"""Lines of lettering as pieces: their ink, their outline and shadow, turned as they will stand."""

from __future__ import annotations

from random import Random
from typing import NamedTuple

from PIL import Image, ImageDraw, ImageFilter, ImageOps
from PIL.Image import Transpose

from engine.artwork.windows import PixelRect
from tests.bench.blind.typefaces import Typeface

SEEN = 96
"""A pixel of a mask belongs to the ink from this level on."""
MEASURED_AT = 100
"""Pixels to the em that a line is measured at before it is set at its size."""
LIGHT = ("#ffffff", "#fff3c4", "#ffe14d", "#bfe9ff", "#ffd3dc", "#c8ffb0")
DARK = ("#111111", "#2a1a4a", "#5a0f14", "#0d3b2e", "#10284f")


class Look(NamedTuple):
    """How a line is drawn."""

    face: Typeface
    fill: str
    second: str = ""
    """The colour that the fill fades to downwards; empty for none."""
    outline: str = ""
    stroke: float = 0.0
    """Width of the outline, in parts of the em."""
    shadow: bool = False
    slant: float = 0.0
    """Degrees by which the line climbs."""


class Piece(NamedTuple):
    """A drawn line, not yet on a cover; all pictures of one size."""

    colours: Image.Image
    """Fill and outline."""
    mask: Image.Image
    """Where they cover: mode L."""
    shadow: Image.Image | None

    @property
    def ink(self) -> PixelRect:
        """The tightest box around the ink, in pixels of the piece."""
        box = self.mask.point(lambda level: 255 * (level >= SEEN)).getbbox()
        assert box is not None
        return PixelRect(*box)

    def turned(self, way: str) -> Piece:
        """Return the piece as it stands when it reads ``level``, ``down`` or ``up``."""
        if way == "level":
            return self
        turn = Transpose.ROTATE_270 if way == "down" else Transpose.ROTATE_90
        shadow = self.shadow.transpose(turn) if self.shadow else None
        return Piece(self.colours.transpose(turn), self.mask.transpose(turn), shadow)


def styled(dice: Random, face: Typeface, ground: float, *, spread: float, quiet: bool) -> Look:
    """Return a look that reads on a ``ground`` of this mean lightness and ``spread`` (0 to 255).

    ``quiet`` lettering has no outline, shadow or slant, unless it would not read without.
    """
    light = ground < 128
    fill = dice.choice(LIGHT if light else DARK)
    against = dice.choice(DARK if light else LIGHT)
    kind = "plain" if quiet else dice.choice(("plain", "shadow", "outline", "logo"))
    if kind == "plain" and (spread > 55 or abs(ground - 128) < 25):
        kind = "outline" if spread > 55 or quiet else "shadow"
    match kind:
        case "outline":
            return Look(face, fill, "", against, dice.uniform(0.04, 0.09))
        case "shadow":
            return Look(face, fill, "", "", 0.0, light)
        case "logo":
            second = dice.choice([one for one in (LIGHT if light else DARK) if one != fill])
            slant = dice.choice((0.0, 0.0, dice.uniform(-7.0, 7.0)))
            return Look(face, fill, second, against, dice.uniform(0.05, 0.1), light, slant)
        case _:
            return Look(face, fill)


def piece(text: str, look: Look, width: float, height: float) -> Piece:
    """Return ``text`` as large as it can be within ``width`` × ``height`` pixels, read level."""
    drawn = _at(text, look, MEASURED_AT).ink
    em = int(MEASURED_AT * min(width / drawn.width, height / drawn.height))
    for size in range(max(em, 6), 5, -1):
        found = _at(text, look, size)
        if found.ink.width <= width and found.ink.height <= height:
            return found
    return _at(text, look, 6)


def _at(text: str, look: Look, size: int) -> Piece:
    font = look.face.at(size)
    stroke = round(look.stroke * size)
    left, top, right, bottom = font.getbbox(text, stroke_width=stroke)
    room = 4 + size // 6
    whole = (int(right - left) + 2 * room, int(bottom - top) + 2 * room)
    start = (room - left, room - top)
    face, body = Image.new("L", whole), Image.new("L", whole)
    ImageDraw.Draw(face).text(start, text, 255, font)
    ImageDraw.Draw(body).text(start, text, 255, font, stroke_width=stroke)
    colours = Image.new("RGB", whole, look.outline or look.fill)
    colours.paste(_filling(look, whole), mask=face)
    if look.slant:
        body = body.rotate(look.slant, Image.Resampling.BICUBIC, expand=True)
        colours = colours.rotate(
            look.slant, Image.Resampling.BICUBIC, expand=True, fillcolor=look.outline or look.fill
        )
    return Piece(colours, body, _shadow(body, size) if look.shadow else None)


def _filling(look: Look, size: tuple[int, int]) -> Image.Image:
    if not look.second:
        return Image.new("RGB", size, look.fill)
    fade = Image.linear_gradient("L").resize(size)
    return ImageOps.colorize(fade, look.fill, look.second)


def _shadow(body: Image.Image, size: int) -> Image.Image:
    by = max(1, size // 18)
    moved = Image.new("L", body.size)
    moved.paste(body, (by, by))
    return moved.filter(ImageFilter.GaussianBlur(by)).point(lambda level: int(0.75 * level))
