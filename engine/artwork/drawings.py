"""Art that is a drawing: SVG, made into pixels at print resolution.

The renderer is native code that ends the whole process on some hostile drawings (it asks for
terabytes, or runs out of stack), so a drawing is opened by a worker process, as all pictures are.
Its lettering is set in the font that ships, whatever it asks for: the fonts of a machine would
make another picture of it on the next.
"""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from engine.model.errors import PictureError
from engine.model.shipped import SHIPPED_FAMILY, shipped_font

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

LETTERING = re.compile(r"<(?:\w+:)?text\b", re.IGNORECASE)

IN_OURS = "its lettering is set in the font that ships; turn it into outlines to keep its own"


def is_drawing(path: Path) -> bool:
    """Return whether ``path`` holds an SVG document, by its content rather than its name."""
    with path.open("rb") as file:
        head = file.read(4096).removeprefix(b"\xef\xbb\xbf").lstrip()
    return head.startswith(b"<") and b"<svg" in head


def draw_svg(path: Path, matte: str, name: str) -> tuple[Image.Image, tuple[str, ...]]:
    """Return the drawing in ``path`` on ``matte`` as RGB, its longer side SIDE pixels, and remarks.

    Raises PictureError for a drawing that is damaged or refers to other files; one that is hostile
    may end the process.
    """
    from PIL import Image

    text = _own_text(path, name)
    image = Image.open(BytesIO(_rasterised(text, name)), formats=("PNG",)).convert("RGBA")
    ground = Image.new("RGBA", image.size, matte)
    drawn = Image.alpha_composite(ground, image).convert("RGB")
    return drawn, (IN_OURS,) if LETTERING.search(text) else ()


def _own_text(path: Path, name: str) -> str:
    data = path.read_bytes()
    if len(data) > MAX_BYTES:
        raise PictureError(name, f"is a drawing of {len(data) / 1e6:.0f} MB", _AS_PNG)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise _damaged(name) from fault
    other = REFERENCE.search(text)
    if other:
        what = f"is a drawing that needs another file ({other[1][:60]})"
        raise PictureError(name, what, "Embed it, or save the drawing as PNG")
    return text


_AS_PNG = "Save it as PNG"


def _rasterised(text: str, name: str) -> bytes:
    import resvg_py

    try:
        return resvg_py.svg_to_bytes(
            svg_string=text,
            width=SIDE,
            height=SIDE,
            dpi=CSS_PPI,
            skip_system_fonts=True,
            font_files=[str(shipped_font())],
            font_family=SHIPPED_FAMILY,
            serif_family=SHIPPED_FAMILY,
            sans_serif_family=SHIPPED_FAMILY,
            cursive_family=SHIPPED_FAMILY,
            fantasy_family=SHIPPED_FAMILY,
            monospace_family=SHIPPED_FAMILY,
        )
    except ValueError as fault:
        raise _damaged(name) from fault


def _damaged(name: str) -> PictureError:
    return PictureError(name, "is a drawing that is damaged or cannot be drawn", _AS_PNG)
