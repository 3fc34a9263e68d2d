"""Art that is a drawing: SVG, made into pixels at print resolution.

The renderer is native code that ends the whole process on some hostile drawings (it asks for
terabytes, or runs out of stack), so it runs in a worker process, within limits.
"""

from __future__ import annotations

import re
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from engine.model.errors import PictureError
from engine.workers import Job, Pool, Reason
from engine.workers.limits import DRAWING

if TYPE_CHECKING:
    from PIL import Image

SIDE = 2400
"""Pixels on the longer side of a drawing: 200 mm at 300 to the inch."""

CSS_PPI = 96.0
"""Pixels to the inch where a drawing says its size in mm or inches (CSS Values 4, 6.2): the
renderer knows none unless it is told, and then finds no size at all."""

MAX_BYTES = 20_000_000

REFERENCE = re.compile(
    r"""<(?:\w+:)?(?:image|feimage|use)\b[^>]*?\bhref\s*=\s*["']\s*(?!data:|\#)([^"'\s]+)""",
    re.IGNORECASE,
)
"""A part that lies in another file; only its own parts and embedded pictures may be drawn."""


def is_drawing(path: Path) -> bool:
    """Return whether ``path`` holds an SVG document, by its content rather than its name."""
    with path.open("rb") as file:
        head = file.read(4096).removeprefix(b"\xef\xbb\xbf").lstrip()
    return head.startswith(b"<") and b"<svg" in head


def draw_svg(path: Path, matte: str, name: str) -> Image.Image:
    """Return the drawing in ``path`` on ``matte`` as RGB, its longer side SIDE pixels.

    Raises PictureError for a drawing that is damaged, refers to other files, or is too much work.
    """
    from PIL import Image

    png = _drawing().ask(name, _own_text(path, name))
    image = Image.open(BytesIO(png), formats=("PNG",)).convert("RGBA")
    ground = Image.new("RGBA", image.size, matte)
    return Image.alpha_composite(ground, image).convert("RGB")


def _own_text(path: Path, name: str) -> bytes:
    data = path.read_bytes()
    if len(data) > MAX_BYTES:
        raise PictureError(name, f"is a drawing of {len(data) / 1e6:.0f} MB", _AS_PNG)
    other = REFERENCE.search(data.decode("utf-8", errors="replace"))
    if other:
        what = f"is a drawing that needs another file ({other[1][:60]})"
        raise PictureError(name, what, "Embed it, or save the drawing as PNG")
    return data


_AS_PNG = "Save it as PNG"


@cache
def _drawing() -> Pool[bytes, PictureError]:
    job = Job(f"{__name__}:rasterise", bytes, DRAWING, PictureError, _refusal)
    return Pool(job, most=1)


def rasterise(svg: bytes) -> bytes:
    """Return a drawing as PNG, its longer side SIDE pixels. For workers: it may end the process."""
    import resvg_py

    text = svg.decode("utf-8")
    return resvg_py.svg_to_bytes(svg_string=text, width=SIDE, height=SIDE, dpi=CSS_PPI)


def _refusal(name: str, reason: Reason) -> PictureError:
    if reason is Reason.TIME:
        return PictureError(name, "is a drawing that takes too long to draw", _AS_PNG)
    return PictureError(name, "is a drawing that is damaged or cannot be drawn", _AS_PNG)
