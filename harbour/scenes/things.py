"""Covers that show one thing, or many of one thing."""

from __future__ import annotations

import math
from random import Random

from harbour.canvas import Box, Canvas, Point, Room, polar, wave
from harbour.palettes import Palette


def submarine(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a small submarine between weeds."""
    c.fade(p.mid, p.ink)
    for side in (0.2, 0.5, 0.75):
        c.polygon(
            [(c.w * side, 0), (c.w * side + 12, 0), (c.w * side - 8, c.h), (c.w * side - 42, c.h)],
            p.paper + "18",
        )
    x, y = c.w * 0.5, c.h * 0.58
    c.rect(Box(x - 3, y - 27, 2.4, 14), p.ink)
    c.rect(Box(x - 3, y - 28, 8, 3), p.ink, radius=0.8)
    c.rect(Box(x - 9, y - 18, 16, 12), p.accent, radius=3)
    c.oval(x, y, 33, 14, p.accent)
    c.slice((x - 30, y), 10, 120, 240, p.glow)
    for turn in (-1, 1):
        c.polygon(
            [(x - 31, y), (x - 40, y + turn * 10), (x - 36, y + turn * 11), (x - 27, y + turn * 3)],
            p.glow,
        )
    c.polygon(
        [(x - 33, y + 1), (x + 33, y + 1), (x + 24, y + 10), (x, y + 14), (x - 24, y + 10)],
        p.ink + "33",
    )
    for i in range(3):
        for r, colour in ((5.2, p.glow), (3.9, p.ink), (3.4, p.paper)):
            c.disc(x - 11 + 14 * i, y - 1, r, colour)
    for i in range(12):
        c.ring(
            x - 36 - rng.uniform(0, 14),
            y - i * 3.4 - rng.uniform(-3, 3),
            rng.uniform(0.6, 1.9),
            p.paper + "cc",
            0.4,
        )
    for i in range(11):
        root, tall, sway = c.w * (i + rng.random()) / 11, rng.uniform(14, 34), rng.uniform(0, 6)
        weed = [(root + 2.6 * math.sin(sway + t * 0.7), c.h + 1 - tall * t / 10) for t in range(11)]
        c.line(weed, (p.deep, p.ink)[i % 2], 2.4)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.2), p.paper)


def letters(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw envelopes blowing past, each with its stamp."""
    c.fade(p.deep, p.mid)
    columns = max(3, round(c.w / 32))
    for row in range(5):
        for column in range(columns):
            x = c.w * (column + (0.3 if row % 2 else 0.7)) / columns + rng.uniform(-3, 3)
            _envelope(c, rng, (x, c.h * (0.34 + 0.155 * row)), rng.uniform(-22, 22), p)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.2), p.paper)


def _envelope(c: Canvas, rng: Random, at: Point, turn: float, p: Palette) -> None:
    def put(u: float, v: float) -> Point:
        return polar(*polar(*at, u, turn), v, turn + 90)

    w, h = 11.0, 7.2
    body = rng.choice((p.paper, p.paper, p.glow))
    c.polygon(
        [put(-w + 1, -h + 1.4), put(w + 1, -h + 1.4), put(w + 1, h + 1.4), put(-w + 1, h + 1.4)],
        p.ink + "44",
    )
    c.polygon([put(-w, -h), put(w, -h), put(w, h), put(-w, h)], body)
    if rng.random() < 0.5:
        c.polygon([put(-w, -h), put(w, -h), put(0, 1.5)], p.ink + "22")
        c.disc(*put(0, 1), 1.9, p.accent)
        return
    c.polygon(
        [put(w - 6, -h + 1.5), put(w - 1.5, -h + 1.5), put(w - 1.5, -h + 7), put(w - 6, -h + 7)],
        p.accent,
    )
    c.disc(*put(w - 3.8, -h + 4.2), 1.3, p.glow if body == p.paper else p.paper)
    for i, long in enumerate((9, 7, 10)):
        c.line([put(-w + 3, -1 + 2.6 * i), put(-w + 3 + long, -1 + 2.6 * i)], p.ink + "aa", 0.6)


