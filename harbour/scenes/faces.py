"""Portraits put together from simple shapes."""

from __future__ import annotations

import math
from random import Random

from harbour.canvas import Box, Canvas, Point, Room, polar
from harbour.palettes import Palette


def keeper(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw somebody in a cap and a striped jersey, half in shadow."""
    c.rect(Box(0, 0, c.w, c.h), p.glow)
    x, y = c.w / 2, c.h * 0.6
    c.disc(x, y - 6, min(40.0, c.h * 0.36), p.accent)
    skin = rng.choice(("#f2c9a1", "#c98d62", "#8a5a3c", "#e3b189"))
    shoulder = [
        (x - 38, c.h + 1),
        (x - 30, y + 26),
        (x - 12, y + 18),
        (x + 12, y + 18),
        (x + 30, y + 26),
        (x + 38, c.h + 1),
    ]
    c.polygon(shoulder, p.paper)
    for i in range(6):
        top = y + 24 + i * 7
        c.polygon(
            [
                (x - 30 - i * 2, top),
                (x + 30 + i * 2, top),
                (x + 31 + i * 2, top + 3),
                (x - 31 - i * 2, top + 3),
            ],
            p.deep,
        )
    _face(c, rng, (x, y), skin, p)
    c.slice((x, y - 13), 18, 180, 360, p.deep)
    c.rect(Box(x - 18, y - 14.5, 36, 4), p.ink, radius=1)
    c.polygon([(x - 17, y - 11), (x + 17, y - 11), (x + 12, y - 8.4), (x - 12, y - 8.4)], p.ink)
    c.disc(x, y - 20, 2.6, p.glow)
    c.slice((x, y - 13), 18, 270, 360, p.ink + "1c")
    c.rect(Box(x, y - 8, 15, 12), p.ink + "1c")
    c.slice((x, y + 4), 13.5, 0, 90, p.ink + "1c")
    c.polygon(
        [(x, y + 18), (x + 12, y + 18), (x + 30, y + 26), (x + 38, c.h + 1), (x, c.h + 1)],
        p.ink + "1c",
    )
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.19), p.ink)


def _face(c: Canvas, rng: Random, at: Point, skin: str, p: Palette) -> None:
    x, y = at
    c.rect(Box(x - 7, y + 8, 14, 14), skin, radius=3)
    c.rect(Box(x - 15, y - 17, 30, 34), skin, radius=13)
    for side in (-1, 1):
        c.oval(x + side * 15.5, y - 1, 2.6, 4, skin)
    if rng.random() < 0.55:
        c.slice((x, y + 3), 15.2, 0, 180, p.ink)
        c.rect(Box(x - 6.5, y + 1.8, 13, 3.5), skin, radius=1.7)
    c.rect(Box(x - 4.2, y + 8, 8.4, 1.4), p.mid, radius=0.7)
    c.polygon([(x, y - 5), (x + 3.4, y + 3.6), (x, y + 3.6)], p.ink + "38")
    for side in (-1, 1):
        c.disc(x + side * 6.2, y - 4, 1.5, p.ink)
        c.rect(Box(x + side * 6.2 - 3, y - 8.2, 6, 1.2), p.ink, radius=0.6)


def owl(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw an owl, front on."""
    c.fade(p.deep, p.ink)
    x, y = c.w / 2, c.h * 0.56
    c.disc(c.w * rng.uniform(0.62, 0.86), c.h * 0.4, 17, p.glow)
    c.rect(Box(0, y + 35, c.w, 5), p.mid, radius=2)
    c.oval(x, y + 9, 24, 29, p.mid)
    c.oval(x, y + 14, 16, 22, p.paper)
    for row in range(5):
        for i in range(5 - row % 2):
            px = x - 10 + 5 * i + (2.5 if row % 2 else 0)
            c.slice((px, y + 6 + row * 6), 2.6, 0, 180, p.accent)
    for side in (-1, 1):
        wing = [
            polar(x + side * 19, y + 12, 1, 0),
            (x + side * 27, y + 2),
            (x + side * 24, y + 34),
            (x + side * 13, y + 30),
        ]
        c.polygon(wing, p.accent)
        c.polygon([(x + side * 4, y - 17), (x + side * 21, y - 28), (x + side * 20, y - 8)], p.mid)
        c.disc(x + side * 9.4, y - 9, 11, p.paper)
        c.disc(x + side * 9.4, y - 9, 7.6, p.accent)
        c.disc(x + side * 9.4, y - 9, 4.6, p.ink)
        c.disc(x + side * 9.4 + 1.5, y - 10.8, 1.4, "#ffffff")
        for k in range(3):
            c.rect(Box(x + side * 8 - 3.4 + 2.4 * k, y + 33.5, 1.9, 4), p.glow, radius=0.9)
    c.polygon([(x - 3, y - 6), (x + 3, y - 6), (x, y + 2)], p.glow)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.19), p.paper)


