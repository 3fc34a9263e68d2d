"""A printer that errs, simulated, and a person with a good ruler.

The printer takes the pixels that PDFium makes of a page and puts them on the paper scaled, turned,
leaning and shifted: what feed rollers and carriages do (the affine model is common practice, no
published source). The ruler finds lines in those pixels, to a few hundredths of a millimetre.
"""

from __future__ import annotations

from math import cos, dist, radians, sin
from typing import NamedTuple

import numpy as np

from engine.artwork import page_pixels
from engine.model import Size
from engine.press import CheckFigures, CheckLines

PER_MM = 10
"""Pixels to the millimetre."""
Point = tuple[float, float]


class Printer(NamedTuple):
    """What it does to the front and the back of a page; angles in degrees, shifts in mm."""

    across: float
    up: float
    turn: float
    lean: float
    shift: Point
    back: Point = (0.0, 0.0)

    def lands(self, point: Point, *, back: bool = False) -> Point:
        """Return where a point of the page comes to lie on the paper."""
        a, b = radians(self.turn), radians(self.turn + self.lean)
        dx, dy = self.back if back else self.shift
        x, y = point[0] * self.across, point[1] * self.up
        return x * cos(a) - y * sin(b) + dx, x * sin(a) + y * cos(b) + dy

    def comes_from(self, point: Point, *, back: bool = False) -> Point:
        """Return the point of the page that comes to lie there: by Cramer's rule."""
        a, b = radians(self.turn), radians(self.turn + self.lean)
        dx, dy = self.back if back else self.shift
        x, y = point[0] - dx, point[1] - dy
        area = cos(a) * cos(b) + sin(a) * sin(b)
        return (
            (x * cos(b) + y * sin(b)) / area / self.across,
            (-x * sin(a) + y * cos(a)) / area / self.up,
        )


TRUE = Printer(1.0, 1.0, 0.0, 0.0, (0.0, 0.0))


class Paper(NamedTuple):
    """A printed side: the page's pixels from the top, and where each came from."""

    page: np.ndarray
    size: Size
    printer: Printer
    back: bool

    def profile(self, at: Point, across: Point, reach: float) -> tuple[np.ndarray, np.ndarray]:
        """Return places in mm along a line through a point, and how dark it is there, 0 to 1."""
        places = np.arange(-reach, reach + 1e-9, 0.5 / PER_MM)
        x0, y0 = self.printer.comes_from(at, back=self.back)
        further = at[0] + across[0], at[1] + across[1]
        x1, y1 = self.printer.comes_from(further, back=self.back)
        rows, columns = self.page.shape
        # PDFium rounds a page up to whole pixels, and draws it so much larger.
        wide, high = columns / self.size.width, rows / self.size.height
        x = (x0 + places * (x1 - x0)) * wide - 0.5
        y = (self.size.height - y0 - places * (y1 - y0)) * high - 0.5
        left, top = np.floor(x).astype(int), np.floor(y).astype(int)
        right, down = x - left, y - top

        def dark(i: np.ndarray, j: np.ndarray) -> np.ndarray:
            found = 1 - self.page[np.clip(i, 0, rows - 1), np.clip(j, 0, columns - 1)] / 255
            return np.where((i >= 0) & (i < rows) & (j >= 0) & (j < columns), found, 0.0)

        above = dark(top, left) * (1 - right) + dark(top, left + 1) * right
        below = dark(top + 1, left) * (1 - right) + dark(top + 1, left + 1) * right
        return places, above * (1 - down) + below * down

    def line(self, at: Point, across: Point, reach: float) -> Point:
        """Return where the middle of a line is that crosses a profile: its centre of darkness."""
        places, dark = self.profile(at, across, reach)
        assert dark.max() > 0.2, f"no line near {at}"
        off = float((places * dark).sum() / dark.sum())
        return at[0] + off * across[0], at[1] + off * across[1]


def printed_on(
    pdf: bytes, size: Size, printer: Printer, page: int = 0, *, back: bool = False
) -> Paper:
    """Return what comes out when ``printer`` prints a page on paper of its size."""
    picture = page_pixels(pdf, page, 25.4 * PER_MM).convert("L")
    return Paper(np.asarray(picture), size, printer, back)


def measured(paper: Paper, lines: CheckLines) -> CheckFigures:
    """Measure a check page, looking for each line where it is seen to be, as a person does.

    Points are met by laying the ruler along two lines each: the lines are found at two places.
    """
    at = points_of(paper, lines)
    return CheckFigures(
        level=dist(at["A"], at["B"]),
        upright=dist(at["A"], at["C"]),
        rising=dist(at["A"], at["D"]),
        falling=dist(at["E"], at["F"]),
        left_below=at["A"][0],
        left_above=at["C"][0],
        bottom=at["A"][1],
    )


