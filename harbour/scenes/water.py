"""Scenes at sea."""

from __future__ import annotations

import math
from random import Random

from harbour.canvas import Box, Canvas, Point, Room, polar, ridge, wave
from harbour.palettes import Palette


def swell(c: Canvas, rng: Random, top: float, colours: tuple[str, ...]) -> None:
    """Lay bands of water from ``top`` to the foot, each a rolling edge lower than the last."""
    depth = c.h - top
    for i, colour in enumerate(colours):
        level = top + depth * (i / len(colours)) ** 1.15
        edge = wave(c.w, level, 0.5 + 1.1 * i, rng.uniform(24, 40) + 9 * i, rng.random())
        c.polygon([*edge, (c.w, c.h + 1), (0, c.h + 1)], colour)


def glitter(c: Canvas, rng: Random, x: float, top: float, reach: float, colour: str) -> None:
    """Strew the light of a low sun over the water beneath it."""
    y, step = top + 1.2, 1.6
    while y < top + reach:
        spread = 5 + (y - top) * 0.5
        for _ in range(2 + round((y - top) / 9)):
            half, off = rng.uniform(1, 4.5), rng.gauss(0, spread * 0.55)
            c.rect(Box(x + off - half, y, 2 * half, step * 0.42), colour, radius=0.3)
        y, step = y + step, step * 1.07


