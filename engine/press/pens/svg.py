"""Writes SVG files (SVG 1.1) of true size: one user unit is one millimetre.

What is cut, scored and marked lies in groups of their own, so that a cutting machine's
program can be told what to do with each; what is scored on the back has one too. Type goes in as
outlines, so the file needs no font.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator
from contextlib import contextmanager
from xml.sax.saxutils import escape, quoteattr

from fontTools.misc.transform import Transform
from fontTools.pens.svgPathPen import SVGPathPen
from fontTools.pens.transformPen import TransformPen

from engine.model import FontRef, Size, TextRun
from engine.model.maker import MAKER
from engine.model.units import millimetres
from engine.press.pens.base import PNG_SIGNATURE, Rings
from engine.press.pens.typeface import Typeface

HAIRLINE = 0.1
"""Width of lines in mm."""
COLOURS = {
    "cut": "#000000",
    "score": "#0050c0",
    "score-back": "#00a0a0",
    "mark": "#606060",
    "registration": "#d00000",
}
"""Line colours of the groups; their names tell them apart without colour."""


class SvgPen:
    """Draws one picture. ``finish`` gives the file."""

    def __init__(self, size: Size, title: str) -> None:
        """Begin a picture of ``size`` in mm, called ``title``."""
        self._size = size
        self._title = title
        self._art: list[str] = []
        self._lines: dict[str, list[str]] = {name: [] for name in COLOURS}
        self._faces: dict[FontRef, Typeface] = {}
        self._clips = 0
        # SVG counts y downwards from the top.
        self._page = Transform(1, 0, 0, -1, 0, size.height)

    def finish(self) -> bytes:
        """Return the file."""
        width, height = _number(self._size.width), _number(self._size.height)
        groups = [
            f'<g id="{name}" fill="none" stroke="{COLOURS[name]}" stroke-width="{HAIRLINE}">'
            f"{''.join(lines)}</g>"
            for name, lines in self._lines.items()
            if lines
        ]
        art = [f'<g id="art">{"".join(self._art)}</g>'] if self._art else []
        head = (
            '<?xml version="1.0" encoding="UTF-8"?>\n'
            '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
            f'version="1.1" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">'
        )
        title = f"<title>{escape(self._title)}</title>"
        return "\n".join([head, f"<!-- {MAKER} -->", title, *art, *groups, "</svg>\n"]).encode(
            "utf-8"
        )

    def fill(self, rings: Rings, colour: str) -> None:
        """Cover the inside of ``rings`` with ``colour``."""
        self._art.append(f'<path fill="{colour}" fill-rule="evenodd" d="{self._path(rings)}"/>')

    def image(self, data: bytes, at: Transform) -> None:
        """Place a JPEG or PNG file as it is."""
        # The picture hangs from its top left corner, one unit wide and high.
        placed = self._page.transform(at).transform(Transform(1, 0, 0, -1, 0, 1))
        kind = "png" if data.startswith(PNG_SIGNATURE) else "jpeg"
        source = f"data:image/{kind};base64,{b64encode(data).decode('ascii')}"
        self._art.append(
            f'<image width="1" height="1" preserveAspectRatio="none" '
            f'transform="{_matrix(placed)}" xlink:href="{source}"/>'
        )

    def text(self, run: TextRun, at: Transform, colour: str) -> None:
        """Draw the outlines of ``run``, which keeps its text as a label."""
        face = self._faces.setdefault(run.font, Typeface(run.font))
        em = millimetres(run.size) / 1000
        outlines = SVGPathPen(None, ntos=_number)
        for glyph in run.glyphs:
            placed = self._page.transform(at).translate(glyph.x, glyph.y).scale(em)
            face.draw(glyph.gid, TransformPen(outlines, placed))
        path = outlines.getCommands()
        self._art.append(f'<path fill="{colour}" aria-label={quoteattr(run.text)} d="{path}"/>')

    def cut(self, rings: Rings) -> None:
        """Draw ``rings`` in the group of what is cut."""
        self._lines["cut"].append(f'<path d="{self._path(rings)}"/>')

    def score(self, x1: float, y1: float, x2: float, y2: float, angle: float) -> None:
        """Draw a line in the group of what is scored, its angle as a label."""
        label = f' aria-label="{angle:g} degrees"'
        group = "score-back" if angle < 0 else "score"
        self._lines[group].append(self._line(x1, y1, x2, y2, label))

    def tick(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """Draw a line in the group of marks."""
        self._lines["mark"].append(self._line(x1, y1, x2, y2))

    def register(self, x: float, y: float, diameter: float) -> None:
        """Draw a circle in the group of registration marks."""
        cx, cy = self._page.transformPoint((x, y))
        circle = f'cx="{_number(cx)}" cy="{_number(cy)}" r="{_number(diameter / 2)}"'
        self._lines["registration"].append(f"<circle {circle}/>")

    @contextmanager
    def clip(self, rings: Rings) -> Iterator[None]:
        """Show nothing of fills, images and type outside ``rings``; lines are not clipped."""
        self._clips += 1
        name = f"clip{self._clips}"
        self._art.append(
            f'<clipPath id="{name}"><path clip-rule="evenodd" d="{self._path(rings)}"/></clipPath>'
            f'<g clip-path="url(#{name})">'
        )
        try:
            yield
        finally:
            self._art.append("</g>")

    def _path(self, rings: Rings) -> str:
        return "".join(
            "M" + "L".join(_point(*self._page.transformPoint(spot)) for spot in ring) + "Z"
            for ring in rings
        )

    def _line(self, x1: float, y1: float, x2: float, y2: float, label: str = "") -> str:
        (a, b), (c, d) = (self._page.transformPoint(end) for end in ((x1, y1), (x2, y2)))
        start = f'x1="{_number(a)}" y1="{_number(b)}"'
        end = f'x2="{_number(c)}" y2="{_number(d)}"'
        return f"<line {start} {end}{label}/>"


def _number(value: float) -> str:
    """Return ``value`` to a micrometre, without an exponent."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _point(x: float, y: float) -> str:
    return f"{_number(x)} {_number(y)}"


def _matrix(at: Transform) -> str:
    return f"matrix({' '.join(f'{number:.6g}' for number in at)})"
