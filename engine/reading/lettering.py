"""The lettering in a picture: where its lines lie and what they say.

A small detector and a small reader for many scripts, both run on the processor
(PP-OCR models, Apache-2.0, in the wheel of rapidocr).
"""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from engine.model.reading import TextLine

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Pixels = NDArray[np.uint8]
    """Rows of columns of red, green and blue."""

SIDE = 1280
"""Pixels on the longer side of what is read. Lettering of a hundredth of the height of a cover
has a dozen pixels then, which is what the reader needs."""

LEAST_SURE = 0.5
"""Lines that are read with less are no lettering, as often as not; their boxes are dropped."""

SLENDER = 4
"""How many times as long as wide a picture may be: the detector enlarges the shorter side to what
it needs, and a strip of 8 to 1 takes a gigabyte and ten seconds, one of 64 to 1 five."""

TALL = 1.5
"""A box so much taller than wide holds a line that runs up or down, or one character."""


@cache
def _engine() -> Any:
    """Return the detector and reader, from the files of the wheel alone: nothing is fetched."""
    import cv2
    from rapidocr import RapidOCR

    cv2.setNumThreads(1)
    models = files("rapidocr") / "models"
    return RapidOCR(
        params={
            "Global.log_level": "critical",
            "Global.text_score": LEAST_SURE,
            "EngineConfig.onnxruntime.intra_op_num_threads": 1,
            "EngineConfig.onnxruntime.inter_op_num_threads": 1,
            "Det.model_path": str(models / "PP-OCRv6_det_small.onnx"),
            "Cls.model_path": str(models / "ch_ppocr_mobile_v2.0_cls_mobile.onnx"),
            "Rec.model_path": str(models / "PP-OCRv6_rec_small.onnx"),
        }
    )


def find_lines(pixels: Pixels) -> tuple[TextLine, ...]:
    """Return the lines of lettering in a picture, from the top down.

    Where none is found it is looked at once more turned, and then at half its size: the detector
    passes over some turned lines, and over letters on a ground as fine as their strokes.
    """
    import numpy as np

    lines = _lines_in(pixels)
    if not lines:
        turned = np.ascontiguousarray(np.rot90(pixels))
        lines = [_turned_back(line) for line in _lines_in(turned)]
    if not lines:
        lines = _lines_in(_halved(pixels))
    return tuple(sorted(lines, key=lambda line: (line.top, line.left)))


def _lines_in(pixels: Pixels) -> list[TextLine]:
    height, width = pixels.shape[:2]
    found = _engine()(_bearable(pixels)[:, :, ::-1])  # it takes blue first
    if found.boxes is None or found.txts is None:
        return []
    return [
        _line(box, text, score, width, height)
        for box, text, score in zip(found.boxes, found.txts, found.scores, strict=True)
        if text.strip()
    ]


def _bearable(pixels: Pixels) -> Pixels:
    """Return a picture, its last row or column drawn out where it is more slender than SLENDER."""
    import numpy as np

    height, width = pixels.shape[:2]
    rows, columns = max(height, width // SLENDER), max(width, height // SLENDER)
    if (rows, columns) == (height, width):
        return pixels
    return np.pad(pixels, ((0, rows - height), (0, columns - width), (0, 0)), mode="edge")


def _turned_back(line: TextLine) -> TextLine:
    """Return where a line of a picture lies that was turned counter-clockwise to be read."""
    upright = not line.upright and len(line.text) > 1
    return TextLine(
        text=line.text,
        left=round(1.0 - line.bottom, 4),
        top=line.left,
        right=round(1.0 - line.top, 4),
        bottom=line.right,
        upright=upright,
        sure=line.sure,
    )


def _halved(pixels: Pixels) -> Pixels:
    import cv2
    import numpy as np

    height, width = pixels.shape[:2]
    size = max(1, width // 2), max(1, height // 2)
    return np.asarray(cv2.resize(pixels, size, interpolation=cv2.INTER_AREA), dtype=np.uint8)


def _line(box: Any, text: str, score: float, width: int, height: int) -> TextLine:
    left, top = box.min(axis=0)
    right, bottom = box.max(axis=0)
    return TextLine(
        text=" ".join(text.split()),
        left=_part(left, width),
        top=_part(top, height),
        right=_part(right, width),
        bottom=_part(bottom, height),
        upright=bool(len(text.strip()) > 1 and bottom - top > TALL * (right - left)),
        sure=round(float(score), 3),
    )


def _part(pixel: float, of: int) -> float:
    return round(min(max(float(pixel) / of, 0.0), 1.0), 4)
