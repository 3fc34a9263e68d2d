"""Scenes under the sky, mostly by night."""

from __future__ import annotations

import math
from random import Random

from harbour.canvas import Box, Canvas, Point, Room, polar, ridge, wave
from harbour.palettes import Palette


def stars(c: Canvas, rng: Random, count: int, colour: str, foot: float) -> None:
    """Strew ``count`` stars above ``foot``."""
    for _ in range(count):
        size = rng.choice((0.18, 0.25, 0.25, 0.35, 0.6))
        c.disc(rng.uniform(0, c.w), rng.uniform(0, foot), size, colour)


def constellation(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a figure of stars over dark hills."""
    c.fade(p.ink, p.deep)
    stars(c, rng, 170, p.paper + "aa", c.h * 0.85)
    for _ in range(260):
        t = rng.gauss(0, 1)
        x = rng.uniform(-5, c.w + 5)
        c.disc(x, c.h * (0.25 + 0.5 * x / c.w) + t * 7, 0.2, p.glow + "88")
    points, turn = [(c.w * 0.2, c.h * rng.uniform(0.52, 0.64))], -0.5
    for _ in range(6):
        turn += rng.uniform(-1.1, 1.1)
        turn = max(-0.9, min(0.9, turn))
        x, y = points[-1]
        points.append(
            (x + c.w * 0.1 * math.cos(turn) + 1, max(c.h * 0.36, y + 13 * math.sin(turn)))
        )
    x, y = points[3]
    spur = [(x, y), (x + 4, y + 13), (x + 14, y + 20)]
    for path in (points, spur):
        c.line(path, p.glow + "cc", 0.45)
        for px, py in path:
            c.glow(px, py, 4.2, p.glow)
            _spark(c, px, py, rng.uniform(1.7, 3), p.paper)
    peaks = [rng.random() for _ in range(9)]
    c.polygon([*ridge(c.w, c.h * 0.88, 12, peaks), (c.w, c.h + 1), (0, c.h + 1)], p.mid)
    peaks = [rng.random() for _ in range(12)]
    c.polygon([*ridge(c.w, c.h * 0.95, 9, peaks), (c.w, c.h + 1), (0, c.h + 1)], p.ink)
    return Room(Box(8, c.h * 0.06, c.w - 16, c.h * 0.24), p.paper)


def _spark(c: Canvas, x: float, y: float, r: float, colour: str) -> None:
    c.polygon([polar(x, y, r if i % 2 == 0 else r * 0.3, 45 * i) for i in range(8)], colour)


def kettle(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a moon with a spout, a lid and a handle, steaming among the stars."""
    c.fade(p.ink, p.deep)
    stars(c, rng, 120, p.paper + "cc", c.h)
    x, y, r = c.w * 0.47, c.h * 0.67, min(25.0, c.h * 0.2)
    c.glow(x, y, r * 2.1, p.glow, 6)
    c.ring(x, y - r * 0.35, r * 1.32, p.mid, r * 0.16)
    spout = [
        (x + r * 0.75, y + r * 0.25),
        (x + r * 1.65, y - r * 0.75),
        (x + r * 1.95, y - r * 0.6),
        (x + r * 0.8, y + r * 0.75),
    ]
    c.polygon(spout, p.accent)
    c.disc(x, y, r, p.glow)
    c.slice((x, y), r, 50, 140, p.accent + "55")
    for _ in range(9):
        size, away = rng.uniform(0.06, 0.17) * r, rng.uniform(0, 0.75) * r
        px, py = polar(x, y, away, rng.uniform(0, 360))
        c.disc(px, py, size, p.accent + "88")
        c.disc(px - size * 0.2, py - size * 0.2, size * 0.75, p.glow)
    c.oval(x, y - r * 0.92, r * 0.42, r * 0.13, p.accent)
    c.disc(x, y - r * 1.1, r * 0.11, p.mid)
    for i in range(3):
        lift = r * (0.9 + 0.55 * i)
        steam = [
            (x + r * 1.85 + 1.6 * math.sin(t * 1.1 + i) + t * 0.5, y - lift - t * 1.6)
            for t in range(6)
        ]
        if steam[-1][1] > c.h * 0.3:
            c.line(steam, p.paper + "66", 1.3)
    return Room(Box(8, c.h * 0.06, c.w - 16, c.h * 0.22), p.paper)


def planet(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a ringed planet, its moons, a comet."""
    c.fade(p.ink, p.deep)
    stars(c, rng, 150, p.paper + "bb", c.h)
    x, y, r = c.w * 0.56, c.h * 0.64, min(27.0, c.h * 0.24)
    c.glow(x, y, r * 1.8, p.mid)
    tilt = rng.choice((-0.35, 0.3))
    _rings(c, x, y, r, tilt, p, far=True)
    c.disc(x, y, r, p.mid)
    for i, colour in enumerate((p.accent, p.glow, p.accent, p.mid, p.accent)):
        _belt(c, (x, y), r, -0.75 + 0.36 * i, colour + ("ff", "dd", "88")[i % 3])
    c.slice((x, y), r, 20, 160, p.ink + "40")
    _rings(c, x, y, r, tilt, p, far=False)
    for away, turn, size in ((1.9, 200, 0.16), (2.1, 330, 0.1), (1.6, 110, 0.07)):
        px, py = polar(x, y, r * away, turn)
        c.disc(px, py, r * size, p.paper)
    head = (c.w * 0.16, c.h * 0.42)
    c.polygon(
        [(head[0] + 1, head[1] - 1), (head[0] + 26, head[1] - 13), (head[0] - 1, head[1] + 1)],
        p.paper + "55",
    )
    c.disc(*head, 1.5, p.paper)
    return Room(Box(8, c.h * 0.06, c.w - 16, c.h * 0.23), p.paper)


def _belt(c: Canvas, at: Point, r: float, level: float, colour: str) -> None:
    x, y = at
    a, b = math.asin(level), math.asin(min(0.98, level + 0.17))
    rim = [a + (b - a) * i / 8 for i in range(9)]
    right = [(x + r * math.cos(t), y + r * math.sin(t)) for t in rim]
    c.polygon(right + [(2 * x - px, py) for px, py in right[::-1]], colour)


def _rings(c: Canvas, x: float, y: float, r: float, tilt: float, p: Palette, *, far: bool) -> None:
    span = (math.pi, math.tau) if far else (0, math.pi)
    for out, width, colour in ((1.75, 1.6, p.paper), (1.55, 1.2, p.glow), (1.38, 0.8, p.accent)):
        path = []
        for i in range(41):
            t = span[0] + (span[1] - span[0]) * i / 40
            px, py = r * out * math.cos(t), r * out * 0.26 * math.sin(t)
            path.append((x + px, y + py + px * tilt))
        c.line(path, colour, width)


def lantern(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a lantern among ferns."""
    c.fade(p.ink, p.deep)
    x, y = c.w * 0.5, c.h * 0.62
    c.glow(x, y, 48, p.glow, 8)
    for side in range(14):
        root = (c.w * (side + rng.random()) / 14, c.h + 3)
        _fern(c, root, rng.uniform(26, 46), rng.uniform(-24, 24), p.mid if side % 2 else p.deep)
    c.ring(x, y - 19, 5.5, p.ink, 1.1)
    c.polygon([(x - 6, y - 14), (x + 6, y - 14), (x + 10, y - 9), (x - 10, y - 9)], p.ink)
    c.rect(Box(x - 8.5, y - 9, 17, 20), p.glow, radius=1)
    c.oval(x, y + 2.5, 3.2, 6, p.accent)
    c.oval(x, y + 4, 1.7, 3.4, p.paper)
    for dx in (-9, -3.4, 2.6, 8):
        c.rect(Box(x + dx, y - 9, 0.9, 20), p.ink)
    c.rect(Box(x - 11, y + 10.5, 22, 3.4), p.ink, radius=1)
    for _ in range(16):
        c.disc(
            rng.uniform(5, c.w - 5),
            rng.uniform(c.h * 0.36, c.h * 0.9),
            rng.uniform(0.3, 0.8),
            p.glow,
        )
    for side in range(9):
        root = (c.w * (side + rng.random()) / 9, c.h + 3)
        _fern(c, root, rng.uniform(15, 25), rng.uniform(-30, 30), p.ink)
    return Room(Box(8, c.h * 0.06, c.w - 16, c.h * 0.24), p.glow)


def _fern(c: Canvas, root: Point, height: float, lean: float, colour: str) -> None:
    stem = []
    for i in range(12):
        t = i / 11
        stem.append((root[0] + lean * t * t * 0.6, root[1] - height * t))
    c.line(stem, colour, 0.7)
    for i, (x, y) in enumerate(stem[1:], start=1):
        reach = height * 0.24 * (1 - i / 13)
        for side in (-1, 1):
            c.polygon([(x, y + 1.3), (x + side * reach, y - reach * 0.55), (x, y - 1.3)], colour)


def hills(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw ridges fading into the mist."""
    c.fade(p.glow, p.paper)
    c.disc(c.w * rng.uniform(0.3, 0.7), c.h * 0.42, 12, p.accent)
    layers = (p.mid + "77", p.mid + "bb", p.mid, p.deep, p.ink)
    for i, colour in enumerate(layers):
        level = c.h * (0.58 + 0.1 * i)
        peaks = [rng.random() for _ in range(7 + i)]
        c.polygon([*ridge(c.w, level, 17 - i, peaks), (c.w, c.h + 1), (0, c.h + 1)], colour)
        if i < len(layers) - 1:
            c.fade_out(p.paper, Box(0, level - 4, c.w, c.h * 0.12))
    for _ in range(9):
        x, s = rng.uniform(2, c.w - 2), rng.uniform(5, 11)
        for k in range(3):
            y = c.h - 2 - k * s * 0.5
            c.polygon([(x - s * 0.4, y), (x + s * 0.4, y), (x, y - s * 0.9)], p.ink)
    return Room(Box(8, c.h * 0.05, c.w - 16, c.h * 0.23), p.ink)


def balloons(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw striped balloons between clouds."""
    c.fade(p.mid, p.paper)
    for _ in range(6):
        x, y, r = rng.uniform(0, c.w), rng.uniform(c.h * 0.35, c.h * 0.95), rng.uniform(4, 8)
        for k, grow in ((-1.4, 0.7), (0, 1.15), (1.3, 0.8), (2.3, 0.5)):
            c.slice((x + k * r, y), r * grow, 180, 360, "#ffffffcc")
    for fx, fy, r in ((0.2, 0.47, 8), (0.8, 0.55, 11), (0.47, 0.62, 19)):
        _balloon(c, c.w * fx, c.h * fy, r, rng.choice((p.accent, p.deep)), p)
    edge = wave(c.w, c.h * 0.95, 2.5, 60, rng.random())
    c.polygon([*edge, (c.w, c.h + 1), (0, c.h + 1)], p.deep)
    return Room(Box(8, c.h * 0.05, c.w - 16, c.h * 0.23), p.ink)


def _balloon(c: Canvas, x: float, y: float, r: float, cloth: str, p: Palette) -> None:
    for i, width in enumerate((1.0, 0.66, 0.3)):
        colour = (cloth, p.glow, cloth)[i]
        half = r * width
        left = [
            (x - half * math.cos(t), y - r * math.sin(t))
            for t in (math.pi * k / 16 for k in range(17))
        ]
        c.polygon([*left, (x + half * 0.22, y + r * 1.25), (x - half * 0.22, y + r * 1.25)], colour)
    c.slice((x, y), r, -60, 60, p.ink + "18")
    for side in (-1, 1):
        c.line([(x + side * r * 0.2, y + r * 1.2), (x + side * r * 0.14, y + r * 1.6)], p.ink, 0.3)
    c.rect(Box(x - r * 0.19, y + r * 1.55, r * 0.38, r * 0.3), p.ink, radius=0.4)
