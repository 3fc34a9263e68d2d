"""Scenes of the town behind the harbour."""

from __future__ import annotations

import math
from random import Random

from harbour.canvas import Box, Canvas, Room, polar, wave
from harbour.palettes import Palette


def houses(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw gabled houses along a quay, mirrored in the harbour."""
    quay = c.h * 0.7
    c.fade(p.deep, p.glow, Box(0, 0, c.w, quay))
    c.disc(c.w * rng.uniform(0.2, 0.8), c.h * 0.4, 7, p.paper)
    x, colours, last = -3.0, (p.accent, p.mid, p.paper, p.glow, p.deep), ""
    while x < c.w:
        width = rng.uniform(12, 18)
        wall = rng.choice([colour for colour in colours if colour != last])
        _house(c, rng, Box(x, quay - rng.uniform(20, 32), width, 0), quay, wall, p)
        x, last = x + width, wall
    c.rect(Box(0, quay - 0.8, c.w, 1.6), p.ink)
    c.mirror(quay + 0.8, p.ink + "99")
    for _ in range(26):
        y = quay + 3 + rng.random() ** 1.6 * (c.h - quay - 4)
        c.rect(Box(rng.uniform(-4, c.w), y, rng.uniform(4, 15), 0.5), p.glow + "77", radius=0.25)
    return Room(Box(8, c.h * 0.05, c.w - 16, c.h * 0.24), p.paper)


def _house(c: Canvas, rng: Random, top: Box, quay: float, wall: str, p: Palette) -> None:
    x, y, width, _ = top
    style, gable = rng.randrange(3), width * 0.55
    c.rect(Box(x, y, width, quay - y), wall)
    if style == 0:
        c.polygon([(x, y + 0.2), (x + width / 2, y - gable), (x + width, y + 0.2)], wall)
    elif style == 1:
        for i in range(4):
            inset = width * 0.12 * i
            c.rect(
                Box(x + inset, y - gable * 0.25 * (i + 1), width - 2 * inset, gable * 0.27), wall
            )
    else:
        c.slice((x + width / 2, y + 0.3), width / 2, 180, 360, wall)
    c.rect(Box(x + width * 0.72, y - gable * 0.9, width * 0.13, gable * 0.9), p.ink)
    light = p.glow if wall != p.glow else p.paper
    rows = max(2, int((quay - y - 7) / 6.5))
    for row in range(rows):
        for column in range(2):
            lit = light if rng.random() < 0.6 else p.ink
            at = Box(x + width * (0.2 + 0.38 * column), y + 2 + row * 6.5, width * 0.22, 4)
            c.rect(at, lit)
            c.rect(Box(at.x + at.width / 2 - 0.15, at.y, 0.3, 4), wall)
    c.rect(Box(x + width * 0.38, quay - 6.5, width * 0.24, 6.5), p.ink, radius=0.6)


def windows(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw the front of one tall house, some windows lit."""
    c.rect(Box(0, 0, c.w, c.h), p.deep)
    columns = max(4, round(c.w / 20))
    pitch, rows = c.w / columns, max(3, round(c.h * 0.72 / 22))
    tall = c.h * 0.72 / rows
    for row in range(rows):
        for column in range(columns):
            at = Box(
                column * pitch + pitch * 0.2, c.h * 0.27 + row * tall, pitch * 0.6, tall * 0.68
            )
            _window(c, rng, at, p)
    c.rect(Box(0, c.h * 0.225, c.w, 1.4), p.ink)
    return Room(Box(8, c.h * 0.03, c.w - 16, c.h * 0.18), p.glow)


def _window(c: Canvas, rng: Random, at: Box, p: Palette) -> None:
    lit = rng.random() < 0.62
    c.rect(Box(at.x - 0.9, at.y - 0.9, at.width + 1.8, at.height + 2.2), p.mid, radius=0.5)
    c.rect(at, rng.choice((p.glow, p.accent, p.glow)) if lit else p.ink)
    x, foot = at.x + at.width / 2, at.y + at.height
    what = rng.randrange(5) if lit else 9
    if what == 0:
        c.disc(x, foot - at.height * 0.52, at.width * 0.14, p.ink)
        c.slice((x, foot), at.width * 0.3, 180, 360, p.ink)
    elif what == 1:
        c.rect(Box(x - 1.3, foot - 3, 2.6, 3), p.mid)
        for turn in (-130, -90, -50):
            c.line([(x, foot - 3), polar(x, foot - 3, 4.5, turn)], p.ink, 0.8)
    elif what == 2:
        c.polygon(
            [
                (x - 2.4, at.y + 4),
                (x + 2.4, at.y + 4),
                (x + 1.2, at.y + 1.5),
                (x - 1.2, at.y + 1.5),
            ],
            p.ink,
        )
        c.rect(Box(x - 0.15, at.y, 0.3, 2), p.ink)
    elif what == 3:
        c.oval(x + 1, foot - 1.8, 2.6, 1.8, p.ink)
        c.disc(x - 1.6, foot - 3.6, 1.4, p.ink)
        c.polygon(
            [
                (x - 2.9, foot - 4.2),
                (x - 2.5, foot - 6),
                (x - 1.6, foot - 4.6),
                (x - 0.8, foot - 6),
                (x - 0.4, foot - 4),
            ],
            p.ink,
        )
    c.rect(Box(x - 0.25, at.y, 0.5, at.height), p.mid)
    c.rect(Box(at.x, at.y + at.height * 0.42, at.width, 0.5), p.mid)


def viaduct(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a train on a viaduct."""
    deck = c.h * 0.62
    c.fade(p.glow, p.paper, Box(0, 0, c.w, c.h))
    c.disc(c.w * 0.76, c.h * 0.42, 11, p.accent)
    for level, colour in ((0.72, p.mid + "88"), (0.82, p.mid)):
        edge = wave(c.w, c.h * level, 6, 80, rng.random())
        c.polygon([*edge, (c.w, c.h + 1), (0, c.h + 1)], colour)
    c.rect(Box(0, deck, c.w, c.h - deck), p.deep)
    span = c.w / max(3, round(c.w / 30))
    x = -span * 0.5
    while x < c.w:
        radius = span * 0.4
        c.rect(Box(x + span * 0.1, deck + 6 + radius, radius * 2, c.h), p.glow)
        c.slice((x + span * 0.5, deck + 6 + radius), radius, 180, 360, p.glow)
        x += span
    c.rect(Box(0, deck - 1.2, c.w, 2.4), p.ink)
    edge = wave(c.w, c.h * 0.94, 2, 34, rng.random())
    c.polygon([*edge, (c.w, c.h + 1), (0, c.h + 1)], p.mid)
    _train(c, rng, deck - 1.2, p)
    return Room(Box(8, c.h * 0.05, c.w - 16, c.h * 0.23), p.ink)


def _train(c: Canvas, rng: Random, rail: float, p: Palette) -> None:
    x, head = c.w * 0.12, c.w * 0.12
    for i in range(3):
        c.rect(
            Box(x + 22 + 17 * i, rail - 9, 15.4, 7.6), (p.accent, p.ink, p.accent)[i], radius=0.8
        )
        for k in range(3):
            c.rect(Box(x + 24 + 17 * i + 4.2 * k, rail - 7.4, 2.8, 2.8), p.glow)
    c.rect(Box(head, rail - 8, 14, 6.4), p.ink, radius=3)
    c.rect(Box(head + 12, rail - 12, 8.4, 10.4), p.ink, radius=0.6)
    c.rect(Box(head + 14, rail - 10.4, 4, 3.4), p.glow)
    c.polygon(
        [
            (head + 2, rail - 7),
            (head + 1.2, rail - 13),
            (head + 6, rail - 13),
            (head + 5, rail - 7),
        ],
        p.ink,
    )
    for wheel in (3, 9, 16, 26, 33, 43, 50, 60, 67):
        c.disc(head + wheel, rail - 1.4, 1.9, p.ink)
        c.disc(head + wheel, rail - 1.4, 0.8, p.glow)
    y = rail - 15
    for i in range(7):
        c.disc(head + 4 + i * 5.5 + rng.uniform(-1, 1), y - i * 1.6, 2.4 + 0.75 * i, "#ffffffbb")


def stairs(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw steps and blocks seen from a corner."""
    c.fade(p.glow, p.accent)
    size = 11.0
    columns, x0, y0 = 5, c.w / 2, c.h * 0.5
    for row in range(columns):
        for column in range(columns):
            level = (2 * columns - row - column) // 2 + rng.randrange(2) - 1
            x = x0 + (column - row) * size * 0.866
            y = y0 + (column + row) * size * 0.5 - max(level, 0) * size * 0.5
            _block(c, x, y, size, c.h - y, p)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.17), p.ink)