def lemons(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw lemons and leaves on a cloth."""
    c.rect(Box(0, 0, c.w, c.h), p.deep)
    columns = max(3, round(c.w / 30))
    pitch = c.w / columns
    rows = math.ceil(c.h * 0.74 / 25)
    for row in range(rows):
        for column in range(-1, columns + 1):
            at = (pitch * (column + (0.75 if row % 2 else 0.25)), c.h * 0.34 + 25 * row)
            turn = rng.uniform(0, 360)
            for k in (-40, 30):
                _leaf(c, polar(*at, 6, turn + k), 12, turn + k, p.mid)
            if rng.random() < 0.3:
                _half(c, at, p)
            else:
                _lemon(c, at, turn, p)
    c.rect(Box(0, 0, c.w, c.h * 0.24), p.deep)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.18), p.glow)


def _leaf(c: Canvas, at: Point, long: float, turn: float, colour: str) -> None:
    tip = polar(*at, long, turn)
    middle = polar(*at, long / 2, turn)
    c.polygon(
        [at, polar(*middle, long * 0.26, turn - 90), tip, polar(*middle, long * 0.26, turn + 90)],
        colour,
    )


def _lemon(c: Canvas, at: Point, turn: float, p: Palette) -> None:
    rim = []
    for i in range(36):
        a = math.tau * i / 36
        along, across = 9.2 * math.cos(a), 7.4 * math.sin(a)
        along *= 1 + 0.16 * math.cos(a) ** 8
        rim.append(polar(*polar(*at, along, turn), across, turn + 90))
    c.polygon(rim, p.accent)
    c.oval(at[0] - 2, at[1] - 2.4, 3.2, 2.2, p.glow + "aa")


def _half(c: Canvas, at: Point, p: Palette) -> None:
    c.disc(*at, 8.4, p.accent)
    c.disc(*at, 7.5, p.paper)
    for i in range(8):
        c.slice(at, 6.7, 45 * i + 4, 45 * i + 41, p.glow)
    c.disc(*at, 0.9, p.paper)


def buttons(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw buttons of all sizes in a heap."""
    c.rect(Box(0, 0, c.w, c.h), p.glow)
    colours = (p.ink, p.deep, p.mid, p.accent, p.paper, "#ffffff")
    placed: list[tuple[float, float, float]] = []
    for _ in range(700):
        r = rng.choice((4, 5, 6, 8, 10, 12))
        x, y = rng.uniform(0, c.w), rng.uniform(c.h * 0.28 + r * 0.7, c.h)
        if all(math.hypot(x - a, y - b) > r + s + 0.5 for a, b, s in placed):
            placed.append((x, y, r))
            colour, hole = rng.sample(colours, 2)
            c.disc(x + 0.6, y + 0.8, r, p.ink + "44")
            c.disc(x, y, r, colour)
            c.ring(x, y, r * 0.78, hole + "66", r * 0.09)
            count, turn = rng.choice((2, 4)), rng.uniform(0, 180)
            for i in range(count):
                c.disc(*polar(x, y, r * 0.26, turn + 360 * i / count), r * 0.11, hole)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.2), p.ink)


_ACROSS = [(0.25, 0.25), (0.75, 0.75)]
_CORNERS = [*_ACROSS, (0.25, 0.75), (0.75, 0.25)]
_EYES = ([(0.5, 0.5)], _ACROSS, [*_ACROSS, (0.5, 0.5)], _CORNERS, [*_CORNERS, (0.5, 0.5)])


