"""The cuts and scores of a whole sheet for a machine that cuts what is printed.

True to size and in the frame of the paper, from its lower left. The registration marks are those
of the print: by them the machine finds the paper, and makes up for how it was fed. What is scored
on the back has a group or layer of its own: a machine presses on the side that lies up.
"""

from __future__ import annotations

from collections.abc import Mapping

from engine.model import Sheet, Size
from engine.press.compose import Insert
from engine.press.pens.base import Pen
from engine.press.pens.dxf import DxfPen
from engine.press.pens.svg import SvgPen
from engine.press.placed import placed_on
from engine.press.registration import draw_registration


def machine_file(sheet: Sheet, inserts: Mapping[str, Insert]) -> bytes:
    """Return the file for a sheet that is cut by machine, the same bytes each time.

    ``inserts`` are as for its page. Raises RefusedError where one is no longer the one that was
    laid out.
    """
    if sheet.machine == "dxf":
        dxf = DxfPen()
        _draw(dxf, sheet, inserts)
        return dxf.finish()
    stock = sheet.forme.stock
    svg = SvgPen(Size(stock.width, stock.height), f"Sheet {sheet.number}")
    _draw(svg, sheet, inserts)
    return svg.finish()


def _draw(pen: Pen, sheet: Sheet, inserts: Mapping[str, Insert]) -> None:
    for one in placed_on(sheet, inserts):
        for score in one.scores():
            pen.score(*score.start, *score.end, score.angle)
        pen.cut(one.dieline())
    draw_registration(pen, sheet)