def horizon(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a sun going down into the sea."""
    sea, x = c.h * 0.6, c.w * rng.uniform(0.36, 0.64)
    c.fade(p.deep, p.glow, Box(0, 0, c.w, sea))
    radius = min(19.0, c.h * 0.17)
    c.glow(x, sea - radius * 0.45, radius * 2.3, p.accent)
    c.disc(x, sea - radius * 0.45, radius, p.accent)
    for _ in range(4):
        y, half = sea - rng.uniform(4, radius * 2), rng.uniform(9, 20)
        c.rect(Box(rng.uniform(-5, c.w - 15), y, half * 2, 1.5), p.glow + "99", radius=0.75)
    peaks = [0.0, *(rng.random() for _ in range(5)), 0.0]
    c.polygon([*ridge(c.w * 0.42, sea, 6, peaks), (c.w * 0.42, sea), (0, sea)], p.mid)
    c.fade(p.mid, p.ink, Box(0, sea, c.w, c.h - sea + 1))
    glitter(c, rng, x, sea, (c.h - sea) * 0.75, p.glow)
    for i in range(3):
        level = c.h - 15 + 6 * i
        edge = wave(c.w, level, 1.4, rng.uniform(18, 30), rng.random())
        c.polygon([*edge, (c.w, c.h + 1), (0, c.h + 1)], p.ink + "66")
    sail(c, c.w * 0.22 if x > c.w / 2 else c.w * 0.78, sea + 7, 13, p.paper, p.ink)
    return Room(Box(8, c.h * 0.06, c.w - 16, c.h * 0.27), p.paper)


def sail(c: Canvas, x: float, y: float, size: float, cloth: str, hull: str) -> None:
    """Draw a little boat whose waterline is at ``y``."""
    c.polygon([(x + 0.4, y - size), (x + 0.4, y - 2), (x + size * 0.55, y - 2)], cloth)
    c.polygon([(x - 0.4, y - size * 0.8), (x - 0.4, y - 2), (x - size * 0.42, y - 2)], cloth + "cc")
    c.polygon(
        [
            (x - size * 0.55, y - 1.6),
            (x + size * 0.7, y - 1.6),
            (x + size * 0.45, y + 1.4),
            (x - size * 0.4, y + 1.4),
        ],
        hull,
    )


def lighthouse(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a striped lighthouse on a rock, its beam over a night sea."""
    c.fade(p.ink, p.mid)
    for _ in range(70):
        x, y = rng.uniform(0, c.w), rng.uniform(0, c.h * 0.6)
        c.disc(x, y, rng.choice((0.22, 0.3, 0.5)), p.paper + "cc")
    x, sea = c.w * rng.choice((0.34, 0.5, 0.66)), c.h * 0.8
    lamp = c.h * 0.42
    for spread, veil in ((9, "2a"), (6, "3c"), (3.2, "66")):
        left, right = lamp - spread * 2.2, lamp + spread * 1.2
        c.polygon([(x, lamp), (-4, left), (-4, right)], p.glow + veil)
        c.polygon([(x, lamp), (c.w + 4, left), (c.w + 4, right)], p.glow + veil)
    swell(c, rng, sea, (p.mid, p.deep, p.ink))
    base = c.h * 0.86
    rock = [
        (x - 30, base + 8),
        (x - 22, base - 1),
        (x - 15, base - 2),
        (x - 11, base - 8),
        (x + 10, base - 9),
        (x + 16, base - 3),
        (x + 26, base),
        (x + 33, base + 8),
    ]
    c.polygon(rock, p.ink)
    _tower(c, x, lamp, base - 7, p)
    edge = wave(c.w, base + 5, 1.6, 26, rng.random())
    c.polygon([*edge, (c.w, c.h + 1), (0, c.h + 1)], p.deep)
    edge = wave(c.w, base + 10, 1.8, 33, rng.random())
    c.polygon([*edge, (c.w, c.h + 1), (0, c.h + 1)], p.ink)
    return Room(Box(8, c.h * 0.05, c.w - 16, c.h * 0.26), p.paper)


def _tower(c: Canvas, x: float, lamp: float, foot: float, p: Palette) -> None:
    top, bands = lamp + 5, 5
    for i in range(bands):
        a, b = i / bands, (i + 1) / bands
        wa, wb = 4.6 + 3.6 * a, 4.6 + 3.6 * b
        ya, yb = top + (foot - top) * a, top + (foot - top) * b
        colour = p.paper if i % 2 else p.accent
        c.polygon([(x - wa, ya), (x + wa, ya), (x + wb, yb), (x - wb, yb)], colour)
        c.polygon(
            [(x + wa * 0.35, ya), (x + wa, ya), (x + wb, yb), (x + wb * 0.35, yb)], p.ink + "33"
        )
    c.rect(Box(x - 7, top - 1.2, 14, 2), p.ink)
    c.rect(Box(x - 3.6, lamp - 4.4, 7.2, 8.4), p.glow)
    for dx in (-3.6, -0.4, 2.8):
        c.rect(Box(x + dx, lamp - 4.4, 0.8, 8.4), p.ink)
    c.slice((x, lamp - 4.2), 5, 180, 360, p.accent)
    c.rect(Box(x - 0.4, lamp - 12, 0.8, 4), p.ink)
    c.glow(x, lamp, 13, p.glow)


def regatta(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw teacups under sail."""
    sea = c.h * 0.52
    c.fade(p.glow, p.paper, Box(0, 0, c.w, sea + 2))
    for _ in range(4):
        x, y, r = rng.uniform(0, c.w), rng.uniform(c.h * 0.3, sea - 10), rng.uniform(3, 6)
        for k, grow in ((-1.2, 0.8), (0, 1.2), (1.2, 0.85)):
            c.slice((x + k * r, y), r * grow, 180, 360, "#ffffffcc")
    swell(c, rng, sea, (p.mid, p.mid, p.deep))
    spots = [(0.2, 0.03, 0.62), (0.82, 0.06, 0.72), (0.5, 0.2, 1.1)]
    cloths = [p.deep, p.accent, p.accent]
    rng.shuffle(cloths)
    for (fx, fy, size), cloth in zip(spots, cloths, strict=True):
        _cup(c, c.w * fx, sea + c.h * fy + 8, 15 * size, cloth, p)
    edge = wave(c.w, c.h * 0.88, 2.2, 25, rng.random())
    c.polygon([*edge, (c.w, c.h + 1), (0, c.h + 1)], p.deep)
    edge = wave(c.w, c.h * 0.94, 2, 31, rng.random())
    c.polygon([*edge, (c.w, c.h + 1), (0, c.h + 1)], p.ink)
    return Room(Box(8, c.h * 0.05, c.w - 16, c.h * 0.21), p.ink)


def _cup(c: Canvas, x: float, y: float, r: float, cloth: str, p: Palette) -> None:
    c.rect(Box(x - 0.5, y - r * 2.5, 1.0, r * 2.6), p.ink)
    c.polygon([(x + 1, y - r * 2.4), (x + 1, y - r * 0.25), (x + r * 1.15, y - r * 0.4)], cloth)
    c.polygon([(x - 1, y - r * 2.1), (x - 1, y - r * 0.25), (x - r * 0.8, y - r * 0.35)], p.paper)
    c.polygon([(x, y - r * 2.5), (x - r * 0.5, y - r * 2.35), (x, y - r * 2.2)], p.accent)
    c.ring(x + r * 1.05, y + r * 0.45, r * 0.42, p.paper, r * 0.16)
    c.slice((x, y), r, 0, 180, p.paper)
    c.oval(x, y, r, r * 0.2, "#ffffff")
    c.oval(x, y, r * 0.88, r * 0.13, p.accent + "99")
    c.slice((x, y), r, 92, 180, p.ink + "1c")
    for k in range(-2, 3):
        c.disc(x + k * r * 0.33, y + r * (0.5 - abs(k) * 0.07), r * 0.085, p.mid)


def paper_boat(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a folded boat on a sea of scales."""
    c.fade(p.paper, p.glow)
    sun = c.w * rng.choice((0.3, 0.7))
    c.disc(sun, c.h * 0.44, 13, p.accent)
    x, y, s = c.w * 0.5, c.h * 0.66, 25.0
    c.polygon([(x, y - s * 1.15), (x - s * 0.55, y), (x + s * 0.55, y)], "#ffffff")
    c.polygon([(x, y - s * 1.15), (x + s * 0.55, y), (x, y)], p.ink + "30")
    hull = [
        (x - s * 1.3, y - s * 0.42),
        (x, y - 1),
        (x + s * 1.3, y - s * 0.42),
        (x + s * 0.8, y + s * 0.5),
        (x - s * 0.8, y + s * 0.5),
    ]
    c.polygon(hull, "#ffffff")
    c.polygon(
        [(x + s * 1.3, y - s * 0.42), (x + s * 0.8, y + s * 0.5), (x, y + s * 0.5), (x, y - 1)],
        p.ink + "22",
    )
    scales(c, y + 8, 11, (p.mid, p.deep), p.paper)
    return Room(Box(8, c.h * 0.05, c.w - 16, c.h * 0.26), p.ink)


def scales(c: Canvas, top: float, r: float, colours: tuple[str, ...], line: str) -> None:
    """Cover everything below ``top`` with overlapping round waves."""
    row, y = 0, top + r * 0.4
    while y < c.h + r:
        x = -r if row % 2 else 0.0
        while x < c.w + r:
            c.disc(x, y, r, line)
            c.disc(x, y, r * 0.92, colours[row % len(colours)])
            for k in (0.7, 0.46, 0.22):
                c.ring(x, y, r * k, line + "bb", r * 0.07)
            x += 2 * r
        row, y = row + 1, y + r * 0.5


def shoal(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw rows of fish, one of them going its own way."""
    c.fade(p.mid, p.deep)
    columns = max(3, round(c.w / 24))
    pitch, rows = c.w / columns, max(4, round(c.h * 0.72 / 14))
    odd = (rng.randrange(columns), rng.randrange(1, rows - 1))
    for row in range(rows):
        for column in range(-1, columns + 1):
            x = (column + (0.25 if row % 2 else 0.75)) * pitch
            y = c.h * 0.3 + row * (c.h * 0.7 / rows) + 6
            stray = (column, row) == odd
            body = p.accent if stray else (p.glow, p.paper, p.ink)[(row + column) % 3]
            _fish(c, x, y, pitch * 0.38 * (-1 if stray else 1), body, p.ink)
    return Room(Box(8, c.h * 0.05, c.w - 16, c.h * 0.2), p.paper)


def _fish(c: Canvas, x: float, y: float, s: float, body: str, eye: str) -> None:
    upper = [(x + s * math.cos(a), y - abs(s) * 0.42 * math.sin(a)) for a in _arc(0, math.pi)]
    lower = [
        (x + s * math.cos(a), y - abs(s) * 0.42 * math.sin(a)) for a in _arc(math.pi, math.tau)
    ]
    c.polygon(upper + lower, body)
    c.polygon(
        [(x - s * 0.8, y), (x - s * 1.3, y - abs(s) * 0.42), (x - s * 1.3, y + abs(s) * 0.42)], body
    )
    light = "#ffffff" if body == eye else eye
    c.disc(x + s * 0.62, y - abs(s) * 0.1, abs(s) * 0.075, light)
    c.line(
        [(x + s * 0.36, y - abs(s) * 0.24), (x + s * 0.28, y), (x + s * 0.36, y + abs(s) * 0.24)],
        light,
        abs(s) * 0.05,
    )


def _arc(start: float, end: float) -> list[float]:
    return [start + (end - start) * i / 14 for i in range(15)]


def gulls(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw many gulls over striped water."""
    sea = c.h * 0.74
    c.fade(p.glow, p.paper, Box(0, 0, c.w, sea))
    c.disc(c.w * 0.72, sea - 4, 16, p.accent)
    stripes = (p.mid, p.deep, p.mid, p.ink)
    for i, colour in enumerate(stripes):
        y = sea + i * (c.h - sea) / len(stripes)
        c.rect(Box(0, y, c.w, c.h - y + 1), colour)
    spots = [(rng.uniform(4, c.w - 4), rng.uniform(c.h * 0.3, c.h * 0.9)) for _ in range(46)]
    for x, y in sorted(spots, key=lambda spot: spot[1]):
        size = 1.6 + 5.5 * ((y - c.h * 0.3) / (c.h * 0.6)) ** 2
        _gull(c, x, y, size, "#ffffff" if y > sea - 12 else p.deep, rng.uniform(-0.3, 0.3))
    return Room(Box(8, c.h * 0.05, c.w - 16, c.h * 0.22), p.ink)


def _gull(c: Canvas, x: float, y: float, s: float, colour: str, tilt: float) -> None:
    def wing(side: int) -> list[Point]:
        return [
            (
                x + side * s * t * 1.5,
                y - s * 0.75 * math.sin(math.pi * t * 0.8) + side * tilt * s * t,
            )
            for t in (i / 8 for i in range(9))
        ]

    left, right = wing(-1), wing(1)
    thick = [(px, py + s * 0.3 * (1 - abs(px - x) / (s * 1.6))) for px, py in left[::-1] + right]
    c.polygon(left[::-1] + right + thick[::-1], colour)


def island(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a chart: an island in height lines, a dotted course, a compass rose."""
    c.rect(Box(0, 0, c.w, c.h), p.glow)
    for i in range(1, 8):
        c.rect(Box(c.w * i / 8, 0, 0.25, c.h), p.mid + "66")
        c.rect(Box(0, c.h * i / 8, c.w, 0.25), p.mid + "66")
    x, y, r = c.w * 0.52, c.h * 0.56, min(33.0, c.h * 0.3)
    lobes = [(k, rng.uniform(0.06, 0.2) / k**0.5, rng.uniform(0, 6.3)) for k in (2, 3, 5)]
    tints = (p.mid + "55", p.mid + "77", p.paper, p.accent + "77", p.accent, p.deep, p.ink)
    for tint, share in zip(tints, (1.22, 1.1, 1.0, 0.8, 0.6, 0.38, 0.16), strict=True):
        shore = []
        for degrees in range(0, 360, 4):
            a = math.radians(degrees)
            out = 1 + sum(size * math.sin(k * a + turn) for k, size, turn in lobes)
            shore.append(polar(x, y, r * share * out, degrees))
        c.polygon(shore, tint)
    for i in range(15):
        t = i / 14
        c.disc(c.w * (0.06 + 0.4 * t), c.h * (0.93 - 0.3 * t) + 5 * math.sin(t * 5), 0.8, p.ink)
    c.line([(x - 3, y - 2), (x + 3, y + 4)], p.paper, 1.3)
    c.line([(x + 3, y - 2), (x - 3, y + 4)], p.paper, 1.3)
    _rose(c, c.w - 15, c.h - 17, 10, p)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.17), p.ink)


def _rose(c: Canvas, x: float, y: float, r: float, p: Palette) -> None:
    c.ring(x, y, r, p.ink, 0.5)
    for i in range(8):
        reach = r * (1.15 if i % 2 == 0 else 0.7)
        tip, width = polar(x, y, reach, 45 * i), 22.5
        c.polygon([(x, y), polar(x, y, r * 0.26, 45 * i - width), tip], p.ink)
        c.polygon([(x, y), polar(x, y, r * 0.26, 45 * i + width), tip], p.accent)


def buoys(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw bell buoys leaning in a swell."""
    c.fade(p.deep, p.glow, Box(0, 0, c.w, c.h * 0.62))
    for i in range(6):
        c.ring(c.w * 0.5, c.h * 0.5, 12 + 9 * i, p.paper + "55", 0.7)
    swell(c, rng, c.h * 0.6, (p.mid, p.deep))
    for fx, fy, s, lean in ((0.2, 0.68, 0.6, 4), (0.83, 0.66, 0.5, -3), (0.5, 0.76, 1.25, 5)):
        x, y = c.w * fx, c.h * fy
        top = (x + lean * s, y - 27 * s)
        c.polygon(
            [
                (x - 9 * s, y + 5 * s),
                (x + 9 * s, y + 5 * s),
                (top[0] + 2 * s, top[1]),
                (top[0] - 2 * s, top[1]),
            ],
            p.accent,
        )
        c.polygon(
            [(x, y + 5 * s), (x + 9 * s, y + 5 * s), (top[0] + 2 * s, top[1]), top], p.ink + "30"
        )
        c.rect(Box(x - 8 * s, y - 4 * s, 16.5 * s, 4.5 * s), p.paper)
        c.disc(top[0], top[1], 3.4 * s, p.glow)
        c.glow(top[0], top[1], 11 * s, p.glow)
    edge = wave(c.w, c.h * 0.84, 2.4, 30, rng.random())
    c.polygon([*edge, (c.w, c.h + 1), (0, c.h + 1)], p.ink)
    return Room(Box(8, c.h * 0.05, c.w - 16, c.h * 0.2), p.paper)