def dominoes(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a row of dominoes, the first already falling."""
    c.fade(p.mid, p.glow, Box(0, 0, c.w, c.h * 0.78))
    c.disc(c.w * 0.8, c.h * 0.4, 9, p.paper)
    c.rect(Box(0, c.h * 0.78, c.w, c.h), p.deep)
    for k in range(5):
        edge = wave(c.w, c.h * 0.84 + k * 5, 0.9, 20 + 3 * k, rng.random())
        c.line(edge, p.mid + "99", 0.6)
    foot, count = c.h * 0.79, max(5, round(c.w / 19))
    for i in range(count):
        x, lean = c.w * (i + 0.75) / count, (58, 38, 20, 8, 0)[min(i, 4)]
        head = polar(x, foot, 30, lean - 90)
        back = polar(x, foot, 11, lean - 180)
        _domino(c, rng, [back, polar(*back, 30, lean - 90), head, (x, foot)], p)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.2), p.paper)


def _domino(c: Canvas, rng: Random, tile: list[Point], p: Palette) -> None:
    """Draw a domino; ``tile`` goes from one foot up the side, over the top and down."""
    (ax, ay), (bx, by), _, (dx, dy) = tile

    def spot(u: float, v: float) -> Point:
        return (ax + u * (bx - ax) + v * (dx - ax), ay + u * (by - ay) + v * (dy - ay))

    c.polygon([(x + 1, y + 0.6) for x, y in tile], p.ink + "55")
    c.polygon(tile, p.paper)
    c.line([spot(0.5, 0.12), spot(0.5, 0.88)], p.ink, 0.6)
    for half, colour in ((0.0, p.ink), (0.5, p.accent)):
        for u, v in _EYES[rng.randrange(len(_EYES))]:
            c.disc(*spot(half + u * 0.5, v), 1.15, colour)


def crane(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a harbour crane with a load on its hook."""
    c.fade(p.glow, p.paper)
    c.disc(c.w * 0.3, c.h * 0.46, 12, p.accent + "cc")
    quay, mast = c.h * 0.86, c.w * 0.68
    top = c.h * 0.38
    for i in range(4):
        c.rect(
            Box(c.w * 0.04 + 13 * i, quay - 9 - 9 * (i % 2), 12, 9 + 9 * (i % 2)),
            (p.mid, p.accent, p.deep, p.mid)[i],
        )
        for k in range(3):
            c.rect(Box(c.w * 0.04 + 13 * i + 2.4 + 3 * k, quay - 7.5, 0.7, 6), p.ink + "44")
    _lattice(c, (mast, quay), (mast, top), 7, p.ink)
    _lattice(c, (mast + 24, top + 3), (c.w * 0.14, top - 3), 4, p.ink)
    for x in (mast - 40, mast + 22):
        c.line([(mast, top - 13), (x, top)], p.ink, 0.6)
    c.polygon([(mast - 4, top), (mast + 4, top), (mast, top - 14)], p.ink)
    c.rect(Box(mast + 15, top + 3, 11, 8), p.deep)
    c.rect(Box(mast - 7, top + 4, 10, 9), p.accent, radius=1)
    c.rect(Box(mast - 5.5, top + 5.5, 5, 4), p.paper)
    hook = c.w * 0.24
    c.line([(hook, top - 2), (hook, c.h * 0.55)], p.ink, 0.5)
    c.polygon([(hook, c.h * 0.55), (hook - 8, c.h * 0.6), (hook + 8, c.h * 0.6)], p.ink + "55")
    c.rect(Box(hook - 10, c.h * 0.6, 20, 12), p.mid)
    c.rect(Box(hook - 10, c.h * 0.6 + 5, 20, 2), p.glow)
    c.rect(Box(0, quay, c.w, c.h), p.deep)
    for i in range(3):
        edge = wave(c.w, quay + 5 + 4 * i, 0.8, 16 + 5 * i, rng.random())
        c.line(edge, p.glow + "77", 0.6)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.19), p.ink)


def _lattice(c: Canvas, a: Point, b: Point, width: float, colour: str) -> None:
    turn = math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))
    long, half = math.dist(a, b), width / 2
    steps = max(3, round(long / width))
    left = [polar(*polar(*a, long * i / steps, turn), half, turn - 90) for i in range(steps + 1)]
    right = [polar(*polar(*a, long * i / steps, turn), half, turn + 90) for i in range(steps + 1)]
    c.line([left[0], left[-1]], colour, 0.9)
    c.line([right[0], right[-1]], colour, 0.9)
    c.line([(left if i % 2 else right)[i] for i in range(steps + 1)], colour, 0.6)


