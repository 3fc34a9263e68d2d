"""The operators of a PDF page (ISO 32000-1, 8 and 9): what a drawing becomes on its way there.

Everything is in points of 1/72 inch from the page's lower left; no unit is set up for the
page, so every length in it can be read off directly.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from hashlib import sha256
from itertools import pairwise
from math import pi, tan

from fontTools.misc.transform import Transform
from fontTools.pens.basePen import BasePen

from engine.model import FontRef, Glyph, TextRun
from engine.model.units import points
from engine.press.pens.base import Rings
from engine.press.pens.spelling import Letter, Spelt, spell
from engine.press.pens.typeface import Codes, Typeface

Point = tuple[float, float]

HAIRLINE = 0.1
"""Width of marks in mm: about 2.4 dots at 600 dots to the inch."""
HALO = 0.3
"""Width in mm of the white line under a mark, so that it shows on dark bleed too."""


DASHES = {False: (2.0, 0.6, 0.3, 0.6, 0.3, 0.6), True: (2.0, 1.0)}
"""Lengths in mm of strokes and gaps of a fold line, by whether it is a valley: a dash and two dots
for a mountain, dashes for a valley, as folding diagrams have it (the signs of Yoshizawa and
Randlett; S. Randlett, The Art of Origami, 1961; from memory, the lengths are ours)."""


class PageFont:
    """A font of the file: what it is called on the pages, and the codes given out in it."""

    def __init__(self, name: str, face: Typeface | None) -> None:
        """Name a font; a ``face`` of None is the one whose glyphs have no outline."""
        self.name = name
        self.face = face
        self.codes = Codes()


class Resources:
    """The fonts and images that the pages of one file share, in the order of their use."""

    def __init__(self) -> None:
        self.fonts: dict[FontRef | None, PageFont] = {}
        self.images: dict[str, bytes] = {}

    def font(self, ref: FontRef | None) -> PageFont:
        """Return the font for ``ref``; None is for text that is not seen."""
        if ref not in self.fonts:
            face = None if ref is None else Typeface(ref)
            self.fonts[ref] = PageFont(f"F{len(self.fonts) + 1}", face)
        return self.fonts[ref]

    def image(self, data: bytes) -> str:
        """Return the name of an image; the same file is kept once."""
        name = "I" + sha256(data).hexdigest()[:16]
        self.images[name] = data
        return name


class PdfPen:
    """Draws on one page; made by ``PdfDocument.page``."""

    def __init__(self, resources: Resources) -> None:
        self._resources = resources
        self._code: list[str] = []

    def content(self) -> bytes:
        """Return what was drawn, as a content stream."""
        return "\n".join(self._code).encode("ascii")

    def fill(self, rings: Rings, colour: str) -> None:
        """Cover the inside of ``rings`` with ``colour``."""
        self._code.append(f"{_paint(colour)} {_path(rings)} f*")

    def image(self, data: bytes, at: Transform) -> None:
        """Place a JPEG or PNG, grey or RGB, without loss."""
        name = self._resources.image(data)
        scaled = _matrix([points(number) for number in at])
        self._code.append(f"q {scaled} cm /{name} Do Q")

    def text(self, run: TextRun, at: Transform, colour: str) -> None:
        """Set ``run`` as text in its own font.

        Where its outlines are not TrueType it is drawn as outlines, the text unseen beneath.
        So is a glyph that says nothing: readers would take it for one more character.
        """
        font = self._resources.font(run.font)
        face = font.face
        if face is None or not run.glyphs:
            return
        spelt = spell(run, face.advance)
        if face.embeds:
            self._set(spelt, run, at, font, f"{_paint(colour)}")
            self._trace(spelt.rest, run.size, at, face, colour)
        else:
            self._set(spelt, run, at, font, "3 Tr")
            self._trace(run.glyphs, run.size, at, face, colour)

    def cut(self, rings: Rings) -> None:
        """Draw ``rings`` as hairlines."""
        self._code.append(f"q 0 G {_width(HAIRLINE)} {_path(rings)} S Q")

    def score(self, x1: float, y1: float, x2: float, y2: float, angle: float) -> None:
        """Draw a broken hairline, by its ``angle`` a mountain or a valley."""
        dash = f"[{' '.join(_number(points(part)) for part in DASHES[angle < 0])}] 0 d"
        self._code.append(f"q 0 G {_width(HAIRLINE)} {dash} {_line(x1, y1, x2, y2)} S Q")

    def tick(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """Draw a black hairline on a white one."""
        line = _line(x1, y1, x2, y2)
        self._code.append(f"q 1 G {_width(HALO)} {line} S 0 G {_width(HAIRLINE)} {line} S Q")

    def register(self, x: float, y: float, diameter: float) -> None:
        """Draw a black disc."""
        half = diameter / 2
        off = 4 / 3 * tan(pi / 8)  # a quarter of a circle by a cubic, the usual way
        stops = [(half, 0.0), (0.0, half), (-half, 0.0), (0.0, -half), (half, 0.0)]
        code = [f"{_point(points(x + half), points(y))} m"]
        for (a, b), (c, d) in pairwise(stops):
            # A quarter leaves each point at a right angle to its radius.
            spots = (a - b * off, b + a * off), (c + d * off, d - c * off), (c, d)
            code.append(" ".join(_point(points(x + u), points(y + v)) for u, v in spots) + " c")
        self._code.append(f"0 g {' '.join(code)} h f")

    @contextmanager
    def clip(self, rings: Rings) -> Iterator[None]:
        """Draw nothing outside ``rings`` in this context."""
        self._code.append(f"q {_path(rings)} W* n")
        try:
            yield
        finally:
            self._code.append("Q")

    def _set(self, spelt: Spelt, run: TextRun, at: Transform, font: PageFont, state: str) -> None:
        """Show the letters of ``run``, spaced as they are in ``font``."""
        shown = [
            f"{_matrix(_placed(at, row[0].glyph))} Tm {self._row(row, run.size, font)}"
            for row in _rows(spelt.letters)
        ]
        text = " ".join(["BT", state, *shown, "ET"])
        if not spelt.whole:
            whole = ("\ufeff" + run.text).encode("utf-16-be").hex().upper()
            text = f"/Span <</ActualText <{whole}>>> BDC {text} EMC"
        self._code.append(f"q {text} Q")

    def _row(self, row: Sequence[Letter], size: float, font: PageFont) -> str:
        """Return what shows glyphs on one baseline, with what is put between them.

        What is put is worked out from where the page's rounded numbers have got to, so that
        their errors do not add up.
        """
        face = font.face
        if face is None:
            return ""
        shown = font if face.embeds else self._resources.font(None)
        parts: list[str] = []
        reached = points(row[0].glyph.x)
        for glyph, text in row:
            back = round((reached - points(glyph.x)) / size * 1000, 2)
            if back:
                parts.append(_number(back))
                reached -= back * size / 1000
            gid = glyph.gid if shown is font else 1
            code, stated = shown.codes.of(gid, text, face.advance(glyph.gid))
            parts.append(f"<{code:04X}>")
            reached += stated.advance * size / 1000
        return f"/{shown.name} {_number(size)} Tf [{''.join(parts)}] TJ"

    def _trace(
        self, glyphs: Sequence[Glyph], size: float, at: Transform, face: Typeface, colour: str
    ) -> None:
        """Fill the outlines of glyphs."""
        drawn = []
        for glyph in glyphs:
            outline = _OutlinePen()
            face.draw(glyph.gid, outline)
            if outline.code:
                placed = _matrix(_placed(at, glyph, size / 1000))
                drawn.append(f"q {placed} cm {' '.join(outline.code)} f Q")
        if drawn:
            self._code += [f"q {_paint(colour)}", *drawn, "Q"]


class _OutlinePen(BasePen):  # type: ignore[misc]  # fontTools carries no types
    """A fontTools pen that writes path operators (ISO 32000-1, 8.5.2)."""

    def __init__(self) -> None:
        super().__init__()
        self.code: list[str] = []

    def _moveTo(self, pt: Point) -> None:  # noqa: N802 - the names are fontTools'
        self.code.append(f"{_point(*pt)} m")

    def _lineTo(self, pt: Point) -> None:  # noqa: N802
        self.code.append(f"{_point(*pt)} l")

    def _curveToOne(self, pt1: Point, pt2: Point, pt3: Point) -> None:  # noqa: N802
        self.code.append(f"{_point(*pt1)} {_point(*pt2)} {_point(*pt3)} c")

    def _closePath(self) -> None:  # noqa: N802
        self.code.append("h")


def _rows(letters: Sequence[Letter]) -> list[list[Letter]]:
    """Return letters in runs of the same height above the baseline."""
    rows: list[list[Letter]] = []
    for letter in letters:
        if rows and rows[-1][0].glyph.y == letter.glyph.y:
            rows[-1].append(letter)
        else:
            rows.append([letter])
    return rows


def _placed(at: Transform, glyph: Glyph, scale: float = 1.0) -> list[float]:
    """Return the matrix, in points, that puts a glyph where ``at`` takes it."""
    x, y = at.transformPoint((glyph.x, glyph.y))
    return [*(number * scale for number in at[:4]), points(x), points(y)]


def _number(value: float) -> str:
    """Return ``value`` to a hundred-thousandth: 4 nm of a point, and no exponent."""
    text = f"{value:.5f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _matrix(numbers: list[float]) -> str:
    return " ".join(_number(number) for number in numbers)


def _point(x: float, y: float) -> str:
    return f"{_number(x)} {_number(y)}"


def _width(mm: float) -> str:
    return f"{_number(points(mm))} w"


def _line(x1: float, y1: float, x2: float, y2: float) -> str:
    return f"{_point(points(x1), points(y1))} m {_point(points(x2), points(y2))} l"


def _path(rings: Rings) -> str:
    drawn = []
    for ring in rings:
        first, *rest = (_point(points(x), points(y)) for x, y in ring)
        drawn.append(" ".join([f"{first} m", *(f"{point} l" for point in rest), "h"]))
    return " ".join(drawn)


def _paint(colour: str) -> str:
    """Return what paints with ``#rrggbb``: three numbers from 0 to 1, or pure black as grey 0.

    Grey goes to black ink alone (ISO 32000-1, 10.3.3); three zeros become a mixture of inks, and
    small type in it comes out blurred.
    """
    if colour == "#000000":
        return "0 g"
    return " ".join(_number(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5)) + " rg"
