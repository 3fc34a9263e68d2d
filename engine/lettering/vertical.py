"""Lines set upright, top down: which characters stand and which lie (UAX #50).

Worked out in the frame of a line that runs along x, as on a spine read downwards: what
stands upright on the shelf is turned a quarter to the left in it, and the middle of the
column is the baseline.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from engine.lettering.coverage import fonts_for
from engine.lettering.faces import Face
from engine.lettering.shaping import Piece, Reach, ShapedLine, joined, pieces
from engine.model import FontRef


def measure_upright(text: str, face: Face, fallbacks: tuple[FontRef, ...]) -> ShapedLine:
    """Return ``text`` as a line set top down; see ``measure``."""
    return joined(tuple(_column(text, fonts_for(text, face, fallbacks))))


def stands(char: str, face: Face) -> bool:
    """Return whether a character stands upright in a line set top down.

    By Vertical_Orientation: U and Tu stand, R lies, and Tr lies unless the font has a form
    of it for lines set top down (UAX #50, 3.1).
    """
    from unicodedataplus import vertical_orientation

    orientation = vertical_orientation(char)
    return orientation in {"U", "Tu"} or (orientation == "Tr" and _has_vertical_form(char, face))


def _column(text: str, chosen: list[Face]) -> Iterator[Piece]:
    start = 0
    for end in range(1, len(text) + 1):
        if end < len(text) and _together(text, end, chosen):
            continue
        if stands(text[start], chosen[start]):
            yield _standing(text, start, end, chosen[start])
        else:
            for piece in pieces(text, start, end, chosen):
                middle = (piece.face.rise + piece.face.fall) / 2
                yield piece._replace(lift=-middle)
        start = end


def _together(text: str, index: int, chosen: list[Face]) -> bool:
    from unicodedata import combining

    before, here = chosen[index - 1], chosen[index]
    if combining(text[index]):
        return True
    upright = stands(text[index], here)
    return upright == stands(text[index - 1], before) and (not upright or here is before)


def _standing(text: str, start: int, end: int, face: Face) -> Piece:
    buffer = face.shaped(text, start, end, "ttb")
    gids = [info.codepoint for info in buffer.glyph_infos]
    left = bottom = right = top = y = 0
    steps: list[int] = []
    for gid, place in zip(gids, buffer.glyph_positions, strict=True):
        across, up, _, down = place.position
        box = face.boxes[gid]
        # Along the line is down the column; above it is to the right.
        left = min(left, -(y + up + box.top))
        right = max(right, -(y + up + box.bottom))
        bottom, top = min(bottom, across + box.left), max(top, across + box.right)
        y += down
        steps.append(-down)
    reach = Reach(*(side / face.upem for side in (left, bottom, right, top)))
    advance = -y / face.upem
    return Piece(face, buffer, start, end, advance, reach, tuple(steps), 0 not in gids, turn=90)


@lru_cache(maxsize=1024)
def _has_vertical_form(char: str, face: Face) -> bool:
    infos = face.shaped(char, 0, 1, "ttb").glyph_infos
    return bool(infos) and infos[0].codepoint not in {0, face.glyph(char)}
