"""Drawings of nets: for a cutting machine, with dimensions to look at, as a trial to cut.

Nothing here is printed on an insert. Everything is true to size.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise
from math import copysign
from typing import NamedTuple

from fontTools.misc.transform import Transform

from engine.cases import FlatNet, FlatPanel, Scale, scales
from engine.lettering import default_font, shape
from engine.model import FontRef, Forme, Rect, Size, Stock
from engine.model.calibration import Calibration
from engine.model.errors import InputError, RefusedError
from engine.model.units import millimetres
from engine.press.correcting import printer_page
from engine.press.marks import draw_bars
from engine.press.pens.base import Pen, frame, moved, turned
from engine.press.pens.dxf import DxfPen
from engine.press.pens.pdf import PdfDocument
from engine.press.pens.svg import SvgPen
from engine.press.proof import page_picture

AROUND = 13.0
"""Paper around a net that is drawn with dimensions, in mm; they lie within it."""
_EDGE = 1.0
"""Paper around a bare dieline, in mm, so that its lines lie on the page."""
_BARS = 3.0
"""Room in mm that a check bar takes along a side of a trial page."""
_CHAIN, _WHOLE = 3.5, 8.0
"""How far the sizes of panels, and the size of the whole, lie from the net, in mm."""
_SIZE = 6.0
"""Type size of dimensions in points."""
_NAME = 9.0
"""Largest type size of panel names in points."""
_FIGURE = 5.0
"""Type size in points of the figures along a scale."""
_CAPITAL = millimetres(_FIGURE) * 0.7
_NARROW = 16.0
"""A panel less deep than this, in mm, has no room for figures beside its name."""
_INK, _PALE = "#000000", "#606060"
_SAME = 1e-6

Suffix = str
PPI = 150.0


def draw_dieline(pen: Pen, net: FlatNet) -> None:
    """Draw where a net is cut and scored, in the net's frame."""
    pen.cut(net.dieline)
    for score in net.scores:
        pen.score(score.x1, score.y1, score.x2, score.y2, score.angle)


def draw_net(pen: Pen, net: FlatNet, font: FontRef) -> None:
    """Draw a net with its panels' names, as they read, and its dimensions in mm below and left.

    They take up to ``AROUND`` mm round it. Raises FontError for a bad font.
    """
    draw_dieline(pen, net)
    for panel in net.panels:
        draw_name(pen, panel, font)
    spans = [(p.rect.x, p.rect.x + p.rect.width) for p in net.panels]
    _draw_dimensions(pen, spans, net.size.width, font)
    spans = [(p.rect.y, p.rect.y + p.rect.height) for p in net.panels]
    _draw_dimensions(moved(pen, turned(90)), spans, net.size.height, font, above=True)


def draw_trial(pen: Pen, net: FlatNet, font: FontRef) -> None:
    """Draw a net's outline with a millimetre scale along every side that is cut."""
    draw_dieline(pen, net)
    for panel in net.panels:
        draw_name(pen, panel, font)
    for scale in scales(net):
        _draw_scale(pen, net, scale, font)


def trial_page(net: FlatNet, stock: Stock, calibration: Calibration | None = None) -> bytes:
    """Return the PDF of a trial cut on a stock: one page of its size, with check bars.

    A net that takes all that the printer reaches has no bars beside it. Raises RefusedError
    where it is larger than that.
    """
    forme = Forme(stock)
    area = forme.printable
    beside_bars = Rect(area.x + _BARS, area.y + _BARS, area.width - _BARS, area.height - _BARS)
    at = _in_the_middle(net.size, beside_bars) or _in_the_middle(net.size, area)
    if at is None:
        raise RefusedError(
            net.kind,
            f"its net of {net.size.width:.1f} × {net.size.height:.1f} mm does not fit {stock.name}",
            "Choose a larger stock, or leave a panel out",
        )
    document = PdfDocument(f"Trial cut: {net.kind}")
    pen = printer_page(document, Size(stock.width, stock.height), calibration)
    font = default_font()
    draw_trial(moved(pen, at), net, font)
    if _in_the_middle(net.size, beside_bars):
        draw_bars(pen, forme, font)
    return document.finish()


def _in_the_middle(size: Size, room: Rect) -> Transform | None:
    """Return what takes a net to the middle of a room, turned if it must be; None: too large."""
    x, y = room.x + room.width / 2, room.y + room.height / 2
    if size.width <= room.width and size.height <= room.height:
        return turned(0, x - size.width / 2, y - size.height / 2)
    if size.height <= room.width and size.width <= room.height:
        return turned(90, x + size.height / 2, y - size.width / 2)
    return None


