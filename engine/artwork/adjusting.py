"""Small changes a person makes to how a picture lies, held within what makes sense."""

from __future__ import annotations

from typing import Literal

import msgspec

from engine.model import Art, Trim

USUAL_SPLIT = (0.475, 0.525)
"""Where the spine of a keep case's wrap lies: 14 of 273 mm, in the middle (common practice)."""

LEAST = 0.005
"""The narrowest spine, and the narrowest strip beside one, as part of the width."""

MOST_TRIM = 0.9
"""How much two opposite sides may be trimmed together."""

CROP_STEP = 0.1
"""How far one step moves the crop, as a fraction of the picture."""

LINE_STEP = 0.005
"""How far one step moves a trimmed side or a line of the spine, as a fraction of the picture."""

TURN_STEP = 0.25
"""How far one step turns the picture, in degrees."""

PictureSide = Literal["left", "top", "right", "bottom"]


def move_focus(art: Art, right: float, down: float) -> Art:
    """Return ``art`` with the point kept in sight moved by fractions of the trimmed picture."""
    x, y = art.focus
    return msgspec.structs.replace(art, focus=(_held(x + right), _held(y + down)))


def move_split(art: Art, begins: float = 0.0, ends: float = 0.0) -> Art:
    """Return ``art`` with where the spine begins and ends moved by fractions of the width.

    A picture that was not split is split where a keep case's spine would be, then moved.
    """
    first, second = art.split or USUAL_SPLIT
    first = _held(first + begins, LEAST, 1.0 - 2 * LEAST)
    second = _held(second + ends, first + LEAST, 1.0 - LEAST)
    return msgspec.structs.replace(art, split=(first, second))


def join(art: Art) -> Art:
    """Return ``art`` taken for one picture rather than a flat cover."""
    return msgspec.structs.replace(art, split=None)


def move_trim(art: Art, side: PictureSide, by: float) -> Art:
    """Return ``art`` with the trim of one ``side`` moved inwards by a fraction of the picture."""
    across = side in {"left", "right"}
    pair = ("left", "right") if across else ("top", "bottom")
    other = getattr(art.trim, pair[1] if side == pair[0] else pair[0])
    depth = _held(getattr(art.trim, side) + by, 0.0, MOST_TRIM - other)
    return msgspec.structs.replace(art, trim=Trim(**{**art.trim._asdict(), side: depth}))


def turn_by(art: Art, degrees: float) -> Art:
    """Return ``art`` turned further by ``degrees`` counter-clockwise, between -45 and 45."""
    return msgspec.structs.replace(art, turn=round(_held(art.turn + degrees, -45.0, 45.0), 2))


def _held(value: float, low: float = 0.0, high: float = 1.0) -> float:
    return min(max(value, low), high)
