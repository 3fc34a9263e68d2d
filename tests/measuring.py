"""Pressed sheets, read and measured by libraries that had no hand in writing them.

pdfplumber for lengths, PDFium for pixels; the case kinds' figures worked out a second time.
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any, NamedTuple

import pdfplumber
import pypdfium2
from PIL import Image

import engine.cases
from engine import Rect

MM = 25.4 / 72
"""A point in mm: the international inch of 1959; ISO 32000-1, 8.3.2.3."""
A4 = (210.0, 297.0)
"""ISO 216:2007."""
MARGINS = (6.0, 12.0, 204.0, 291.0)
"""What is left of A4 by margins of 6 mm and 12 mm at the foot: the default for home printers
whose margins nobody measured (common practice)."""
TRUE = 0.1
"""How far a length may be off, in mm."""
CALIPER = 0.25
"""Of the default stock, card of 200 g/m² (common practice: 0.22 to 0.30 mm)."""
BLEED, GUTTER = 1.0, 2.0
PPI = 72.0
"""At which pages are looked at."""

Box = tuple[float, float, float, float]
"""Left, bottom, right, top in mm from the lower left corner of the page."""


class Page(NamedTuple):
    """A pressed sheet: what the program says of it, and what readers find in it."""

    said: dict[str, Any]
    file: Path
    fills: list[Box]
    images: list[Box]
    ppi: list[float]
    lines: list[Box]
    letters: list[Box]
    text: str
    picture: Image.Image


def read(said: dict[str, Any]) -> Page:
    """Return a sheet, as the program told of it in JSON, with what is in its file."""
    file = Path(said["file"])
    with pdfplumber.open(file) as pdf:
        (page,) = pdf.pages
        images = page.images
        boxes = {
            name: [tuple(one[side] * MM for side in ("x0", "y0", "x1", "y1")) for one in things]
            for name, things in (
                ("fills", page.rects),
                ("images", images),
                ("lines", page.lines),
                ("letters", page.chars),
            )
        }
        text = page.extract_text()
    pixels = [
        max(max(image["srcsize"]) * 25.4 / max(x1 - x0, y1 - y0), 0)
        for image, (x0, y0, x1, y1) in zip(images, boxes["images"], strict=True)
    ]
    document = pypdfium2.PdfDocument(file)
    picture = document[0].render(scale=PPI / 72).to_pil().convert("RGB")
    document.close()
    return Page(said=said, file=file, ppi=pixels, text=text, picture=picture, **boxes)


# --- The case kinds' figures, worked out a second time from their data ------------------


def figures(kind: str) -> dict[str, Rect]:
    """Return the panels of a kind on its flat net, in mm, from the figures in its file.

    A panel that fits into an opening is the opening less the clearance, less half the
    thickness of the paper where it ends at a fold: derived for a neutral line in the middle
    of the paper (crease to crease it is the opening less the thickness).
    """
    path = Path(engine.cases.__file__).parent / "kinds" / f"{kind}.toml"
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    if kind == "soft-cassette":
        around = data["around"]
        front, spine, back = around["front"], around["spine"], around["back"]
        tall = around["height"]
        return {
            "back": Rect(0, 0, back, tall),
            "spine": Rect(back, 0, spine, tall),
            "front": Rect(back + spine, 0, front, tall),
        }
    less = data["clearance"] + CALIPER / 2
    wide, tall, deep = (data["inside"][side] - less for side in ("width", "height", "depth"))
    return {
        "back": Rect(0, 0, wide, tall),
        "long": Rect(wide, 0, deep, tall),
        "short": Rect(0, tall, wide, deep),
    }


ART = {"snap-shell": "back", "soft-cassette": "front"}
EDGES = {"snap-shell": ("long", "short"), "soft-cassette": ("spine",)}
CUTS = {
    "snap-shell": (BLEED, BLEED, 0.0, 0.0),
    "soft-cassette": (0.0, BLEED, BLEED, BLEED),
}
"""Bleed of the art panel on its left, bottom, right and top: where it ends at a cut."""


def on_page(placement: dict[str, Any], kind_height: float, rect: Rect) -> Box:
    """Return where a rectangle of a net lies on the page; turned, its up becomes left."""
    x, y = placement["x_mm"], placement["y_mm"]
    if placement["rotated"]:
        left = x + kind_height - rect.y - rect.height
        return (left, y + rect.x, left + rect.height, y + rect.x + rect.width)
    return (x + rect.x, y + rect.y, x + rect.x + rect.width, y + rect.y + rect.height)


def net_height(kind: str) -> float:
    return max(rect.y + rect.height for rect in figures(kind).values())


def panel(placement: dict[str, Any], name: str) -> Box:
    kind = placement["case"]
    return on_page(placement, net_height(kind), figures(kind)[name])


def with_bleed(placement: dict[str, Any], bleed: float = BLEED) -> Box:
    """Return where the art of a placement lies, its bleed over cuts with it."""
    kind = placement["case"]
    x, y, width, height = figures(kind)[ART[kind]]
    left, bottom, right, top = (side / BLEED * bleed for side in CUTS[kind])
    grown = Rect(x - left, y - bottom, width + left + right, height + bottom + top)
    return on_page(placement, net_height(kind), grown)


def nearest(found: Sequence[Box], wanted: Box) -> float:
    """Return how far the nearest of ``found`` is off at its worst side, in mm."""
    return min(max(abs(a - b) for a, b in zip(one, wanted, strict=True)) for one in found)
