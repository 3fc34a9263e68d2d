"""The border around a picture: a uniform frame, or the scanner's background around a skewed scan.

From each side of the picture, how deep does the background reach, row by row? Where there is a
border, most rows end at one straight line and end there in a step. A sky or a dark room, uniform
at the edge too, ends raggedly or fades. Two sides that agree make a border; one is no more than
a bar along a side.
"""

from __future__ import annotations

from math import atan, degrees
from typing import TYPE_CHECKING, NamedTuple

from engine.artwork.pixels import distance
from engine.model import Trim

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from engine.artwork.pixels import Pixels

REACH = 0.45
"""How deep a border is looked for: part of the picture's side."""

STEP = 0.045
"""The least difference in OKLab between a border and what it frames: two just noticeable ones."""

CLEAR = 0.5
"""Part of the rows that must end at the line."""

FAINT = 0.2
"""The same for the other sides of a border that two sides have shown: there the picture may well
have the border's own colour at its edge."""

DUST = 0.12
"""Part of the rows that may end short of the line: dust and hairs on the glass."""

ONE_COLOUR = 0.09
"""How far the colour of one border may stray, and two sides of it may differ, in OKLab."""

MAX_TURN = 6.0
"""Degrees: a scan that lies more askew was meant to."""

LEAST_TURN = 0.12
"""Degrees: less is not worth the loss of a second scaling; 0.1 mm on 57."""

SAME_TURN = 0.35
"""Degrees by which two sides of one scan may seem to differ in turn."""


MAX_ASKEW = 20.0
"""Degrees: what leans more than that is a slope in the picture itself."""

LEAST_ASKEW = 1.0
"""Degrees: what is left beyond that after straightening is seen at once."""

SLANTED = 8.0
"""Degrees by which the sides of one thing that is seen at a slant may differ in turn."""


class BorderLine(NamedTuple):
    """Where the background ends, seen from one side of the picture."""

    depth: float
    """In pixels from that side, at the middle of the side."""
    slope: float
    """Pixels that the depth grows for each pixel along the side."""
    inner: float
    """The depth at which hardly any background is left, in pixels."""
    share: float
    """Part of the rows that end at it."""
    colour: tuple[float, float, float]
    """The background in OKLab."""


SIDES = ("left", "top", "right", "bottom")


def seen_from(lab: Pixels, side: str) -> Pixels:
    """Return ``lab`` as a view whose rows run inwards from ``side``; rows in reading order."""
    return {
        "left": lab,
        "right": lab[:, ::-1],
        "top": lab.transpose(1, 0, 2),
        "bottom": lab.transpose(1, 0, 2)[:, ::-1],
    }[side]