def points_of(paper: Paper, lines: CheckLines) -> dict[str, Point]:
    """Return where the lettered points lie on the paper: each where two lines meet."""
    x, y = lines.corner
    wide, high, side = lines.across, lines.up, lines.square
    near = _near(paper, lines)
    upright = _through(paper, near, [(x, y + 15.0), (x, y + _far(high))], (1, 0))
    level = _through(paper, near, [(x + 15.0, y), (x + _far(wide), y)], (0, 1))
    end_b = _through(paper, near, [(x + wide, y + 1.6), (x + wide, y + 2.6)], (1, 0), 0.8)
    end_c = _through(paper, near, [(x + 1.6, y + high), (x + 2.6, y + high)], (0, 1), 0.8)
    cross_u = _through(
        paper, near, [(x + side, y + side + 2.4), (x + side, y + side - 2.4)], (1, 0), 0.6
    )
    cross_l = _through(
        paper, near, [(x + side - 2.4, y + side), (x + side + 2.4, y + side)], (0, 1), 0.6
    )
    stub_e = _through(paper, near, [(x + 3, y + side - 3), (x + 7, y + side - 7)], (0, 1), 0.8)
    stub_f = _through(paper, near, [(x + side - 3, y + 3), (x + side - 7, y + 7)], (0, 1), 0.8)
    return {
        "A": _meet(upright, level),
        "B": _meet(end_b, level),
        "C": _meet(upright, end_c),
        "D": _meet(cross_u, cross_l),
        "E": _meet(upright, stub_e),
        "F": _meet(level, stub_f),
    }


def _far(length: float) -> float:
    """Return a place towards the end of a bar that is midway between two strokes across it."""
    return length // 10 * 10 - 15.0


def _part(length: float) -> float:
    """Return such a place that even a bar which came out too long has no stroke near it."""
    return length * 0.3 // 10 * 10 + 5.0


def _near(paper: Paper, lines: CheckLines) -> Printer:
    """Return roughly where everything lies: from the two bars, looked for over 6 mm."""
    x, y = lines.corner
    left = [paper.line((x, at), (1, 0), 2.9) for at in (y + 15.0, y + _part(lines.up))]
    foot = [paper.line((at, y), (0, 1), 2.9) for at in (x + 15.0, x + _part(lines.across))]
    corner = _meet(tuple(left), tuple(foot))
    (l0, l1), (f0, f1) = left, foot
    turn = float(np.degrees(np.arctan2(f1[1] - f0[1], f1[0] - f0[0])))
    upright = float(np.degrees(np.arctan2(l0[0] - l1[0], l1[1] - l0[1])))
    rough = Printer(1.0, 1.0, turn, upright - turn, (0.0, 0.0))
    at = rough.lands((x, y))
    # How long the bars came out is seen from their ends: the last stroke found going outwards.
    rough = rough._replace(shift=(corner[0] - at[0], corner[1] - at[1]))
    across = _last(paper, rough, (x, y + 1.6), (lines.across, 0.0))
    up = _last(paper, rough, (x + 1.6, y), (0.0, lines.up))
    rough = rough._replace(across=across, up=up, shift=(0.0, 0.0))
    at = rough.lands((x, y))
    return rough._replace(shift=(corner[0] - at[0], corner[1] - at[1]))


def _last(paper: Paper, rough: Printer, start: Point, along: Point) -> float:
    """Return the scale by which the end stroke of a bar lies near where it should."""
    length = max(along)
    end = rough.lands((start[0] + along[0], start[1] + along[1]))
    origin = rough.lands(start)
    unit = ((end[0] - origin[0]) / length, (end[1] - origin[1]) / length)
    places, dark = paper.profile(end, unit, 0.025 * length)
    seen = places[dark > 0.2]
    assert seen.size, "the end of the bar is not seen"
    return float(1 + seen[-1] / length)


def _through(
    paper: Paper, near: Printer, spots: list[Point], across: Point, reach: float = 1.0
) -> tuple[Point, Point]:
    first, second = (paper.line(near.lands(spot), across, reach) for spot in spots)
    return first, second


def _meet(one: tuple[Point, ...], other: tuple[Point, ...]) -> Point:
    (x1, y1), (x2, y2) = one
    (x3, y3), (x4, y4) = other
    area = (x1 - x2) * (y3 - y4) - (y1 - y2) * (x3 - x4)
    a, b = x1 * y2 - y1 * x2, x3 * y4 - y3 * x4
    return (a * (x3 - x4) - (x1 - x2) * b) / area, (a * (y3 - y4) - (y1 - y2) * b) / area
