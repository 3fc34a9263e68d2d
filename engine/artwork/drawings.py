"""Art that is a drawing: SVG, made into pixels at print resolution.

The renderer is native code that ends the whole process on some hostile drawings (it asks for
terabytes, or runs out of stack), so it runs in a process of its own with a time limit.
"""

from __future__ import annotations

import re
import subprocess
import sys
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from engine.model.errors import PictureError

if TYPE_CHECKING:
    from PIL import Image

SUFFIXES = (".svg",)

SIDE = 2400
"""Pixels on the longer side of a drawing: 200 mm at 300 to the inch."""

SECONDS = 10
"""After which a drawing counts as too much."""

MEMORY = 1_000_000_000
"""Bytes the renderer may ask for, where the system can hold it to that."""

MAX_BYTES = 20_000_000

REFERENCE = re.compile(
    r"""<(?:\w+:)?(?:image|feimage|use)\b[^>]*?\bhref\s*=\s*["']\s*(?!data:|\#)([^"'\s]+)""",
    re.IGNORECASE,
)
"""A part that lies in another file; only its own parts and embedded pictures may be drawn."""

RENDERER = f"""
import sys
try:
    import resource
    resource.setrlimit(resource.RLIMIT_AS, ({MEMORY}, {MEMORY}))
except (ImportError, ValueError):
    pass
import resvg_py
svg = sys.stdin.buffer.read().decode("utf-8")
png = resvg_py.svg_to_bytes(svg_string=svg, width={SIDE}, height={SIDE})
sys.stdout.buffer.write(png)
"""


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

    image = Image.open(BytesIO(_png(_own_text(path, name), name))).convert("RGBA")
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


def _png(svg: bytes, name: str) -> bytes:
    command = [sys.executable, "-I", "-c", RENDERER]
    try:
        drawn = subprocess.run(  # noqa: S603 - our own interpreter and our own text
            command, input=svg, capture_output=True, timeout=SECONDS, check=False
        )
    except subprocess.TimeoutExpired as fault:
        raise PictureError(name, "is a drawing that takes too long to draw", _AS_PNG) from fault
    if drawn.returncode != 0 or not drawn.stdout:
        raise PictureError(name, "is a drawing that is damaged or cannot be drawn", _AS_PNG)
    return drawn.stdout
