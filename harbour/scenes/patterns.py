"""Covers that are a pattern: tiles, stripes, wheels, a maze."""

from __future__ import annotations

import math
from random import Random

from harbour.canvas import Box, Canvas, Room, polar
from harbour.palettes import Palette


def _foot_panel(c: Canvas, ink: str, panel: str) -> Room:
    tall = max(20.0, c.h * 0.2)
    return Room(Box(7, c.h - tall - 7, c.w - 14, tall), ink, panel)


def tiles(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw quarter circles, half circles and bows on a grid."""
    columns = max(4, round(c.w / 22))
    s = c.w / columns
    rows = math.ceil(c.h / s)
    colours = (p.ink, p.deep, p.mid, p.accent, p.glow, p.paper)
    for row in range(rows):
        for column in range(columns):
            ground, figure, third = rng.sample(colours, 3)
            at = Box(column * s, row * s, s, s)
            c.rect(at, ground)
            _tile(c, rng.randrange(6), at, rng.randrange(4), figure, third)
    return _foot_panel(c, p.ink, p.paper)


def _tile(c: Canvas, kind: int, at: Box, turn: int, figure: str, third: str) -> None:
    x, y, s, _ = at
    corner = [(x, y), (x + s, y), (x + s, y + s), (x, y + s)][turn]
    start = (0, 90, 180, 270)[turn]
    if kind == 0:
        c.slice(corner, s, start, start + 90, figure)
    elif kind == 1:
        for k, colour in ((1.0, figure), (0.72, third), (0.42, figure)):
            c.slice(corner, s * k, start, start + 90, colour)
    elif kind == 2:
        c.disc(x + s / 2, y + s / 2, s * 0.4, figure)
        c.disc(x + s / 2, y + s / 2, s * 0.16, third)
    elif kind == 3:
        mids = [(x + s / 2, y), (x + s, y + s / 2), (x + s / 2, y + s), (x, y + s / 2)]
        c.slice(mids[turn], s / 2, start, start + 180, figure)
        c.slice(mids[(turn + 2) % 4], s / 2, start + 180, start + 360, third)
    elif kind == 4:
        c.polygon(
            [
                corner,
                (x + s, y + s) if turn in (1, 3) else (x + s, y),
                (x, y + s) if turn in (0, 2) else (x, y),
            ],
            figure,
        )
    else:
        for k in range(4):
            c.rect(Box(x, y + s * k / 4, s, s / 8), figure)


def stripes(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw bands that bend around a disc."""
    c.rect(Box(0, 0, c.w, c.h), p.paper)
    colours = (p.deep, p.mid, p.accent, p.glow, p.ink, p.paper)
    x, y = c.w * rng.choice((0.28, 0.72)), c.h * 0.36
    reach = math.hypot(c.w, c.h)
    width, i = reach / 13, 0
    r = reach
    while r > width * 1.5:
        c.disc(x, y, r, colours[i % len(colours)])
        c.rect(Box(x - r, y, 2 * r, c.h), colours[i % len(colours)])
        r, i = r - width * (0.55 + 0.9 * rng.random()), i + 1
    c.disc(x, y, max(r, 5), p.paper)
    return _foot_panel(c, p.paper, p.ink)


def rays(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a clock face with rays behind it."""
    x, y = c.w / 2, c.h * 0.58
    c.rect(Box(0, 0, c.w, c.h), p.mid)
    count, reach = 18, math.hypot(c.w, c.h)
    for i in range(count):
        c.slice((x, y), reach, 360 * i / count, 360 * (i + 0.5) / count, p.deep)
    r = min(34.0, c.h * 0.3)
    c.disc(x, y, r * 1.1, p.ink)
    c.disc(x, y, r * 1.03, p.accent)
    c.disc(x, y, r * 0.93, p.paper)
    for i in range(60):
        inner = 0.78 if i % 5 == 0 else 0.85
        c.line(
            [polar(x, y, r * inner, 6 * i), polar(x, y, r * 0.88, 6 * i)],
            p.ink,
            1.1 if i % 5 == 0 else 0.35,
        )
    hour = rng.uniform(0, 360)
    for turn, long, thick in ((hour, 0.48, 2.4), (hour * 12, 0.74, 1.5)):
        c.line([polar(x, y, r * 0.12, turn + 180), polar(x, y, r * long, turn)], p.ink, thick)
    c.line([polar(x, y, r * 0.2, 40), polar(x, y, r * 0.8, 220)], p.accent, 0.6)
    c.disc(x, y, r * 0.07, p.accent)
    tall = c.h * 0.19
    return Room(Box(0, 3, c.w, tall), p.paper, p.ink)


def gears(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw wheels that mesh."""
    c.fade(p.deep, p.ink)
    for _ in range(40):
        c.disc(c.w * rng.random(), c.h * rng.random(), rng.uniform(0.3, 0.9), p.mid + "66")
    pitch, teeth = 2.3, (22, 13, 17, 10, 15, 12)
    colours = (p.accent, p.glow, p.mid, p.paper, p.accent, p.mid)
    x, y, phase = c.w * 0.3, c.h * 0.2, rng.uniform(0, 20)
    chain = (38.0, 118.0, 165.0, -40.0, 60.0)
    _gear(c, (x, y), teeth[0], pitch, phase, colours[0], p.ink)
    for i, turn in enumerate(chain, start=1):
        before, after = teeth[i - 1], teeth[i]
        step = (before + after) * pitch / 2
        there = polar(x, y, step, turn)
        # the tooth gap of the next wheel faces the tooth of the last along the line of centres
        facing = (turn - phase) * before / 360 % 1
        phase = turn + 180 + (facing - 0.5) * 360 / after
        x, y = there
        _gear(c, there, after, pitch, phase, colours[i], p.ink)
    return _foot_panel(c, p.ink, p.glow)


def _gear(
    c: Canvas,
    at: tuple[float, float],
    teeth: int,
    pitch: float,
    phase: float,
    colour: str,
    hole: str,
) -> None:
    x, y = at
    r, rim = teeth * pitch / 2, []
    for i in range(teeth):
        for part, out in ((-0.27, -1.1), (-0.15, 1.1), (0.15, 1.1), (0.27, -1.1)):
            rim.append(polar(x, y, r + out, phase + 360 * (i + part) / teeth))
    c.polygon(rim, colour)
    c.disc(x, y, r * 0.72, hole)
    c.disc(x, y, r * 0.66, colour)
    spokes = 5 if teeth > 14 else 3
    for i in range(spokes):
        px, py = polar(x, y, r * 0.4, phase + 360 * (i + 0.5) / spokes)
        c.disc(px, py, r * (0.17 if spokes == 5 else 0.2), hole)
    c.disc(x, y, r * 0.16, hole)


def maze(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a maze with one way through."""
    c.rect(Box(0, 0, c.w, c.h), p.paper)
    columns = max(9, round((c.w - 12) / 8.5))
    s = (c.w - 12) / columns
    rows = int((c.h * 0.76 - 8) / s)
    left, top = 6.0, c.h - rows * s - 6
    doors, way = _carve(rng, columns, rows)
    points = [(left + (x + 0.5) * s, top + (y + 0.5) * s) for x, y in way]
    c.line(points, p.accent, s * 0.34)
    for row in range(rows + 1):
        for column in range(columns + 1):
            x, y = left + column * s, top + row * s
            if column < columns and ((column, row - 1), (column, row)) not in doors:
                c.line([(x, y), (x + s, y)], p.ink, s * 0.2)
            if row < rows and ((column - 1, row), (column, row)) not in doors:
                c.line([(x, y), (x, y + s)], p.ink, s * 0.2)
    c.disc(*points[0], s * 0.3, p.deep)
    c.disc(*points[-1], s * 0.3, p.mid)
    return Room(Box(6, 4, c.w - 12, top - 8), p.ink)


_Cell = tuple[int, int]


def _carve(rng: Random, columns: int, rows: int) -> tuple[set[tuple[_Cell, _Cell]], list[_Cell]]:
    """Return the open walls of a perfect maze and the way from its first cell to its last."""
    doors: set[tuple[_Cell, _Cell]] = set()
    path, seen, way = [(0, 0)], {(0, 0)}, [(0, 0)]
    while path:
        x, y = path[-1]
        if path[-1] == (columns - 1, rows - 1):
            way = list(path)
        near = [
            (x + dx, y + dy)
            for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1))
            if 0 <= x + dx < columns and 0 <= y + dy < rows and (x + dx, y + dy) not in seen
        ]
        if near:
            there = rng.choice(near)
            first, second = sorted((path[-1], there))
            doors.add((first, second))
            seen.add(there)
            path.append(there)
        else:
            path.pop()
    return doors, way


def flags(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw lines of flags on halyards."""
    c.fade(p.paper, p.glow)
    for row in range(4):
        y0 = c.h * (0.28 + 0.175 * row)
        sag = rng.uniform(3, 7)
        line = [(c.w * t / 20, y0 + sag * math.sin(math.pi * t / 20)) for t in range(21)]
        c.line(line, p.ink, 0.4)
        count = max(4, round(c.w / 19))
        for i in range(count):
            t = (i + 0.5) / count
            x, y = c.w * t, y0 + sag * math.sin(math.pi * t)
            _flag(c, rng, Box(x - 6, y, 12, 11), (p.accent, p.mid, p.deep, p.paper, p.ink))
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.2), p.ink)


def _flag(c: Canvas, rng: Random, at: Box, colours: tuple[str, ...]) -> None:
    ground, figure = rng.sample(colours, 2)
    x, y, w, h = at
    c.rect(at, ground)
    kind = rng.randrange(6)
    if kind == 0:
        c.rect(Box(x + w * 0.36, y, w * 0.28, h), figure)
        c.rect(Box(x, y + h * 0.36, w, h * 0.28), figure)
    elif kind == 1:
        c.polygon([(x, y), (x + w * 0.6, y + h / 2), (x, y + h)], figure)
    elif kind == 2:
        c.disc(x + w / 2, y + h / 2, h * 0.3, figure)
    elif kind == 3:
        for k in (0, 2):
            c.rect(Box(x + w * k / 3, y, w / 3, h), figure)
    elif kind == 4:
        c.polygon([(x, y), (x + w, y), (x, y + h)], figure)
    else:
        for i in range(4):
            for k in range(4):
                if (i + k) % 2:
                    c.rect(Box(x + w * i / 4, y + h * k / 4, w / 4, h / 4), figure)


def keys(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a keyboard with a tune rising from it."""
    c.fade(p.accent, p.glow)
    top, count = c.h * 0.66, max(8, round(c.w / 11))
    s = c.w / count
    for i in range(count):
        c.rect(Box(i * s + 0.3, top, s - 0.6, c.h - top - 4), p.paper, radius=0.8)
        if i % 7 not in (0, 3):
            c.rect(Box(i * s - s * 0.3, top, s * 0.6, (c.h - top) * 0.58), p.ink, radius=0.5)
    c.rect(Box(0, top - 2, c.w, 2.4), p.ink)
    for i in range(5):
        path = [(c.w * t / 30, c.h * (0.32 + 0.035 * i) + 5 * math.sin(t / 4.5)) for t in range(31)]
        c.line(path, p.ink + "88", 0.35)
    for i in range(7):
        x = c.w * (i + 0.7) / 8
        y = c.h * (0.32 + 0.035 * rng.randrange(5)) + 5 * math.sin(30 * x / c.w / 4.5)
        c.oval(x, y, 2.6, 2, p.ink)
        c.line([(x + 2.3, y), (x + 2.3, y - 10)], p.ink, 0.6)
        if i % 2:
            c.line([(x + 2.3, y - 10), (x + 6, y - 6)], p.ink, 1)
    return Room(Box(8, c.h * 0.05, c.w - 16, c.h * 0.2), p.ink)


def cups(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw jars, tins and teapots on shelves."""
    c.rect(Box(0, 0, c.w, c.h), p.deep)
    for row in range(3):
        shelf = c.h * (0.5 + 0.23 * row)
        x = 5.0
        while x < c.w - 9:
            width, tall = rng.uniform(7, 12), rng.uniform(8, c.h * 0.16)
            body = rng.choice((p.accent, p.glow, p.paper, p.mid))
            c.rect(Box(x, shelf - tall, width, tall), body, radius=rng.choice((0.6, 2.5, 4)))
            c.rect(Box(x + width * 0.16, shelf - tall - 1.8, width * 0.68, 2.2), p.ink, radius=0.6)
            c.rect(
                Box(x + width * 0.15, shelf - tall * 0.62, width * 0.7, tall * 0.3),
                p.ink + "33",
                radius=0.6,
            )
            c.rect(
                Box(x + width * 0.12, shelf - tall + 1, width * 0.1, tall - 2.2),
                "#ffffff55",
                radius=0.4,
            )
            x += width + rng.uniform(1, 3)
        c.rect(Box(0, shelf, c.w, 2.4), p.ink)
    return Room(Box(8, c.h * 0.05, c.w - 16, c.h * 0.2), p.glow)
