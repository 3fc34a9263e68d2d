"""Text to glyphs: split into stretches of one direction, script and font, then shaped.

Everything is shaped once at a size of one em and scaled: shaping is linear in the size.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING, NamedTuple

from engine.lettering.coverage import fonts_for
from engine.lettering.faces import Face, open_face
from engine.lettering.ordering import visual_order
from engine.model import FontRef, Glyph, TextRun
from engine.model.units import MM_PER_POINT

if TYPE_CHECKING:
    import uharfbuzz as hb
    from fontTools.misc.transform import Transform


class Reach(NamedTuple):
    """How far ink goes from the start of a baseline, in ems: left and bottom may be negative."""

    left: float
    bottom: float
    right: float
    top: float


class Piece(NamedTuple):
    """Part of a line in one font, direction and script, shaped at a size of one em."""

    face: Face
    buffer: hb.Buffer
    """Holds the glyphs: they are taken out when a run is wanted, not for every size tried."""
    start: int
    end: int
    """The characters of the line that it sets."""
    advance: float
    reach: Reach
    steps: tuple[int, ...]
    """The advance of each glyph in the font's units, from left to right."""
    whole: bool
    """Whether the font has a glyph for all of it."""
    turn: int = 0
    """Degrees counter-clockwise that its glyphs stand turned in the line."""
    lift: float = 0.0
    """How far its baseline lies above the line's, in ems."""


class PlacedRun(NamedTuple):
    """A run and where its baseline starts: on its line, or in the reading frame of its edge."""

    run: TextRun
    x: float
    """In mm, as ``y`` is."""
    y: float
    turn: int = 0
    """Degrees counter-clockwise that the run stands turned about its start."""
    squeeze: float = 1.0
    """What its length is scaled by, where its font has no narrower drawing of its own."""

    @property
    def at(self) -> Transform:
        """What takes the start of the run's baseline, in mm along it, to its place."""
        from math import radians

        from fontTools.misc.transform import Transform

        placed = Transform().translate(self.x, self.y).rotate(radians(self.turn))
        return placed.scale(self.squeeze, 1.0)


class ShapedLine(NamedTuple):
    """A line shaped at a size of one em."""

    pieces: tuple[Piece, ...]
    """From left to right."""
    advance: float
    reach: Reach
    width: float
    """How much room its ink takes along the line."""
    whole: bool


def measure(text: str, face: Face, fallbacks: tuple[FontRef, ...]) -> ShapedLine:
    """Return ``text`` as one line of ``face``, what it lacks from the first fallback that has it.

    A character that none has leaves a gap, and the line is not whole.
    """
    if text and face.simple.issuperset(text) and (ink := _simple(text, face)):
        return ink
    return joined(tuple(pieces(text, 0, len(text), fonts_for(text, face, fallbacks))))


def shape(text: str, font: FontRef, size: float) -> TextRun:
    """Return ``text`` as one run of ``font`` at ``size`` points, in visual order.

    Order follows UAX #9; glyphs come from the font alone. Raises FontError for a bad font.
    """
    runs = [_run(text, piece, size) for piece in measure(text, open_face(font), ()).pieces]
    return _merged(text, runs) if runs else TextRun("", font, size, (), 0.0)


def runs_of(text: str, ink: ShapedLine, size: float) -> Iterator[PlacedRun]:
    """Yield the runs of a measured line at ``size`` points.

    Pieces of one font that stand side by side, on paper and in the text, are one run.
    """
    x = 0.0
    for group in _groups(ink.pieces):
        start, end = min(p.start for p in group), max(p.end for p in group)
        run = _merged(text[start:end], [_run(text, piece, size) for piece in group], start)
        yield PlacedRun(run, x, group[0].lift * size * MM_PER_POINT, group[0].turn)
        x += run.width


def _groups(pieces: tuple[Piece, ...]) -> list[list[Piece]]:
    if len({piece.face for piece in pieces}) == 1 and not any(piece.turn for piece in pieces):
        return [list(pieces)]
    groups: list[list[Piece]] = []
    for piece in pieces:
        last = groups[-1][-1] if groups else piece
        if groups and last.face is piece.face and last.turn == piece.turn == 0:
            spans = sorted((p.start, p.end) for p in (*groups[-1], piece))
            if all(a[1] == b[0] for a, b in pairwise(spans)):
                groups[-1].append(piece)
                continue
        groups.append([piece])
    return groups


def _run(text: str, piece: Piece, size: float) -> TextRun:
    """Return a piece as a run whose clusters count from the start of the line."""
    unit = size * MM_PER_POINT / piece.face.upem
    glyphs: list[Glyph] = []
    x = y = 0
    for info, place in zip(piece.buffer.glyph_infos, piece.buffer.glyph_positions, strict=True):
        across, up, along, down = place.position
        if info.codepoint:  # a missing glyph leaves a gap; its box is never printed
            at = (x + across) * unit, (y + up) * unit
            glyphs.append(Glyph(info.codepoint, *at, info.cluster))
        x, y = x + along, y + down
    return TextRun(text, piece.face.ref, size, tuple(glyphs), piece.advance * size * MM_PER_POINT)


