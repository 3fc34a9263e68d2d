"""Made-up games: what the workshop in memory is filled with."""

from __future__ import annotations

import io
from dataclasses import dataclass

from PIL import Image, ImageDraw

from engine.reports import SheetReport
from engine.values import Art, Decision, Stock

KINDS = {"snap-shell": "Clear snap shell", "soft-cassette": "Soft cassette case"}
SIZES = {"snap-shell": (74.0, 66.0), "soft-cassette": (94.0, 79.0)}
STOCK = Stock(id="a4-card", name="A4 card", width=210.0, height=297.0)
A_SHEETFUL = 6
BATCH = 6
SWATCHES = ("#1f4e79", "#7a2e2e", "#2f5d3a", "#6b4e8a", "#8a6d1f", "#2f6f73", "#444444")
FIRST = ("Lantern", "Harbour", "Tin", "Paper", "Glass", "Moss", "Copper", "Salt", "Kite", "Ember")
SECOND = ("Bay", "Orchard", "Parade", "Engine", "Lighthouse", "Postman", "Caravan", "Garden")


@dataclass(frozen=True)
class FakeGame:
    id: str
    title: str
    case: str
    picture: str | None
    confidence: float
    series: str = ""
    maker: str = ""
    accepted: frozenset[Decision] = frozenset()
    art: Art | None = None
    base: str | None = None
    lines: tuple[str, ...] | None = None
    printed: str | None = None
    fitted: str | None = None


@dataclass(frozen=True)
class State:
    games: dict[str, FakeGame]
    batch: tuple[str, ...] = ()
    pressed: tuple[SheetReport, ...] = ()
    number: int = 0


def drawn(size: tuple[float, float], base: str, words: str) -> bytes:
    """Return a PNG of ``size`` mm: an edge in the base colour, a drawn scene, the words."""
    width, height = (round(mm * 4) for mm in size)
    image = Image.new("RGB", (width, height), "#ffffff")
    draw = ImageDraw.Draw(image)
    draw.rectangle((0, 0, width, 40), fill=base)
    draw.text((12, 8), words, fill="#ffffff", font_size=22)
    draw.rectangle((0, 44, width, height), fill="#9fb8c8")
    draw.ellipse((width // 4, height // 3, width * 3 // 4, height * 9 // 10), fill=base)
    out = io.BytesIO()
    image.save(out, "PNG")
    return out.getvalue()