def bees(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw honeycomb and bees."""
    c.rect(Box(0, 0, c.w, c.h), p.glow)
    r = 7.4
    rows, columns = math.ceil(c.h / (1.5 * r)) + 1, math.ceil(c.w / (1.732 * r)) + 1
    for row in range(rows):
        for column in range(columns):
            x = column * 1.732 * r + (0.866 * r if row % 2 else 0)
            y = row * 1.5 * r
            colour = rng.choices((p.accent, p.accent + "99", p.mid, p.glow), (5, 3, 1, 2))[0]
            c.polygon([polar(x, y, r * 0.92, 60 * i + 30) for i in range(6)], colour)
    for _ in range(6):
        _bee(
            c, rng.uniform(8, c.w - 8), rng.uniform(c.h * 0.06, c.h * 0.66), rng.choice((-1, 1)), p
        )
    tall = max(20.0, c.h * 0.2)
    return Room(Box(7, c.h - tall - 7, c.w - 14, tall), p.glow, p.ink)


def _bee(c: Canvas, x: float, y: float, way: int, p: Palette) -> None:
    for turn in (-60, -105):
        wing = polar(x - way * 0.5, y - 2, 4.6, turn if way > 0 else 180 - turn)
        c.oval(*wing, 2.6, 3.6, "#ffffffcc")
    c.oval(x, y, 6, 4, p.ink)
    for k in (-2.4, 0.4):
        c.rect(Box(x + k - 0.7, y - 3.6, 1.5, 7.2), p.accent)
    c.disc(x + way * 5.4, y - 0.3, 2.3, p.ink)
    c.disc(x + way * 6.2, y - 0.9, 0.6, p.paper)


def cards(c: Canvas, rng: Random, p: Palette) -> Room:
    """Draw a fan of cards with marks of their own."""
    c.rect(Box(0, 0, c.w, c.h), p.mid)
    for i in range(12):
        for k in range(12):
            c.disc(c.w * (i + 0.5 * (k % 2)) / 11, c.h * k / 11, 0.9, p.deep + "88")
    pivot = (c.w / 2, c.h * 1.3)
    count = 5
    for i in range(count):
        turn = -90 + 13 * (i - (count - 1) / 2)
        _card(c, pivot, turn, (rng.randrange(4), (p.accent, p.deep)[i % 2]), p)
    return Room(Box(8, c.h * 0.04, c.w - 16, c.h * 0.2), p.paper)


def _card(c: Canvas, pivot: Point, turn: float, mark: tuple[int, str], p: Palette) -> None:
    reach, half = c.h * 0.9, 14.0

    def put(u: float, v: float) -> Point:
        return polar(*polar(*pivot, u, turn), v, turn + 90)

    near = reach - 42
    c.polygon(
        [
            put(near, -half - 1),
            put(reach + 1, -half - 1),
            put(reach + 1, half + 1),
            put(near, half + 1),
        ],
        p.ink,
    )
    c.polygon([put(near, -half), put(reach, -half), put(reach, half), put(near, half)], p.paper)
    kind, colour = mark
    for (u, v), s in (((reach - 5, -half + 5), 2.6), ((reach - 19, 0), 7)):
        x, y = put(u, v)
        if kind == 0:
            c.disc(x, y, s, colour)
        elif kind == 1:
            c.polygon([polar(x, y, s * 1.2, turn + 90 * k) for k in range(4)], colour)
        elif kind == 2:
            c.polygon(
                [polar(x, y, s * (1.2 if k % 2 == 0 else 0.5), turn + 36 * k) for k in range(10)],
                colour,
            )
        else:
            c.ring(x, y, s, colour, s * 0.4)
