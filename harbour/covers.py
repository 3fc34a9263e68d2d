"""Drawing a cover: a scene in a palette, and the title lettered in the room it leaves.

The same cover is the same picture every time, with one version of Pillow: chance is seeded by its
title, and the only font is the one that ships.
"""

from __future__ import annotations

from PIL import Image

from harbour.canvas import Box, Canvas, Room, chance
from harbour.palettes import PALETTES
from harbour.scenes import SCENES
from harbour.shelf import Cover
from harbour.title import STYLES, letter

BIG = 1500
"""From this many pixels on the longer side a cover is drawn at its own size: edges that
are not smoothed no longer show."""


def draw(cover: Cover) -> Image.Image:
    """Return the picture of a cover, RGB, at the size it asks for."""
    if cover.finish == "flat":
        return _flat(cover)
    if cover.finish == "side bar":
        return _with_bar(cover)
    return _front(cover, cover.width, cover.height)


def _front(cover: Cover, width: int, height: int) -> Image.Image:
    canvas = Canvas(width, height, oversample=_oversample(width, height))
    rng = chance(cover.title or cover.file)
    room = SCENES[cover.scene](canvas, rng, PALETTES[cover.palette])
    if rng.random() < 0.5:
        canvas.flip()
    if cover.style:
        letter(canvas, room, cover.title, STYLES[cover.style])
    return canvas.finished()


def _oversample(width: int, height: int) -> int:
    longer = max(width, height)
    if longer < 400:
        return 4
    return 2 if longer < BIG else 1


def _with_bar(cover: Cover) -> Image.Image:
    """Return the front with its maker's coloured bar down the left side."""
    whole = Image.new("RGB", (cover.width, cover.height))
    thick = round(min(whole.size) * 0.13)
    whole.paste(_front(cover, cover.width - thick, cover.height), (thick, 0))
    whole.paste(_upright_words(cover, cover.maker, thick, cover.height))
    return whole


def _upright_words(cover: Cover, words: str, width: int, height: int) -> Image.Image:
    """Return a bar of the palette's accent with ``words`` running down it."""
    palette = PALETTES[cover.palette]
    canvas = Canvas(height, width, oversample=2)
    canvas.rect(Box(0, 0, canvas.w, canvas.h), palette.accent)
    canvas.rect(Box(0, canvas.h - 7, canvas.w, 7), palette.ink)
    room = Room(Box(20, 14, canvas.w - 40, canvas.h - 34), palette.ink)
    letter(canvas, room, words, STYLES["narrow"], most=60)
    return canvas.finished().transpose(Image.Transpose.ROTATE_270)


def _flat(cover: Cover) -> Image.Image:
    """Return a cover scanned open: back, spine and front side by side."""
    spine = round(cover.width * 0.055)
    panel = (cover.width - spine) // 2
    whole = Image.new("RGB", (cover.width, cover.height))
    whole.paste(_back(cover, panel, cover.height))
    whole.paste(_upright_words(cover, cover.title, spine, cover.height), (panel, 0))
    whole.paste(_front(cover, cover.width - panel - spine, cover.height), (panel + spine, 0))
    return whole


def _back(cover: Cover, width: int, height: int) -> Image.Image:
    """Return the back of a box: two little pictures and lines that stand for a text."""
    palette = PALETTES[cover.palette]
    canvas = Canvas(width, height, oversample=_oversample(width, height))
    canvas.rect(Box(0, 0, canvas.w, canvas.h), palette.deep)
    letter(canvas, Room(Box(10, 8, canvas.w - 20, 16), palette.glow), cover.maker, STYLES["book"])
    rng = chance(cover.maker)
    for line in range(9):
        share = rng.uniform(0.4, 0.7) if line % 3 == 2 else rng.uniform(0.88, 1)
        canvas.rect(
            Box(10, 32 + 4.4 * line, (canvas.w - 20) * share, 1.5), palette.paper + "bb", 0.7
        )
    for number, scene in enumerate(("keys", "maze")):
        at = Box(10 + number * (canvas.w - 20) * 0.53, canvas.h * 0.62, (canvas.w - 20) * 0.47, 32)
        canvas.rect(at, palette.paper)
        view = Canvas(300, round(300 * at.height / at.width))
        SCENES[scene](view, rng, palette)
        canvas.picture(view.finished(), Box(at.x + 1, at.y + 1, at.width - 2, at.height - 2))
    return canvas.finished()