def whelk(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a spiral shell under a constable's hat, with a magnifying glass."""
    c.rect(Box(0, 0, c.w, c.h), p.deep)
    x, y = c.w * 0.47, c.h * 0.62
    for i in range(9):
        c.ring(x, y, 20 + 11 * i, p.mid + "44", 3.2)
    r = min(27.0, c.h * 0.25)
    c.polygon(
        [
            (x - r * 0.9, y + r * 0.3),
            (x + r * 0.9, y + r * 0.3),
            (x + r * 1.25, y + r * 1.25),
            (x - r * 0.5, y + r * 1.25),
        ],
        p.accent,
    )
    c.disc(x, y, r, p.glow)
    turns = [(t / 60, t * 11.5) for t in range(110)]
    c.line(
        [
            polar(x, y, r * (1.0 - 0.92 * (i / 110) ** 0.75), 30 + turn)
            for i, (_, turn) in enumerate(turns)
        ],
        p.accent,
        2,
    )
    for side in (0.3, 0.62):
        px = x + r * side
        c.line([(px, y + r * 0.5), (px + 2, y + r * 0.12)], p.paper, 1.6)
        c.disc(px + 2, y + r * 0.08, 3.4, p.paper)
        c.disc(px + 2.8, y + r * 0.1, 1.5, p.ink)
    _hat(c, x - 1, y - r * 0.86, r * 0.62, p)
    gx, gy = x + r * 1.12, y + r * 0.86
    c.line([(gx + 7, gy + 7), (gx + 15, gy + 16)], p.ink, 3)
    c.disc(gx, gy, 10, p.ink)
    c.disc(gx, gy, 8, p.paper)
    c.slice((gx, gy), 8, 180, 250, "#ffffff")
    c.disc(gx + 1, gy + 1, 2.4, rng.choice((p.accent, p.mid)))
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.22), p.paper)


def _hat(c: Canvas, x: float, y: float, s: float, p: Palette) -> None:
    c.slice((x, y), s, 180, 360, p.ink)
    c.rect(Box(x - s * 0.9, y - s * 1.0, s * 1.8, s), p.ink, radius=s * 0.8)
    c.rect(Box(x - s * 1.35, y - 2, s * 2.7, 4), p.ink, radius=2)
    c.rect(Box(x - s * 0.93, y - 5, s * 1.86, 2.4), p.accent)
    c.polygon(
        [polar(x, y - s * 0.55, s * (0.3 if i % 2 == 0 else 0.15), 36 * i - 90) for i in range(10)],
        p.glow,
    )


def gull(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a gull's head in profile."""
    c.rect(Box(0, 0, c.w, c.h), p.mid)
    for i in range(7):
        c.rect(Box(0, c.h * (0.34 + 0.1 * i), c.w, c.h * 0.045), p.deep + "66")
    x, y, s = c.w * 0.45, c.h * 0.52, 1.0
    c.polygon([(x - 17, y), (x + 11, y + 6), (x + 20, c.h + 1), (x - 36, c.h + 1)], "#ffffff")
    c.disc(x, y, 19 * s, "#ffffff")
    c.polygon(
        [(x + 14, y - 6), (x + 43, y + 1), (x + 45, y + 7), (x + 40, y + 6), (x + 14, y + 9)],
        p.glow,
    )
    c.polygon([(x + 14, y + 2), (x + 40, y + 5.4), (x + 14, y + 9)], p.accent)
    c.disc(x + 7, y - 4, 4, p.glow)
    c.disc(x + 7.5, y - 4, 2.2, p.ink)
    c.line([(x + 1, y - 10), (x + 12, y - 8)], p.ink, 1.2)
    c.polygon([(x - 20, y + 22), (x - 36, c.h + 1), (x - 2, c.h + 1)], p.ink + "33")
    if rng.random() < 0.5:
        c.rect(Box(x - 15, y - 21, 26, 6), p.accent, radius=2)
        c.rect(Box(x - 11, y - 30, 18, 11), p.accent, radius=3)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.2), p.paper)


def bird_row(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw three birds on a wire, each its own colour."""
    c.fade(p.paper, p.glow)
    c.disc(c.w * 0.5, c.h * 0.6, min(33.0, c.h * 0.3), p.accent + "cc")
    wire = [(c.w * t / 20, c.h * 0.78 + 4 * math.sin(math.pi * t / 20)) for t in range(21)]
    c.line(wire, p.ink, 0.7)
    for i, body in enumerate(rng.sample((p.ink, p.mid, p.deep), 3)):
        x, y, s = c.w * (0.24 + 0.26 * i), c.h * 0.78 - 7, 1.15
        c.oval(x, y, 8 * s, 10 * s, body)
        c.disc(x + 2, y - 11 * s, 6 * s, body)
        c.polygon(
            [
                (x + 7 * s, y - 12 * s),
                (x + (13 + 5 * (i == 2)) * s, y - 10.6 * s),
                (x + 6.6 * s, y - 9 * s),
            ],
            p.accent if i else p.glow,
        )
        c.polygon(
            [(x - 5 * s, y + 3), (x - 11 * s, y + 22 * s), (x - 5 * s, y + 21 * s), (x + 1, y + 8)],
            body,
        )
        c.slice((x - 2, y + 1), 6.6 * s, 20, 200, p.paper + "44")
        c.disc(x + 4 * s, y - 12 * s, 1.3, p.paper)
        c.disc(x + 4.3 * s, y - 12 * s, 0.7, p.ink)
    return Room(Box(8, c.h * 0.05, c.w - 16, c.h * 0.24), p.ink)