def _block(c: Canvas, x: float, y: float, s: float, tall: float, p: Palette) -> None:
    w, h = s * 0.866, s * 0.5
    c.polygon([(x, y), (x + w, y + h), (x, y + 2 * h), (x - w, y + h)], p.paper)
    c.polygon([(x - w, y + h), (x, y + 2 * h), (x, y + 2 * h + tall), (x - w, y + h + tall)], p.mid)
    c.polygon(
        [(x + w, y + h), (x, y + 2 * h), (x, y + 2 * h + tall), (x + w, y + h + tall)], p.deep
    )


def theatre(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a stage on the water: curtains, a moon, a row of footlights."""
    c.fade(p.ink, p.deep)
    top, stage = c.h * 0.28, c.h * 0.8
    c.glow(c.w / 2, stage - 22, 40, p.glow, 7)
    c.disc(c.w / 2, stage - 24, 13, p.glow)
    c.disc(c.w / 2 + 5, stage - 27, 11, p.deep)
    for side in (-1, 1):
        for fold in range(5):
            x = c.w / 2 + side * (c.w / 2 - fold * c.w * 0.062)
            colour = p.accent if fold % 2 else p.mid
            gather = side * (fold * 2.2)
            width = side * c.w * 0.066
            c.polygon(
                [
                    (x, top),
                    (x - width, top),
                    (x - width + gather, stage * 0.82),
                    (x - width * 0.7 + gather * 0.1, stage),
                    (x, stage),
                ],
                colour,
            )
    for i in range(7):
        c.slice(
            (c.w * (i + 0.5) / 7, top - 1), c.w / 14 + 0.3, 0, 180, p.accent if i % 2 else p.mid
        )
    c.rect(Box(0, top - 3, c.w, 2.4), p.glow)
    c.rect(Box(0, stage, c.w, 4), p.glow)
    for i in range(9):
        c.slice((c.w * (i + 0.5) / 9, stage + 0.3), 2, 180, 360, p.paper)
    for i, colour in enumerate((p.mid, p.deep, p.ink)):
        edge = wave(c.w, stage + 7 + i * (c.h - stage) * 0.24, 1.5, 24 + 5 * i, rng.random())
        c.polygon([*edge, (c.w, c.h + 1), (0, c.h + 1)], colour)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.19), p.paper)


def garden(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw flower boxes on a roof over the town."""
    c.fade(p.paper, p.glow)
    x = 0.0
    while x < c.w:
        width, tall = rng.uniform(7, 13), rng.uniform(10, 25)
        c.rect(Box(x, c.h * 0.82 - tall, width, tall + 20), p.mid + "70")
        x += width + rng.uniform(0, 2)
    for i in range(9):
        root = c.w * (i + 0.5) / 9 + rng.uniform(-2, 2)
        _flower(c, rng, root, c.h * 0.86, rng.uniform(0.26, 0.46) * c.h, p)
    c.rect(Box(0, c.h * 0.85, c.w, c.h * 0.1), p.accent)
    for i in range(6):
        c.rect(Box(c.w * (i + 1) / 6 - 0.4, c.h * 0.85, 0.8, c.h * 0.1), p.ink + "44")
    c.rect(Box(0, c.h * 0.94, c.w, c.h * 0.1), p.ink)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.23), p.ink)


