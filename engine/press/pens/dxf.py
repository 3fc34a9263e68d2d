"""Writes DXF files for cutting machines: lines only, in millimetres, cut and score on layers.

No other module knows the DXF library.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import contextmanager
from io import StringIO
from typing import Any

from fontTools.misc.transform import Transform

from engine.model import TextRun
from engine.model.maker import MAKER
from engine.model.units import millimetres
from engine.press.pens.base import Rings

_VERSION = "R2010"
_MILLIMETRES, _METRIC = 4, 1
"""$INSUNITS and $MEASUREMENT of the DXF reference."""
LAYERS = {"CUT": 7, "SCORE": 5, "SCORE-BACK": 4, "MARK": 8, "REGISTRATION": 1, "NOTE": 3}
"""The layers and their colour numbers."""


class DxfPen:
    """Draws one file. Fills and images leave no line to cut, so they leave nothing."""

    def __init__(self) -> None:
        """Begin an empty file."""
        import ezdxf

        with _without_clock():
            self._document: Any = ezdxf.new(_VERSION, units=_MILLIMETRES)
        self._document.header["$MEASUREMENT"] = _METRIC
        for name, colour in LAYERS.items():
            self._document.layers.add(name, color=colour)
        self._space: Any = self._document.modelspace()

    def finish(self) -> bytes:
        """Return the file: the same bytes for the same drawing."""
        text = StringIO()
        with _without_clock():
            self._document.write(text)
        return f"999\n{MAKER}\n{text.getvalue()}".encode()

    def fill(self, rings: Rings, colour: str) -> None:
        """Draw nothing."""

    def image(self, data: bytes, at: Transform) -> None:
        """Draw nothing."""

    def text(self, run: TextRun, at: Transform, colour: str) -> None:
        """Write ``run`` on the layer of notes, as text in the reader's own font."""
        del colour
        height = millimetres(run.size) * 0.7  # capitals, as DXF counts the height of text
        turn = math.degrees(math.atan2(at[1], at[0]))
        note = self._space.add_text(run.text, height=height, rotation=turn)
        note.dxf.layer = "NOTE"
        note.set_placement(at.transformPoint((0, 0)))

    def cut(self, rings: Rings) -> None:
        """Draw ``rings`` as closed polylines on the layer of what is cut."""
        for ring in rings:
            self._space.add_lwpolyline(ring, close=True, dxfattribs={"layer": "CUT"})

    def score(self, x1: float, y1: float, x2: float, y2: float, angle: float) -> None:
        """Draw a line on the layer of what is scored, on the printed side or the back."""
        layer = "SCORE-BACK" if angle < 0 else "SCORE"
        self._space.add_line((x1, y1), (x2, y2), dxfattribs={"layer": layer})

    def tick(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """Draw a line on the layer of marks."""
        self._space.add_line((x1, y1), (x2, y2), dxfattribs={"layer": "MARK"})

    def register(self, x: float, y: float, diameter: float) -> None:
        """Draw a circle on the layer of registration marks."""
        self._space.add_circle((x, y), diameter / 2, dxfattribs={"layer": "REGISTRATION"})

    @contextmanager
    def clip(self, rings: Rings) -> Iterator[None]:
        """Change nothing: what could be clipped leaves no line."""
        del rings
        yield


@contextmanager
def _without_clock() -> Iterator[None]:
    """Keep the time and random numbers out of what the library writes.

    The option's name speaks of testing; it is the library's only way to equal files.
    """
    from ezdxf import options

    kept = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = kept
