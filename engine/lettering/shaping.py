"""Text to glyphs: split into stretches of one direction, script and font, then shaped.

Everything is shaped once at a size of one em and scaled: shaping is linear in the size.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from itertools import accumulate, pairwise
from operator import add
from typing import NamedTuple

from engine.lettering.coverage import Fallbacks, fonts_for
from engine.lettering.faces import Face, open_face
from engine.lettering.ordering import visual_order
from engine.units import MM_PER_POINT
from engine.values import FontRef, Glyph, TextRun

_ONE_SCRIPT = re.compile(r"[ -~\u00a0-\u024f\u2010-\u2026]*")
"""Latin with its punctuation: one stretch, whatever the words."""
_NO_LANGUAGE = "und"
"""So that the same title gives the same glyphs whatever language the machine speaks."""


class Piece(NamedTuple):
    """Glyphs of one font, placed from the start of the piece's baseline."""

    font: FontRef
    gids: tuple[int, ...]
    clusters: tuple[int, ...]
    """Per glyph, the index into the line of the first character it stands for."""
    xs: tuple[float, ...]
    ys: tuple[float, ...]
    """Places in the font's own units, ``upem`` to the em."""
    upem: int
    advance: float
    """In ems, like the reach of the ink."""
    left: float
    """Reach of the ink: ``left`` and ``bottom`` are below zero where it hangs over."""
    bottom: float
    right: float
    top: float
    text: tuple[int, int]
    """The characters of the line that it sets: from, to."""


class Ink(NamedTuple):
    """A line shaped at a size of one em, with the reach of its ink from its baseline."""

    pieces: tuple[Piece, ...]
    """From left to right."""
    advance: float
    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """How much room it takes along the line: its advance, and any ink beyond."""
        return self.right - self.left


@lru_cache(maxsize=8192)
def measure(text: str, font: FontRef, fallbacks: Fallbacks = None) -> Ink:
    """Return ``text`` as one line of ``font``, what it lacks from the first fallback that has it.

    A character that none has comes out as the font's own mark for a missing glyph: ask
    ``check`` first.
    """
    face = open_face(font)
    if _ONE_SCRIPT.fullmatch(text):
        piece = _shape(text, 0, len(text), face)
        if 0 not in piece.gids:
            return Ink((piece,), *piece[6:11])
    return _joined(_pieces(text, face, fallbacks))


def shape(text: str, font: FontRef, size: float) -> TextRun:
    """Return ``text`` as one run of ``font`` at ``size`` points, in visual order.

    Order follows UAX #9; glyphs come from the font alone. Raises FontError for a bad font.
    """
    return run_of(text, _merged(measure(text, font, ()).pieces), size)


def run_of(text: str, piece: Piece, size: float) -> TextRun:
    """Return a piece of the line ``text`` as a run of ``size`` points, its own text cut out."""
    start, end = piece.text
    mm = size * MM_PER_POINT
    unit = mm / piece.upem
    glyphs = tuple(
        Glyph(gid, x * unit, y * unit, cluster - start)
        for gid, x, y, cluster in zip(piece.gids, piece.xs, piece.ys, piece.clusters, strict=True)
    )
    return TextRun(text[start:end], piece.font, size, glyphs, piece.advance * mm)


def runs_of(text: str, ink: Ink, size: float) -> tuple[tuple[TextRun, float], ...]:
    """Return the runs of a measured line at ``size`` points, each with its start in mm.

    Pieces of one font that stand side by side, on paper and in the text, are one run.
    """
    groups: list[list[Piece]] = []
    for piece in ink.pieces:
        group = groups[-1] if groups else []
        if group and group[0].font == piece.font and _side_by_side(group, piece):
            group.append(piece)
        else:
            groups.append([piece])
    runs: list[tuple[TextRun, float]] = []
    x = 0.0
    for group in groups:
        run = run_of(text, _merged(tuple(group)), size)
        runs.append((run, x))
        x += run.width
    return tuple(runs)


def _side_by_side(group: list[Piece], piece: Piece) -> bool:
    spans = sorted(part.text for part in (*group, piece))
    return all(a[1] == b[0] for a, b in pairwise(spans))


