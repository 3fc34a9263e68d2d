from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

from engine.lettering import default_font, shape
from engine.lettering.instances import static_face
from engine.model import FontRef
from engine.model.errors import FontError
from engine.model.units import points
from engine.press.pens.typeface import Codes, Typeface, blank


def test_a_subset_keeps_glyph_numbers_widths_and_shapes_at_the_pinned_axes() -> None:
    run = shape("Wade", default_font(), 10)
    gids = [glyph.gid for glyph in run.glyphs]
    face = Typeface(default_font())
    subset = TTFont(BytesIO(face.subset(gids)))
    assert "fvar" not in subset
    names = subset.getGlyphOrder()
    filled = {i for i, n in enumerate(names) if subset["glyf"][n].numberOfContours}
    assert set(gids) <= filled <= {0, *gids}
    # Noto Sans has 1000 units to the em, so its units are thousandths.
    assert [subset["hmtx"][names[gid]][0] for gid in gids] == [face.advance(gid) for gid in gids]
    gaps = [b.x - a.x for a, b in zip(run.glyphs, run.glyphs[1:], strict=False)]
    kerned = [face.advance(gid) / 100 - points(gap) for gid, gap in zip(gids, gaps, strict=False)]
    assert kerned[0] > 0.1, "W and a are kerned, so the run is narrower than its advances"


def test_what_is_embedded_is_what_was_shaped_on() -> None:
    gids = {glyph.gid for glyph in shape("Wády Tö 37", default_font(), 10).glyphs}
    embedded = TTFont(BytesIO(Typeface(default_font()).subset(gids)))
    shaped_on = TTFont(BytesIO(static_face(default_font()).blob.data))
    for gid in gids:
        one, other = (font["glyf"][font.getGlyphOrder()[gid]] for font in (embedded, shaped_on))
        if one.numberOfContours > 0:
            assert list(one.coordinates) == list(other.coordinates)
        assert (
            embedded["hmtx"][embedded.getGlyphOrder()[gid]]
            == shaped_on["hmtx"][shaped_on.getGlyphOrder()[gid]]
        )


def test_the_weight_asked_for_is_the_weight_that_is_drawn() -> None:
    variable = default_font().path
    glyph = shape("l", default_font(), 10).glyphs[0].gid

    def stem(weight: float) -> float:
        pen = BoundsPen(None)
        Typeface(FontRef(variable, 0, (("wght", weight),))).draw(glyph, pen)
        left, _, right, _ = pen.bounds
        return right - left

    assert stem(300) < stem(600) < stem(900)


def test_a_code_is_given_once_for_a_glyph_and_what_it_stands_for() -> None:
    codes = Codes()
    first, _ = codes.of(10, "a", 500)
    assert codes.of(10, "a", 500)[0] == first
    assert codes.of(10, "A", 500)[0] != first
    assert codes.glyph_map() == b"\0\0\0\x0a\0\x0a"
    assert b"<0001> <0061>" in codes.to_unicode()
    assert b"<0002> <0041>" in codes.to_unicode()


def test_the_font_for_unseen_text_has_nothing_to_see() -> None:
    font = TTFont(BytesIO(blank()))
    shown = font.getGlyphOrder()[1]  # 0 is for what is missing: no text may show it
    assert font["glyf"][shown].numberOfContours == 0
    assert font["hmtx"][shown] == (0, 0)
    assert blank() == blank()


def test_a_font_that_is_gone_or_none_is_named(tmp_path: Path) -> None:
    with pytest.raises(FontError, match="cannot be opened"):
        Typeface(FontRef(str(tmp_path / "gone.ttf")))
    junk = tmp_path / "junk.ttf"
    junk.write_bytes(b"not a font at all" * 20)
    with pytest.raises(FontError, match=r"junk\.ttf: this is no font"):
        Typeface(FontRef(str(junk)))