def net_svg(net: FlatNet) -> bytes:
    """Return the dieline as an SVG file: true size, cut and score in groups of their own."""
    pen = SvgPen(_larger(net.size, _EDGE), net.kind)
    draw_dieline(moved(pen, turned(0, _EDGE, _EDGE)), net)
    return pen.finish()


def net_dxf(net: FlatNet) -> bytes:
    """Return the dieline as a DXF file in mm, from its lower left: cut and score on layers."""
    pen = DxfPen()
    draw_dieline(pen, net)
    return pen.finish()


def net_pdf(net: FlatNet) -> bytes:
    """Return the net with its dimensions as a PDF page a little larger than it."""
    document = PdfDocument(net.kind)
    pen = document.page(_larger(net.size, AROUND))
    draw_net(moved(pen, turned(0, AROUND, AROUND)), net, default_font())
    return document.finish()


def net_png(net: FlatNet) -> bytes:
    """Return the page of ``net_pdf`` as a picture."""
    return page_picture(net_pdf(net), PPI)


WRITERS: dict[Suffix, Callable[[FlatNet], bytes]] = {
    ".svg": net_svg,
    ".dxf": net_dxf,
    ".pdf": net_pdf,
    ".png": net_png,
}


def net_file(net: FlatNet, suffix: Suffix) -> bytes:
    """Return the drawing of a net in the format of a file name's suffix.

    Raises InputError for a suffix of no format that is written.
    """
    writer = WRITERS.get(suffix.lower())
    if writer is None:
        known = ", ".join(WRITERS)
        raise InputError(suffix or "no suffix", "is no format for a net", f"Use {known}")
    return writer(net)


class _Span(NamedTuple):
    start: float
    end: float


def _draw_dimensions(
    pen: Pen,
    spans: Iterable[tuple[float, float]],
    whole: float,
    font: FontRef,
    *,
    above: bool = False,
) -> None:
    """Draw sizes along y = 0, below or above it: of the panels, then of the whole."""
    sign = 1 if above else -1
    chain = _chain(spans)
    for span in chain:
        _draw_dimension(pen, span, sign * _CHAIN, font)
    if len(chain) > 1:
        _draw_dimension(pen, _Span(0.0, whole), sign * _WHOLE, font)


def _chain(spans: Iterable[tuple[float, float]]) -> Sequence[_Span]:
    """Return the stretches between the ends of spans that any of them covers."""
    given = [_Span(*span) for span in spans]
    ends = sorted({round(end, 6) for span in given for end in span})
    return [
        _Span(start, end)
        for start, end in pairwise(ends)
        if any(s.start < start + _SAME and end - _SAME < s.end for s in given)
    ]


def _draw_dimension(pen: Pen, span: _Span, level: float, font: FontRef) -> None:
    """Draw a dimension line at a level, its figure on the side away from the net."""
    pen.tick(span.start, level, span.end, level)
    for end in span:
        pen.tick(end, level - 1, end, level + 1)
    figure = shape(f"{span.end - span.start:.1f}", font, _SIZE)
    start = (span.start + span.end - figure.width) / 2
    baseline = level + (0.6 if level > 0 else -millimetres(_SIZE) * 1.1)
    pen.text(figure, Transform(1, 0, 0, 1, start, baseline), _INK)


def draw_name(pen: Pen, panel: FlatPanel, font: FontRef) -> None:
    """Set a panel's name in its middle as its text will read."""
    room = panel.reading
    wide = shape(panel.name, font, _NAME).width
    size = min(_NAME, _NAME * 0.8 * room.width / wide, room.height * 0.5 / millimetres(1))
    run = shape(panel.name, font, size)
    at = frame(panel.rect, panel.turn).translate(
        (room.width - run.width) / 2, room.height / 2 - millimetres(size) * 0.35
    )
    pen.text(run, at, _PALE)


def _draw_scale(pen: Pen, net: FlatNet, scale: Scale, font: FontRef) -> None:
    """Draw a scale, its tens numbered inside the panel or, where that is narrow, outside."""
    rect = net.panel(scale.panel).rect
    depth = rect.width if scale.side.upright else rect.height
    for mark in scale.marks:
        pen.tick(*mark[:4])
        if mark.mm % 10 or not 0 < mark.mm < scale.length:
            continue
        run = shape(str(mark.mm), font, _FIGURE)
        out = 0.8 if depth < _NARROW else -4.2
        x = mark.x1 + scale.side.outward[0] * (out + copysign(run.width / 2, out))
        y = mark.y1 + scale.side.outward[1] * (out + copysign(_CAPITAL / 2, out))
        pen.text(run, Transform(1, 0, 0, 1, x - run.width / 2, y - _CAPITAL / 2), _PALE)


def _larger(size: Size, by: float) -> Size:
    return Size(size.width + 2 * by, size.height + 2 * by)
