"""What printing systems call a paper: self-describing names of PWG 5101.1."""

from __future__ import annotations

from engine.model import Stock

# PWG 5101.1-2013, 'Media Standardized Names 2.0', tables 3 and 5; sizes in mm.
_NAMED = {
    "iso_a4_210x297mm": (210.0, 297.0),
    "iso_a5_148x210mm": (148.0, 210.0),
    "iso_a6_105x148mm": (105.0, 148.0),
    "iso_a3_297x420mm": (297.0, 420.0),
    "na_letter_8.5x11in": (215.9, 279.4),
    "na_legal_8.5x14in": (215.9, 355.6),
    "na_5x7_5x7in": (127.0, 177.8),
    "na_index-4x6_4x6in": (101.6, 152.4),
}
_SAME = 0.5
"""How far, in mm, a stock may be off a named size."""


def media_name(stock: Stock) -> str:
    """Return the name of a stock's size; a custom one where the standard has none."""
    sides = sorted((stock.width, stock.height))
    for name, size in _NAMED.items():
        if all(abs(one - other) <= _SAME for one, other in zip(sides, size, strict=True)):
            return name
    width, height = (f"{side:.2f}".rstrip("0").rstrip(".") for side in (stock.width, stock.height))
    return f"custom_{stock.id.lower().replace('_', '-')}_{width}x{height}mm"
