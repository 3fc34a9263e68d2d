"""Covers as they come from a scanner or a shop: in a border, askew on the glass, in a frame."""

from __future__ import annotations

from math import ceil
from random import Random

import numpy as np
from PIL import Image

from engine.artwork.windows import PixelRect
from tests.bench.blind import fronts, placing
from tests.bench.blind.canvas import Canvas
from tests.bench.blind.fronts import scene, size_of
from tests.bench.blind.placing import Kit
from tests.bench.blind.truth import SIDES, Bar, Edges, Role

GROUNDS = ("#ffffff", "#f4f2ee", "#e8e4d8", "#d0d0d8", "#808080", "#000000", "#2040a0")
FRAMES = ("#101010", "#fdfdfa", "#c9a227", "#7a1f1f", "#20303c", "#e7d9b8", "#35604a")
TOLD = 40
"""Levels by which a ground differs from what it lies beside."""
CLEARLY = (0.6, 0.6, 0.3)
"""Parts of each side along which it does, of which one is taken."""
TILE = 251
"""Pixels after which the noise repeats."""
MOST_SKEW, LEAST_SKEW = 3.0, 0.4
"""Degrees."""

SCANNED = (
    fronts.rim("top"),
    fronts.rim("bottom"),
    fronts.rim("left"),
    fronts.rim("right"),
    fronts.two_lines,
    fronts.banner,
    fronts.off_centre,
)


def bordered(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front in a border of one colour, each side of another width."""
    canvas = dice.choice(SCANNED)(dice, kit, title)
    bordered_by(dice, canvas, (0.01, 0.08))
    return canvas


def skewed(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front askew on the glass of a scanner."""
    canvas = dice.choice(SCANNED)(dice, kit, title)
    laid_askew(dice, canvas)
    return canvas


def bordered_by(dice: Random, canvas: Canvas, widths: tuple[float, float]) -> None:
    """Lay a canvas in a border whose sides are these parts of its shorter side."""
    short = min(canvas.image.size)
    left, top, right, bottom = (round(dice.uniform(*widths) * short) for _ in range(4))
    ground = ground_for(dice, canvas.image)
    size = (canvas.width + left + right, canvas.height + top + bottom)
    canvas.mount(Image.new("RGB", size, ground), (left, top))
    canvas.image = grainy(dice, canvas.image, 2.0)


def laid_askew(dice: Random, canvas: Canvas) -> None:
    """Lay a canvas on a scanner's glass, turned by up to MOST_SKEW degrees."""
    turn = dice.choice((-1, 1)) * dice.uniform(LEAST_SKEW, MOST_SKEW)
    ground = ground_for(dice, canvas.image)
    short = min(canvas.image.size)
    room = [round((dice.uniform(0.02, 0.08) + 0.055) * short) for _ in range(4)]
    size = (canvas.width + room[0] + room[2], canvas.height + room[1] + room[3])
    canvas.mount(Image.new("RGB", size, ground), (room[0], room[1]))
    canvas.skew(turn, ground)
    canvas.image = grainy(dice, canvas.image, 3.0, 6.0)


def ground_for(dice: Random, image: Image.Image) -> str:
    """Return a colour that a border around ``image`` can be told from."""
    pixels = np.asarray(image, dtype=np.int16)
    sides = (pixels[:, 0], pixels[:, -1], pixels[0], pixels[-1])

    def told(colour: str) -> float:
        levels = np.array(list(bytes.fromhex(colour[1:])))
        return min(float((np.abs(one - levels).max(axis=1) > TOLD).mean()) for one in sides)

    colours, least = dice.sample(GROUNDS, len(GROUNDS)), dice.choice(CLEARLY)
    return next((colour for colour in colours if told(colour) > least), max(colours, key=told))


def grainy(dice: Random, image: Image.Image, grain: float, shade: float = 0.0) -> Image.Image:
    """Return ``image`` with a sensor's noise of ``grain`` levels and light falling off sideways."""
    speckles = np.random.default_rng(dice.randrange(2**32)).normal(0.0, grain, (TILE, TILE, 3))
    times = (ceil(image.height / TILE), ceil(image.width / TILE), 1)
    noise = np.tile(speckles.round().astype(np.int16), times)[: image.height, : image.width]
    fall = np.linspace(0, shade, image.width).astype(np.int16)[None, :, None]
    levels = np.asarray(image, dtype=np.int16) + noise - fall
    return Image.fromarray(np.clip(levels, 0, 255).astype(np.uint8))


def framed(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a front with a printed frame; the title stands on the picture, or on a deep side.

    A deep side is a bar: it may stay where the thin ones are cut off.
    """
    width, height = size_of(dice)
    thin = round(dice.uniform(0.03, 0.06) * min(width, height))
    deep = dice.choice(("", "top", "bottom"))
    sides = dict.fromkeys(SIDES, thin)
    if deep:
        sides[deep] = round(dice.uniform(0.12, 0.18) * height)
    left, top, right, bottom = sides.values()
    canvas = Canvas(Image.new("RGB", (width, height), dice.choice(FRAMES)))
    inner = Canvas.of(scene(dice, kit, (width - left - right, height - top - bottom)))
    if not deep:
        placing.at_rim(dice, kit, inner, title, dice.choice(SIDES), quiet=False)
    canvas.paste(inner, (left, top))
    if deep:
        air = 0.2 * sides[deep]
        above = 0.0 if deep == "top" else height - sides[deep]
        room = PixelRect(0.06 * width, above + air, 0.94 * width, above + sides[deep] - air)
        placing.in_band(dice, kit, canvas, title, Role.TITLE, room, deep)
        canvas.bars.append(Bar(deep, sides[deep] / height))
    spans = (width, height, width, height)
    canvas.frame = Edges(
        *(
            0.0 if side == deep else sides[side] / span
            for side, span in zip(SIDES, spans, strict=True)
        )
    )
    return canvas