def find_turn(lab: Pixels) -> float:
    """Return degrees counter-clockwise that straighten the scan in ``lab``; 0 where unclear."""
    lines = {side: find_line(seen_from(lab, side), MAX_TURN) for side in SIDES}
    turns = {side: _turn(side, line) for side, line in lines.items() if line is not None}
    middle = sorted(turns.values())[len(turns) // 2] if turns else 0.0
    agreed = [turn for turn in turns.values() if abs(turn - middle) <= SAME_TURN]
    if len(agreed) < 2 or len(agreed) < len(turns) - 1:
        return 0.0
    turn = sum(agreed) / len(agreed)
    return round(turn, 2) if abs(turn) >= LEAST_TURN else 0.0


def lies_askew(lab: Pixels) -> bool:
    """Return whether what the straightened ``lab`` shows still lies slanted on its ground.

    A cover photographed on a table is one: three sides show where it ends, but no turn makes all
    of them straight, since it is seen at a slant or leans too far.
    """
    lines = ((side, find_line(seen_from(lab, side), MAX_ASKEW)) for side in SIDES)
    turns = [_turn(side, line) for side, line in lines if line is not None]
    if len(turns) < len(SIDES) - 1 or max(turns) - min(turns) > SLANTED:
        return False
    return max(map(abs, turns)) > LEAST_ASKEW


def _turn(side: str, line: BorderLine) -> float:
    """Return the degrees that straighten a scan whose ``side`` ends at ``line``.

    Down the left side a growing depth leans to the right, so the scan is turned counter-clockwise
    and has to go back; from the opposite side, or along the top, the sign is the other one.
    """
    angle = degrees(atan(line.slope))
    return -angle if side in {"left", "bottom"} else angle


def find_border(lab: Pixels) -> Trim:
    """Return the uniform border around the straight picture ``lab``; all 0 where there is none."""
    height, width = lab.shape[:2]
    found = {side: find_line(seen_from(lab, side), 0.0) for side in SIDES}
    lines = {side: line for side, line in found.items() if line is not None}
    alike = {
        side: [other for other, that in lines.items() if _alike(this, that)]
        for side, this in lines.items()
    }
    frame = max(alike.values(), key=len, default=[])
    if len(frame) < 2:
        return Trim()
    for side in SIDES:
        faint = None if side in lines else find_line(seen_from(lab, side), 0.0, FAINT)
        if faint is not None and _alike(faint, lines[frame[0]]):
            lines[side] = faint
            frame.append(side)
    spans = {"left": width, "right": width, "top": height, "bottom": height}
    return Trim(**{side: lines[side].inner / spans[side] for side in frame})


def _alike(one: BorderLine, other: BorderLine) -> bool:
    return sum((a - b) ** 2 for a, b in zip(one.colour, other.colour, strict=True)) <= ONE_COLOUR**2


def find_line(rows: Pixels, max_turn: float, clear: float = CLEAR) -> BorderLine | None:
    """Return where the background at the start of ``rows`` ends; None where no clear line shows."""
    import numpy as np

    count, length = rows.shape[:2]
    reach = int(length * REACH)
    if count < 20 or reach < 10:
        return None
    ground = np.median(rows[:, :3], axis=1)
    colour = np.median(ground, axis=0)
    strays = distance(ground, colour) > ONE_COLOUR
    if strays.mean() > DUST:
        return None
    ground[strays] = colour
    away = distance(rows[:, :reach], _smoothed(ground)[:, None])
    step = max(STEP, 4.0 * float(np.median(away[:, :3])))
    depths = _first_ends(away > step)
    ended = depths < reach - 3
    if ended.mean() < 0.4:
        return None
    sharp = ended & (_rise(away, depths) > step)
    line = _fit(depths, ended, sharp, max_turn, colour)
    return line if line is not None and line.share >= clear else None


def _smoothed(ground: Pixels) -> Pixels:
    """Return the background row by row without its noise, but with the shading of the lamp."""
    import numpy as np

    wide = max(1, len(ground) // 16)
    padded = np.pad(ground, ((wide, wide), (0, 0)), mode="edge")
    sums = np.cumsum(np.pad(padded, ((1, 0), (0, 0))), axis=0)
    return np.asarray((sums[2 * wide + 1 :] - sums[: -2 * wide - 1]) / (2 * wide + 1))


def _first_ends(beyond: NDArray[np.bool_]) -> NDArray[np.int64]:
    """Return for each row where two pixels running lie beyond the background; else its length."""
    import numpy as np

    twice = beyond[:, :-1] & beyond[:, 1:]
    first = twice.argmax(axis=1)
    first[~twice.any(axis=1)] = beyond.shape[1]
    return np.asarray(first, dtype=np.int64)


def _rise(away: Pixels, depths: NDArray[np.int64]) -> Pixels:
    """Return how much each row's colour moves across its own end, over five pixels."""
    import numpy as np

    index = np.arange(len(away))
    last = away.shape[1] - 1
    return np.asarray(
        away[index, np.minimum(depths + 2, last)] - away[index, np.maximum(depths - 2, 0)]
    )


def _fit(
    depths: NDArray[np.int64],
    ended: NDArray[np.bool_],
    sharp: NDArray[np.bool_],
    max_turn: float,
    colour: Pixels,
) -> BorderLine | None:
    """Return the straight line on which most rows end sharply, by trying every turn."""
    import numpy as np

    places = np.arange(len(depths), dtype=np.float64) - (len(depths) - 1) / 2
    x, y = places[sharp], depths[sharp].astype(np.float64)
    if len(y) < 20:
        return None
    slope, depth = _most_agreed(x, y, max_turn)
    for _ in range(3):
        near = np.abs(y - depth - slope * x) <= 1.6
        if max_turn:
            slope, depth = np.polyfit(x[near], y[near], 1)
        else:
            depth = float(np.median(y[near]))
    rest = depths - depth - slope * places
    if (rest[ended] < -2.0).mean() > DUST or depth < 2.0:
        return None
    inner = depth + float(np.quantile(rest[np.abs(rest) <= 3.0], 0.9)) + 1.5
    red, green, blue = colour
    share = float((np.abs(rest[ended]) <= 1.6).mean())
    return BorderLine(
        float(depth), float(slope), float(inner), share, (float(red), float(green), float(blue))
    )


def _most_agreed(x: Pixels, y: Pixels, max_turn: float) -> tuple[float, float]:
    """Return slope and depth of the line that most points (x, y) lie within a pixel of."""
    import numpy as np

    limit = np.tan(np.radians(max_turn))
    slopes = np.linspace(-limit, limit, 241) if max_turn else np.zeros(1)
    best = (0, 0.0, 0.0)
    for slope in slopes:
        rest = np.round(y - slope * x).astype(np.int64)
        low = int(rest.min())
        counts = np.bincount(rest - low)
        counts = counts + np.append(counts[1:], 0)
        place = int(counts.argmax())
        if counts[place] > best[0]:
            best = (int(counts[place]), float(slope), low + place + 0.5)
    return best[1], best[2]
