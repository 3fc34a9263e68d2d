"""What a printer does to a page, undone: the one place where pages for a printer are begun."""

from __future__ import annotations

from math import cos, radians, sin

from fontTools.misc.transform import Transform

from engine.model import Size
from engine.model.calibration import Calibration
from engine.press.pens.base import Pen, moved, turned
from engine.press.pens.pdf import PdfDocument


def printer_page(
    document: PdfDocument,
    size: Size,
    calibration: Calibration | None,
    *,
    back: bool = False,
    tumble: bool = False,
    label: str = "",
) -> Pen:
    """Add a page of ``size`` in mm; return the pen that draws on it so that it prints true.

    What is drawn lies in the frame of the paper: the page carries it where the printer of
    ``calibration`` will put it there. ``back`` is for the back of a page that is turned over
    like that of a book; with ``tumble`` its head lies at the front's foot, and the printer turns
    the page by half a circle before it does to it what it does.
    """
    pen = document.page(size, label=label)
    if calibration is None:
        return pen
    undone = printed(calibration, back=back).inverse()
    half = turned(180, size.width, size.height) if tumble else turned(0)
    return moved(pen, half.transform(undone).transform(half))


def printed(calibration: Calibration, *, back: bool = False) -> Transform:
    """Return where a printer puts the points of a page on the paper.

    The back of a printer whose backs were not measured is taken to lie as its front does.
    """
    turn, upright = radians(calibration.turn), radians(calibration.turn + calibration.lean)
    shift = calibration.back if back and calibration.back else calibration.shift
    return Transform(
        calibration.across * cos(turn),
        calibration.across * sin(turn),
        -calibration.up * sin(upright),
        calibration.up * cos(upright),
        *shift,
    )
