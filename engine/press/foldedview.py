"""The folded insert as a picture, with the art and titles of a game on it or without."""

from __future__ import annotations

from contextlib import ExitStack

from fontTools.misc.transform import Transform

from engine.cases import FlatNet, Folded, View, grown, isometric
from engine.lettering import default_font, shape
from engine.model import FontRef, Size
from engine.model.units import millimetres
from engine.press.compose import Insert
from engine.press.netdrawing import draw_name
from engine.press.pens.base import Pen, moved, turned
from engine.press.pens.pdf import PdfDocument
from engine.press.pens.recorder import (
    CutStroke,
    FillStroke,
    ImageStroke,
    Recorder,
    ScoreStroke,
    TextStroke,
    TickStroke,
)
from engine.press.proof import page_picture

_AROUND = 3.0
"""Paper around the picture, in mm."""
_CAPTION = 7.0
"""Type size of the caption in points."""
_BORDER = 0.15
"""Width in mm of the line round a panel."""
_PRINTED, _PLAIN = "#f2ead8", "#d8d8d8"
"""A printed face without its print, and the back of the paper."""
_INK = "#000000"


def draw_folded(
    pen: Pen, view: View, net: FlatNet, font: FontRef, insert: Insert | None = None
) -> None:
    """Draw a folded net from the lower left of its view, the far panels first.

    Printed faces show the ``insert``; without one, the names of the panels as they read.
    Raises what drawing the insert raises.
    """
    art = Recorder()
    if insert is not None:
        insert.draw(art, 0.0)
    for facet in view.facets:
        # Its border is no cut: what lies farther off has to vanish behind it.
        pen.fill(facet.outline, _INK)
        face = grown(facet.outline, -_BORDER)
        pen.fill(face, _PRINTED if facet.printed else _PLAIN)
        if facet.printed:
            with pen.clip(face):
                placed = moved(pen, Transform(*facet.place))
                if insert is None:
                    draw_name(placed, net.panel(facet.panel), font)
                else:
                    _replay(art, placed)


def folded_page(folded: Folded, net: FlatNet, insert: Insert | None = None) -> bytes:
    """Return the PDF of a folded net, lengths along its three axes true, its sizes below.

    Raises what drawing the insert raises.
    """
    view, font = isometric(folded), default_font()
    width, height, depth = folded.outside
    caption = shape(f"{width:.1f} × {height:.1f} × {depth:.1f} mm over all", font, _CAPTION)
    foot = _AROUND + millimetres(_CAPTION) * 1.6
    page = Size(
        max(view.size.width, caption.width) + 2 * _AROUND, view.size.height + foot + _AROUND
    )
    document = PdfDocument(f"{folded.kind}, folded")
    pen = document.page(page)
    start = turned(0, (page.width - view.size.width) / 2, foot)
    draw_folded(moved(pen, start), view, net, font, insert)
    pen.text(caption, turned(0, (page.width - caption.width) / 2, _AROUND), _INK)
    return document.finish()


def folded_picture(
    folded: Folded, net: FlatNet, insert: Insert | None = None, ppi: float = 150.0
) -> bytes:
    """Return a PNG of ``folded_page`` at ``ppi`` pixels to the inch."""
    return page_picture(folded_page(folded, net, insert), ppi)


def _replay(drawn: Recorder, pen: Pen) -> None:
    """Draw onto a pen what a recorder was drawn on, clips and all."""
    for stroke, clips in zip(drawn.strokes, drawn.clips, strict=True):
        with ExitStack() as within:
            for rings in clips:
                within.enter_context(pen.clip(rings))
            match stroke:
                case FillStroke(rings, colour):
                    pen.fill(rings, colour)
                case ImageStroke(data, at):
                    pen.image(data, at)
                case TextStroke(run, at, colour):
                    pen.text(run, at, colour)
                case CutStroke(rings):
                    pen.cut(rings)
                case ScoreStroke():
                    pen.score(*stroke)
                case TickStroke():
                    pen.tick(*stroke)
