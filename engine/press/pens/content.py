"""The operators of a PDF page (ISO 32000-1, 8 and 9): what a drawing becomes on its way there.

Everything is in points of 1/72 inch from the page's lower left; no unit is set up for the
page, so every length in it can be read off directly.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256

from fontTools.misc.transform import Transform

from engine.press.pens.base import Rings
from engine.press.pens.typeface import Codes, Typeface, spelling
from engine.units import points
from engine.values import FontRef, Glyph, TextRun

HAIRLINE = 0.1
"""Width of marks in mm: about 2.4 dots at 600 dots to the inch."""
HALO = 0.3
"""Width in mm of the white line under a mark, so that it shows on dark bleed too."""


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
        self._code.append(f"{_rgb(colour)} rg {_path(rings)} f*")

    def image(self, data: bytes, at: Transform) -> None:
        """Place a JPEG file as it is, grey or RGB."""
        name = self._resources.image(data)
        scaled = _matrix([points(number) for number in at])
        self._code.append(f"q {scaled} cm /{name} Do Q")

    def text(self, run: TextRun, at: Transform, colour: str) -> None:
        """Set ``run`` as text in its own font.

        Where its outlines are not TrueType it is drawn as outlines, the text unseen beneath.
        """
        font = self._resources.font(run.font)
        if font.face is None or not run.glyphs:
            return
        if font.face.embeds:
            self._set(run, at, font, font.face, f"{_rgb(colour)} rg")
        else:
            self._set(run, at, self._resources.font(None), font.face, "3 Tr")
            self._trace(run, at, font.face, colour)

    def cut(self, rings: Rings) -> None:
        """Draw ``rings`` as hairlines."""
        self._code.append(f"q 0 G {_width(HAIRLINE)} {_path(rings)} S Q")

    def score(self, x1: float, y1: float, x2: float, y2: float, angle: float) -> None:
        """Draw a dashed hairline, whatever the ``angle``."""
        del angle
        dash = f"[{_number(points(2))} {_number(points(1))}] 0 d"
        self._code.append(f"q 0 G {_width(HAIRLINE)} {dash} {_line(x1, y1, x2, y2)} S Q")

    def tick(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """Draw a black hairline on a white one."""
        line = _line(x1, y1, x2, y2)
        self._code.append(f"q 1 G {_width(HALO)} {line} S 0 G {_width(HAIRLINE)} {line} S Q")

    @contextmanager
    def clip(self, rings: Rings) -> Iterator[None]:
        """Draw nothing outside ``rings`` in this context."""
        self._code.append(f"q {_path(rings)} W* n")
        try:
            yield
        finally:
            self._code.append("Q")

    def _set(self, run: TextRun, at: Transform, font: PageFont, face: Typeface, state: str) -> None:
        """Show the glyphs of ``run`` in ``font``, spaced as they are in ``face``."""
        texts = spelling(run)
        shown = [
            f"{_matrix(_placed(at, line[0]))} Tm {self._row(run, line, font, face)} TJ"
            for line in _rows(run, texts)
        ]
        text = " ".join(["BT", f"/{font.name} {_number(run.size)} Tf", state, *shown, "ET"])
        if "".join(texts) != run.text:
            spelt = ("\ufeff" + run.text).encode("utf-16-be").hex().upper()
            text = f"/Span <</ActualText <{spelt}>>> BDC {text} EMC"
        self._code.append(f"q {text} Q")

    @staticmethod
    def _row(run: TextRun, line: _Row, font: PageFont, face: Typeface) -> str:
        """Return the codes of glyphs on one baseline with what is put between them.

        What is put is reckoned from where the page's rounded numbers have got to, so that
        their errors do not add up.
        """
        parts: list[str] = []
        reached = points(line[0][0].x)
        for glyph, text in line:
            back = round((reached - points(glyph.x)) / run.size * 1000, 2)
            if back:
                parts.append(_number(back))
                reached -= back * run.size / 1000
            unseen = font.face is None
            code, stated = font.codes.of(0 if unseen else glyph.gid, text, face.advance(glyph.gid))
            parts.append(f"<{code:04X}>")
            reached += stated.advance * run.size / 1000
        return f"[{''.join(parts)}]"

    def _trace(self, run: TextRun, at: Transform, face: Typeface, colour: str) -> None:
        """Fill the outlines of the glyphs of ``run``."""
        self._code.append(f"q {_rgb(colour)} rg")
        for glyph in run.glyphs:
            steps = face.outline(glyph.gid)
            if steps:
                placed = _matrix(_placed(at, (glyph, ""), run.size / 1000))
                path = " ".join(
                    " ".join([*(_point(x, y) for x, y in step.points), step.verb]) for step in steps
                )
                self._code.append(f"q {placed} cm {path} f Q")
        self._code.append("Q")


_Row = list[tuple[Glyph, str]]


def _rows(run: TextRun, texts: tuple[str, ...]) -> list[_Row]:
    """Return the glyphs of ``run`` in runs of the same height above the baseline."""
    rows: list[_Row] = []
    for glyph, text in zip(run.glyphs, texts, strict=True):
        if rows and rows[-1][0][0].y == glyph.y:
            rows[-1].append((glyph, text))
        else:
            rows.append([(glyph, text)])
    return rows


def _placed(at: Transform, first: tuple[Glyph, str], scale: float = 1.0) -> list[float]:
    """Return the matrix, in points, that puts a glyph where ``at`` takes it."""
    glyph = first[0]
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


def _rgb(colour: str) -> str:
    """Return ``#rrggbb`` as three numbers from 0 to 1."""
    return " ".join(_number(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5))