def _merged(text: str, runs: list[TextRun], start: int = 0) -> TextRun:
    """Return runs of one font as one run of ``text``, which begins at cluster ``start``."""
    glyphs = tuple(
        Glyph(g.gid, x + g.x, g.y, g.cluster - start)
        for run, x in zip(runs, accumulate((run.width for run in runs), initial=0.0), strict=False)
        for g in run.glyphs
    )
    return TextRun(text, runs[0].font, runs[0].size, glyphs, sum(run.width for run in runs))


def joined(pieces: tuple[Piece, ...]) -> ShapedLine:
    """Return pieces that follow each other as one line."""
    starts = list(accumulate((piece.advance for piece in pieces), initial=0.0))
    reaches = [(x, piece.reach) for x, piece in zip(starts, pieces, strict=False)]
    reach = Reach(
        min((x + reach.left for x, reach in reaches), default=0.0),
        min((piece.lift + piece.reach.bottom for piece in pieces), default=0.0),
        max((x + reach.right for x, reach in reaches), default=0.0),
        max((piece.lift + piece.reach.top for piece in pieces), default=0.0),
    )
    whole = all(piece.whole for piece in pieces)
    return ShapedLine(pieces, starts[-1], reach, reach.right - reach.left, whole)


def pieces(text: str, start: int, end: int, chosen: list[Face]) -> Iterator[Piece]:
    """Split part of a line by direction, then by font and script, and shape each.

    ``chosen`` is the font of each character of ``text``.
    """
    for first, last, rightwards in visual_order(text[start:end]):
        parts = list(_alike(text, start + first, start + last, chosen))
        for a, b in parts if rightwards else reversed(parts):
            yield _shaped(text, a, b, chosen[a], rightwards=rightwards)


def _alike(text: str, start: int, end: int, chosen: list[Face]) -> Iterator[tuple[int, int]]:
    """Yield the parts of one font and one script (UAX #24; what is common goes along)."""
    from unicodedataplus import script

    at, writing = start, ""
    for index in range(start, end):
        here = script(text[index])
        own = "" if here in {"Common", "Inherited", "Unknown"} else here
        if index > at and (chosen[index] is not chosen[at] or (own and writing and own != writing)):
            yield at, index
            at, writing = index, ""
        writing = own or writing
    yield at, end


def _simple(text: str, face: Face) -> ShapedLine | None:
    """Return a line of letters that follow each other one by one; None where some are joined.

    Few of them leave the band between the font's rise and fall, and only the first or last
    can hang over the ends of the line: most titles are measured by their advances alone.
    """
    buffer = face.shaped(text, 0, len(text), "ltr")
    steps = tuple([place.x_advance for place in buffer.glyph_positions])
    if len(steps) != len(text):
        return None
    upem, advance = face.upem, sum(steps)
    left = face.inks[text[0]].left / upem
    right = (advance - steps[-1] + face.inks[text[-1]].right) / upem
    bottom, top = face.fall, face.rise
    if not face.tall.isdisjoint(text):
        for box in [face.inks[char] for char in face.tall.intersection(text)]:
            bottom, top = min(bottom, box.bottom / upem), max(top, box.top / upem)
    reach = Reach(left, bottom, right, top)
    piece = Piece(face, buffer, 0, len(text), advance / upem, reach, steps, whole=True)
    return ShapedLine((piece,), piece.advance, reach, right - left, whole=True)


def _shaped(text: str, start: int, end: int, face: Face, *, rightwards: bool) -> Piece:
    buffer = face.shaped(text, start, end, "ltr" if rightwards else "rtl")
    steps = tuple([place.x_advance for place in buffer.glyph_positions])
    whole = all(info.codepoint for info in buffer.glyph_infos)
    reach = exact_reach(buffer, face)
    return Piece(face, buffer, start, end, sum(steps) / face.upem, reach, steps, whole)


def exact_reach(buffer: hb.Buffer, face: Face) -> Reach:
    """Return how far the ink of a horizontal piece goes, glyph by glyph."""
    boxes = [face.boxes[info.codepoint] for info in buffer.glyph_infos]
    places = [place.position for place in buffer.glyph_positions]
    starts = accumulate([along for _, _, along, _ in places], initial=0)
    xs = [x + across for x, (across, _, _, _) in zip(starts, places, strict=False)]
    ys = [up for _, up, _, _ in places]
    left = min([x + box.left for x, box in zip(xs, boxes, strict=True)], default=0)
    bottom = min([y + box.bottom for y, box in zip(ys, boxes, strict=True)], default=0)
    right = max([x + box.right for x, box in zip(xs, boxes, strict=True)], default=0)
    top = max([y + box.top for y, box in zip(ys, boxes, strict=True)], default=0)
    return Reach(*(side / face.upem for side in (left, bottom, right, top)))
