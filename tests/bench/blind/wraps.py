"""Flat wraps, back, spine and front in one scan, and pictures that only look a bit like one."""

from __future__ import annotations

from random import Random
from typing import NamedTuple

from PIL import Image, ImageEnhance

from engine.artwork.windows import BACK, FRONT, SPINE, PixelRect
from tests.bench.blind import placing, scans, words
from tests.bench.blind.canvas import Canvas
from tests.bench.blind.fronts import band, scene, seen_whole, size_of
from tests.bench.blind.photographs import Scene
from tests.bench.blind.placing import Kit
from tests.bench.blind.truth import Role
from tests.bench.blind.typefaces import able

CASES = ((129.5, 14.0, 184.0), (129.5, 13.0, 165.5), (67.5, 14.0, 107.0))
"""Front, spine and height in mm of wraps whose back is as wide as their front: keep cases tall and
short, soft cassette cases (common practice, no published source)."""
CARD = (16.0, 12.7, 65.0, 101.5)
"""Back flap, spine, front and height of a cassette card (common practice, no published source)."""
TALL = (900, 1040)
"""Pixels of their height."""


class _Parts(NamedTuple):
    """Widths in pixels, and the height."""

    back: int
    spine: int
    front: int
    height: int

    @property
    def size(self) -> tuple[int, int]:
        return self.back + self.spine + self.front, self.height


def wrap(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw the wrap of a case; its picture now and then goes all around, over the spine or not."""
    front, spine, height = dice.choice(CASES)
    return _drawn(dice, kit, title, _scaled(dice, (front, spine, front, height)))


def flap_card(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a cassette card laid flat: a short back flap, the spine, the front."""
    return _drawn(dice, kit, title, _scaled(dice, CARD))


def _scaled(dice: Random, sides: tuple[float, float, float, float]) -> _Parts:
    scale = dice.randint(*TALL) / sides[3]
    return _Parts(*(round(side * scale * dice.uniform(0.99, 1.01)) for side in sides))


def _drawn(dice: Random, kit: Kit, title: str, parts: _Parts) -> Canvas:
    canvas = Canvas(Image.new("RGB", parts.size))
    whole = kit.album.scene(dice, parts.size).image if dice.random() < 0.25 else None
    front = _front(dice, kit, title, parts, whole)
    canvas.paste(_back(dice, kit, parts, whole), (0, 0), BACK)
    canvas.paste(_spine(dice, kit, title, parts, whole), (parts.back, 0), SPINE)
    canvas.paste(front, (parts.back + parts.spine, 0), FRONT)
    width = canvas.width
    canvas.split = (parts.back / width, (parts.back + parts.spine) / width)
    if dice.random() < 0.2:
        scans.bordered_by(dice, canvas, (0.01, 0.05))
    elif dice.random() < 0.2:
        scans.laid_askew(dice, canvas)
    return canvas


def _front(dice: Random, kit: Kit, title: str, parts: _Parts, whole: Image.Image | None) -> Canvas:
    size = (parts.front, parts.height)

    def draw(dice: Random, kit: Kit, title: str) -> Canvas:
        start = parts.back + parts.spine
        if whole is not None:
            canvas = Canvas.of(Scene(whole.crop((start, 0, *parts.size)), None))
        else:
            canvas = Canvas.of(scene(dice, kit, size))
        side = dice.choice(("top", "top", "bottom", "left", "right"))
        placing.at_rim(dice, kit, canvas, title, side, quiet=False)
        if dice.random() < 0.5:
            placing.small_print(dice, kit, canvas)
        return canvas

    return seen_whole(draw)(dice, kit, title)


def _spine(dice: Random, kit: Kit, title: str, parts: _Parts, whole: Image.Image | None) -> Canvas:
    if whole is not None and dice.random() < 0.5:
        canvas = Canvas(whole.crop((parts.back, 0, parts.back + parts.spine, parts.height)))
    else:
        canvas = Canvas(band(dice, kit, (parts.spine, parts.height)))
    air = 0.18 * parts.spine
    for text, start, end in ((title, 0.06, 0.68), (dice.choice(words.MAKERS), 0.75, 0.95)):
        room = PixelRect(air, start * parts.height, parts.spine - air, end * parts.height)
        placing.in_band(dice, kit, canvas, text, Role.SPINE, room, "")
    return canvas


def _back(dice: Random, kit: Kit, parts: _Parts, whole: Image.Image | None) -> Canvas:
    size = (parts.back, parts.height)
    if whole is not None:
        image = whole.crop((0, 0, *size))
    elif dice.random() < 0.5:
        image = Image.new("RGB", size, tuple(dice.randrange(256) for _ in range(3)))
    else:
        image = kit.album.scene(dice, size).image
    canvas = Canvas(ImageEnhance.Contrast(image).enhance(0.35))
    if parts.back > parts.height / 3:
        _blurb(dice, kit, canvas)
    else:
        room = PixelRect(
            0.3 * size[0], 0.06 * size[1], 0.7 * size[0], dice.uniform(0.5, 0.9) * size[1]
        )
        placing.in_band(dice, kit, canvas, dice.choice(words.SLOGANS), Role.BLURB, room, "")
    return canvas


def _blurb(dice: Random, kit: Kit, canvas: Canvas) -> None:
    """Set some lines of small text, flush left, from one margin to the other or nearly so."""
    left, line = dice.uniform(0.05, 0.1) * canvas.width, 0.028 * canvas.height
    across = dice.uniform(0.6, 0.9) * canvas.width - left / 2
    y = dice.uniform(0.06, 0.5) * canvas.height
    face = dice.choice(able(kit.faces, "".join(words.BLURBS)))
    own = kit._replace(faces=(face,))
    for text in dice.sample(words.BLURBS, dice.randint(3, len(words.BLURBS))):
        room = PixelRect(left, y, min(left + across, 0.95 * canvas.width), y + line)
        found = placing.drawn(dice, own, canvas, text, room, quiet=True)
        canvas.put(found, (left, y), text, Role.BLURB)
        y += 1.6 * line


def like_a_wrap(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw one picture in the shape of a wrap, a post in its middle, its title right across."""
    shape = dice.choice((dice.uniform(1.25, 1.7), dice.uniform(0.82, 1.05)))
    size = size_of(dice, shape)
    canvas = Canvas.of(kit.album.scene(dice, size))
    if dice.random() < 0.3:
        other = kit.album.scene(dice, (size[0] // 2, size[1])).image
        canvas.image.paste(other, (size[0] - other.width, 0))
    thick = round(dice.uniform(0.04, 0.1) * size[0])
    middle = (0.5 if shape > 1.2 else 0.24) + dice.uniform(-0.012, 0.012)
    post = band(dice, kit, (thick, size[1]))
    canvas.image.paste(post, (round(middle * size[0] - thick / 2), 0))
    across, down = dice.uniform(0.75, 0.9) * size[0], dice.uniform(0.08, 0.13) * size[1]
    left, off = (size[0] - across) / 2, placing.gap(dice, canvas)
    top = dice.choice((off, size[1] - off - down, 0.4 * size[1]))
    room = PixelRect(left, top, left + across, top + down)
    found = placing.drawn(dice, kit, canvas, title, room)
    at = (left + (across - found.ink.width) / 2, top + (down - found.ink.height) / 2)
    canvas.put(found, at, title, Role.TITLE)
    return canvas