def _merged(pieces: tuple[Piece, ...]) -> Piece:
    """Return pieces of one font as a single piece."""
    if len(pieces) == 1:
        return pieces[0]
    upem = pieces[0].upem
    starts = accumulate((piece.advance * upem for piece in pieces), initial=0.0)
    placed = list(zip(pieces, starts, strict=False))
    joined = _joined(pieces)
    return Piece(
        pieces[0].font,
        tuple(gid for piece in pieces for gid in piece.gids),
        tuple(cluster for piece in pieces for cluster in piece.clusters),
        tuple(start + x for piece, start in placed for x in piece.xs),
        tuple(y for piece in pieces for y in piece.ys),
        upem,
        joined.advance,
        joined.left,
        joined.bottom,
        joined.right,
        joined.top,
        (min(piece.text[0] for piece in pieces), max(piece.text[1] for piece in pieces)),
    )


def _joined(pieces: tuple[Piece, ...]) -> Ink:
    starts = list(accumulate((piece.advance for piece in pieces), initial=0.0))
    return Ink(
        pieces,
        starts[-1],
        min((x + piece.left for x, piece in zip(starts, pieces, strict=False)), default=0.0),
        min((piece.bottom for piece in pieces), default=0.0),
        max((x + piece.right for x, piece in zip(starts, pieces, strict=False)), default=0.0),
        max((piece.top for piece in pieces), default=0.0),
    )


def _pieces(text: str, face: Face, fallbacks: Fallbacks) -> tuple[Piece, ...]:
    """Split a line by direction, then by font and script, and shape each part."""
    chosen = fonts_for(text, face, fallbacks)
    pieces: list[Piece] = []
    for start, end, rightwards in visual_order(text):
        parts = list(_alike(text, start, end, chosen))
        for a, b in parts if rightwards else reversed(parts):
            pieces.append(_shape(text, a, b, chosen[a], rightwards=rightwards))
    return tuple(pieces)


def _alike(text: str, start: int, end: int, chosen: list[Face]) -> Iterator[tuple[int, int]]:
    """Yield the parts of one font and one script (UAX #24; what is common goes along)."""
    from unicodedataplus import script

    at, writing = start, ""
    for index in range(start, end):
        here = script(text[index])
        common = here in {"Common", "Inherited", "Unknown"}
        if index > at and (
            chosen[index] is not chosen[at] or not (common or here == writing or not writing)
        ):
            yield at, index
            at, writing = index, ""
        if not common:
            writing = here
    if at < end:
        yield at, end


def _shape(text: str, start: int, end: int, face: Face, *, rightwards: bool = True) -> Piece:
    import uharfbuzz as hb

    buffer = hb.Buffer()
    buffer.add_str(text, start, end - start)
    buffer.language = _NO_LANGUAGE
    buffer.guess_segment_properties()
    buffer.direction = "ltr" if rightwards else "rtl"
    hb.shape(face.hb_font, buffer)
    infos, positions = buffer.glyph_infos, buffer.glyph_positions
    if not infos:
        return Piece(face.ref, (), (), (), (), face.upem, 0.0, 0.0, 0.0, 0.0, 0.0, (start, end))
    gids = tuple([info.codepoint for info in infos])
    x_offsets, y_offsets, advances, _ = zip(*[place.position for place in positions], strict=True)
    starts = list(accumulate(advances, initial=0))
    xs = tuple(map(add, starts, x_offsets)) if any(x_offsets) else tuple(starts[:-1])
    boxes = [face.boxes[gid] for gid in gids]
    if any(y_offsets):
        top = max(map(add, y_offsets, [box.top for box in boxes]))
        bottom = min(map(add, y_offsets, [box.bottom for box in boxes]))
    else:
        top = max([box.top for box in boxes])
        bottom = min([box.bottom for box in boxes])
    return Piece(
        face.ref,
        gids,
        tuple([info.cluster for info in infos]),
        xs,
        y_offsets,
        face.upem,
        starts[-1] / face.upem,
        # Only the glyphs at the ends can hang over them; three make room for marks.
        min(map(add, xs, [box.left for box in boxes[:3]])) / face.upem,
        bottom / face.upem,
        max(map(add, xs[-3:], [box.right for box in boxes[-3:]])) / face.upem,
        top / face.upem,
        (start, end),
    )