def _flower(c: Canvas, rng: Random, x: float, foot: float, tall: float, p: Palette) -> None:
    bend = rng.uniform(-4, 4)
    stem = [(x + bend * (t / 8) ** 2, foot - tall * t / 8) for t in range(9)]
    c.line(stem, p.deep, 0.9)
    for i in range(2, 7):
        px, py = stem[i]
        side, reach = (-1 if i % 2 else 1), 5.2 - 0.4 * i
        c.polygon(
            [
                (px, py),
                (px + side * reach, py - reach * 0.9),
                (px + side * reach * 1.3, py - reach * 0.2),
            ],
            p.deep,
        )
    px, py = stem[-1]
    petal, heart = rng.choice(((p.accent, p.glow), (p.mid, p.paper), ("#ffffff", p.accent)))
    size, petals = rng.uniform(2.6, 4.2), rng.choice((5, 6, 8))
    for i in range(petals):
        qx, qy = polar(px, py, size, 360 * i / petals)
        c.disc(qx, qy, size * 0.62, petal)
    c.disc(px, py, size * 0.62, heart)


def umbrella(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw one bright umbrella in the rain."""
    c.fade(p.deep, p.mid)
    for _ in range(90):
        x, y, long = rng.uniform(-10, c.w + 10), rng.uniform(c.h * 0.26, c.h), rng.uniform(3, 8)
        c.line([(x, y), (x - long * 0.35, y + long)], p.paper + "66", 0.35)
    x, y, r = c.w * 0.5, c.h * 0.66, 30.0
    c.line([(x, y), (x, y + 19)], p.ink, 1.4)
    hook = [polar(x - 3, y + 19, 3, 180 * i / 8) for i in range(9)]
    c.line(hook, p.ink, 1.4)
    colours = (p.accent, p.glow, p.accent, p.glow, p.accent)
    bounds = (-1.0, -0.66, -0.26, 0.26, 0.66, 1.0)
    for i, colour in enumerate(colours):
        a, b = bounds[i], bounds[i + 1]
        left = [(x + r * a * math.sin(t), y - r * 0.8 * math.cos(t)) for t in _quarter()]
        right = [(x + r * b * math.sin(t), y - r * 0.8 * math.cos(t)) for t in _quarter()]
        c.polygon(left + right[::-1], colour)
    for i in range(5):
        a, b = bounds[i] * r, bounds[i + 1] * r
        c.slice((x + (a + b) / 2, y + 0.6), (b - a) / 2, 180, 360, p.deep + "ee")
    c.line([(x, y - r * 0.78), (x, y - r * 0.9)], p.ink, 1.2)
    c.rect(Box(0, c.h * 0.93, c.w, c.h * 0.1), p.ink)
    c.oval(x, c.h * 0.95, 20, 1.8, p.accent + "99")
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.22), p.paper)


def _quarter() -> list[float]:
    return [math.pi / 2 * i / 12 for i in range(13)]


def tram(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a tram by lamplight, climbing between house fronts."""
    c.fade(p.ink, p.mid)
    for side in (-1, 1):
        for i in range(3):
            x = c.w / 2 + side * (c.w * (0.5 - 0.1 * i))
            c.polygon(
                [
                    (x, c.h * (0.22 + 0.09 * i)),
                    (x - side * c.w * 0.1, c.h * (0.3 + 0.09 * i)),
                    (x - side * c.w * 0.1, c.h),
                    (x, c.h),
                ],
                (p.ink, p.deep, p.mid)[i],
            )
            for k in range(7):
                if rng.random() < 0.55:
                    y = c.h * (0.38 + 0.09 * i) + k * 8
                    c.rect(Box(x - side * c.w * 0.065 - 1.1, y, 2.2, 4), p.glow)
    c.polygon(
        [
            (c.w * 0.44, c.h * 0.6),
            (c.w * 0.56, c.h * 0.6),
            (c.w * 0.95, c.h + 1),
            (c.w * 0.05, c.h + 1),
        ],
        p.deep,
    )
    for side in (-1, 1):
        c.line([(c.w / 2 + side * 2, c.h * 0.62), (c.w / 2 + side * 17, c.h + 1)], p.glow, 0.8)
    _car(c, p)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.2), p.paper)


def _car(c: Canvas, p: Palette) -> None:
    x, y = c.w / 2, c.h * 0.6
    c.glow(x, y + 4, 40, p.glow, 6)
    c.line([(x, y - 24), (x, c.h * 0.3)], p.ink, 0.6)
    c.rect(Box(x - 16, y - 20, 32, 40), p.accent, radius=4)
    c.rect(Box(x - 17.5, y - 21.5, 35, 4), p.paper, radius=2)
    c.rect(Box(x - 13.5, y - 14, 27, 13), p.glow, radius=1.5)
    for dx in (-5, 4.2):
        c.rect(Box(x + dx, y - 14, 0.9, 13), p.accent)
    c.slice((x - 9, y - 1), 3.6, 180, 360, p.ink)
    c.disc(x - 9, y - 6, 2.1, p.ink)
    c.rect(Box(x - 16, y + 3, 32, 4.5), p.paper)
    c.disc(x, y + 12, 3.6, p.paper)
    c.glow(x, y + 12, 14, p.paper)
    c.rect(Box(x - 18, y + 18, 36, 3.5), p.ink, radius=1)
