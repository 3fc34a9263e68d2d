"""Drawn covers whose borders, turns, bars and spines are known: made from real photographs.

Everything random comes from the dice that are handed in, so a cover is the same each time.
"""

from __future__ import annotations

from math import ceil
from pathlib import Path
from random import Random
from typing import NamedTuple

import fontpkg_noto_sans
import numpy as np
from PIL import Image, ImageDraw, ImageFont, ImageOps

from engine.model import Trim
from tests.artwork.photos import ALL, levels, photo

FONT = next(Path(fontpkg_noto_sans.__file__).parent.glob("files/NotoSans?wdth*.ttf"))


class Cover(NamedTuple):
    """A picture and the truth about it."""

    image: Image.Image
    trim: Trim = Trim()
    turn: float = 0.0
    split: tuple[float, float] | None = None


def panel(dice: Random, width: int, height: int, name: str = "") -> Image.Image:
    """Return a random part of a photograph that fills ``width`` × ``height`` pixels."""
    image = photo(name or dice.choice(ALL), 512)
    scale = max(width / image.width, height / image.height)
    image = image.resize((ceil(image.width * scale), ceil(image.height * scale)))
    x, y = dice.randint(0, image.width - width), dice.randint(0, image.height - height)
    return image.crop((x, y, x + width, y + height))


def tint(dice: Random, low: int, high: int) -> tuple[int, int, int]:
    return dice.randint(low, high), dice.randint(low, high), dice.randint(low, high)


def band(dice: Random, width: int, height: int) -> Image.Image:
    """Return an upright strip, flat, shaded or of a tinted texture, its title running down it."""
    kind = dice.choice(("flat", "shaded", "texture"))
    if kind == "texture":
        texture = panel(dice, width, height, dice.choice(("brick", "grass", "gravel")))
        image = ImageOps.colorize(texture.convert("L"), tint(dice, 0, 120), tint(dice, 100, 255))
    else:
        first, last = (np.array([dice.randrange(256) for _ in range(3)]) for _ in range(2))
        ends = first if kind == "flat" else last
        down = np.linspace(0, 1, height)[:, None, None]
        shades = first * (1 - down) + ends * down + np.zeros((height, width, 3))
        image = Image.fromarray(shades.astype(np.uint8))
    title = Image.new("L", (height, width))
    font = ImageFont.truetype(str(FONT), max(8, int(width * 0.6)))
    ImageDraw.Draw(title).text((height * 0.1, 0), "HARBOUR LIGHT", 255, font=font)
    ink = Image.new("RGB", image.size, dice.choice(("white", "black")))
    image.paste(ink, mask=title.rotate(-90, expand=True))
    return image


GROUNDS = ("#ffffff", "#000000", "#808080", "#e8e4d8", "#2040a0", "#f4f2ee", "#d0d0d8")


def ground_for(dice: Random, image: Image.Image) -> str:
    """Return a colour that a border around ``image`` can be told from along most of each side."""
    pixels = levels(image)
    sides = (pixels[:, 0], pixels[:, -1], pixels[0], pixels[-1])
    colours = dice.sample(GROUNDS, len(GROUNDS))

    def told(colour: str) -> float:
        red, green, blue = bytes.fromhex(colour[1:])
        return min(
            float((np.abs(side - (red, green, blue)).max(axis=1) > 40).mean()) for side in sides
        )

    return next((colour for colour in colours if told(colour) > 0.6), max(colours, key=told))


def grainy(dice: Random, image: Image.Image, grain: float, shade: float = 0.0) -> Image.Image:
    """Return ``image`` with a sensor's noise of ``grain`` levels and light falling off sideways."""
    noise = np.random.default_rng(dice.randrange(2**32)).normal(0, grain, levels(image).shape)
    fall = np.linspace(0, shade, image.width)[None, :, None]
    return Image.fromarray(np.clip(levels(image) + noise - fall, 0, 255).astype(np.uint8))


def framed(dice: Random, art: Image.Image) -> Cover:
    """Return ``art`` in a uniform border of one colour, each side of another width."""
    left, top, right, bottom = (dice.randint(4, 45) for _ in range(4))
    size = (art.width + left + right, art.height + top + bottom)
    image = Image.new("RGB", size, ground_for(dice, art))
    image.paste(art, (left, top))
    width, height = size
    trim = Trim(left / width, top / height, right / width, bottom / height)
    return Cover(grainy(dice, image, 2.0), trim)


def scanned(dice: Random, art: Image.Image, turn: float | None = None) -> Cover:
    """Return ``art`` askew on a scanner's glass; turning it by ``turn`` puts it straight."""
    turn = dice.uniform(-4.0, 4.0) if turn is None else turn
    ground = ground_for(dice, art)
    margin = 0.12
    size = (round(art.width * (1 + 2 * margin)), round(art.height * (1 + 2 * margin)))
    glass = Image.new("RGB", size, ground)
    corner = ((size[0] - art.width) // 2, (size[1] - art.height) // 2)
    glass.paste(art, corner)
    askew = glass.rotate(-turn, Image.Resampling.BICUBIC, fillcolor=ground)
    across, down = corner[0] / size[0], corner[1] / size[1]
    trim = Trim(across, down, across, down)
    return Cover(grainy(dice, askew, 3.0, 6.0), trim, turn)


def barred(dice: Random, side: str) -> Cover:
    """Return a box front with a bar or banner along ``side``."""
    width = dice.choice((360, 420, 480))
    height = int(width * dice.uniform(0.8, 1.4))
    name = dice.choice(ALL)
    image = panel(dice, width, height, name)
    upright = side in {"left", "right"}
    depth = int((width if upright else height) * dice.uniform(0.06, 0.25))
    strip = band(dice, depth, height if upright else width)
    if not upright:
        strip = strip.rotate(90, expand=True)
    x = width - depth if side == "right" else 0
    y = height - depth if side == "bottom" else 0
    image.paste(strip, (x, y))
    return Cover(image, Trim(**{side: depth / (width if upright else height)}))


def wrap(dice: Random, height: int = 450) -> Cover:
    """Return a flat cover: back, spine and front, the outer ones of one width."""
    width, spine = int(height * dice.uniform(0.66, 0.78)), int(height * dice.uniform(0.05, 0.16))
    back, front = dice.choice(ALL), dice.choice(ALL)
    image = Image.new("RGB", (2 * width + spine, height))
    image.paste(panel(dice, width, height, back), (0, 0))
    image.paste(band(dice, spine, height), (width, 0))
    image.paste(panel(dice, width, height, front), (width + spine, 0))
    return Cover(image, split=(width / image.width, (width + spine) / image.width))


def flap_card(dice: Random, height: int = 450) -> Cover:
    """Return a cassette card laid flat: a short back flap, the spine, the front (16, 12.7 and
    65 mm on 101.5; common practice, no published source)."""
    flap, spine, front = (round(mm / 101.5 * height) for mm in (16.0, 12.7, 65.0))
    back, face = dice.choice(ALL), dice.choice(ALL)
    image = Image.new("RGB", (flap + spine + front, height))
    image.paste(panel(dice, flap, height, back), (0, 0))
    image.paste(band(dice, spine, height), (flap, 0))
    image.paste(panel(dice, front, height, face), (flap + spine, 0))
    return Cover(image, split=(flap / image.width, (flap + spine) / image.width))
