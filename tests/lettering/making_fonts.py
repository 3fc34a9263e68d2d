"""Small fonts made for a test: with given licence bits, outlines and names."""

from pathlib import Path

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.pens.ttGlyphPen import TTGlyphPen


def make_font(
    path: Path,
    *,
    chars: str = "AB",
    permission: int = 0,
    cff: bool = False,
    cap: int | None = 700,
    family: str = "Boxes",
    weight: int = 400,
) -> Path:
    """Write a font whose letters are boxes 500 wide and 700 high, 600 units to the advance."""
    names = {char: f"letter{index}" for index, char in enumerate(chars)}
    order = [".notdef", *names.values()]
    builder = FontBuilder(1000, isTTF=not cff)
    builder.setupGlyphOrder(order)
    builder.setupCharacterMap({ord(char): name for char, name in names.items()})
    if cff:
        builder.setupCFF(
            "Boxes", {}, {name: _outline(T2CharStringPen(600, None)) for name in order}, {}
        )
    else:
        builder.setupGlyf({name: _outline(TTGlyphPen(None)) for name in order})
    builder.setupHorizontalMetrics(dict.fromkeys(order, (600, 50)))
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupOS2(
        fsType=permission, sCapHeight=cap or 0, version=4 if cap else 1, usWeightClass=weight
    )
    builder.setupNameTable({"familyName": family, "styleName": "Regular", "psName": "Boxes"})
    builder.setupPost()
    builder.save(path)
    return path


def _outline(pen):
    pen.moveTo((50, 0))
    for point in ((550, 0), (550, 700), (50, 700)):
        pen.lineTo(point)
    pen.closePath()
    return pen.getCharString() if isinstance(pen, T2CharStringPen) else pen.glyph()
