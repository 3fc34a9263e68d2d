"""Screenshots of pixel art: few colours, hard letters, each pixel a square of several."""

from __future__ import annotations

from random import Random

from PIL import Image

from engine.artwork.windows import PixelRect
from tests.bench.blind.canvas import Canvas
from tests.bench.blind.lettering import Look, Piece, piece
from tests.bench.blind.placing import Kit, parted
from tests.bench.blind.truth import Role
from tests.bench.blind.typefaces import able

SCREENS = ((160, 144), (240, 160), (256, 224), (320, 200))
"""Dots of screens of the cartridge years (memory, no published source)."""
FACTORS = (1, 2, 3, 4, 5)
LINE = 13
"""Dots of a line of the title, at most."""


def screenshot(dice: Random, kit: Kit, title: str) -> Canvas:
    """Draw a screen, titled two times in three, enlarged by a whole factor."""
    size = dice.choice(SCREENS)
    scene = kit.album.scene(dice, size, dice.choice(("anywhere", "")))
    few = scene.image.quantize(dice.choice((4, 12, 16, 30)), dither=Image.Dither.NONE)
    canvas = Canvas(few.convert("RGB"), scene.subject)
    if dice.random() < 0.67:
        y: float = dice.choice((8, size[1] // 2, size[1] - 2 * LINE - 12))
        for part in parted(title, 2):
            y = _line(dice, kit, canvas, part, Role.TITLE, y) + 4
        if y < size[1] - 24:
            _line(dice, kit, canvas, "PRESS START", Role.SLOGAN, size[1] - 16)
    canvas.enlarge(dice.choice(FACTORS))
    return canvas


def _line(dice: Random, kit: Kit, canvas: Canvas, text: str, role: Role, y: float) -> float:
    """Set a line of hard dots in the middle of the screen; return where its ink ends."""
    across = 0.86 * canvas.width
    height = LINE if role is Role.TITLE else 7
    faces = [face for face in able(kit.faces, text) if not face.axes or min(face.axes) > 80]
    room = PixelRect(0.07 * canvas.width, y, 0.93 * canvas.width, min(y + height, canvas.height))
    light = canvas.lightness(room)[0] < 128
    soft = piece(text, Look(dice.choice(faces), "#ffffff" if light else "#000000"), across, height)
    hard = soft.mask.point(lambda level: 255 * (level >= 110))
    found = Piece(soft.colours, hard, None)
    return canvas.put(found, ((canvas.width - found.ink.width) / 2, y), text, role).bottom
