"""Static instances: what is embedded is what was shaped on."""

from io import BytesIO

import pytest
from fontTools.ttLib import TTFont

from engine.lettering import default_font, instance, shape
from engine.model import FontRef
from engine.model.errors import FontError
from tests.lettering.typefaces import JAPANESE

REGULAR = FontRef(default_font().path, 0, (("wdth", 100.0), ("wght", 400.0)))


def test_an_instance_is_static_truetype():
    font = TTFont(BytesIO(instance(default_font())))
    assert "fvar" not in font
    assert "glyf" in font
    assert font["OS/2"].usWeightClass == 600


def test_glyphs_of_a_run_are_those_of_its_instance():
    """Ids and advances as fontTools reads them from the embedded file."""
    font = TTFont(BytesIO(instance(default_font())))
    order, widths, cmap = font.getGlyphOrder(), font["hmtx"], font.getBestCmap()
    run = shape("Lantern", default_font(), 10.0)
    em = 10.0 * 25.4 / 72
    assert [order[glyph.gid] for glyph in run.glyphs] == [cmap[ord(char)] for char in "Lantern"]
    last = run.glyphs[-1]
    assert run.width - last.x == pytest.approx(widths[order[last.gid]][0] / 1000 * em)


def test_each_place_in_the_design_space_has_a_name_of_its_own():
    """Two fonts of one PostScript name print as one."""
    names = {
        TTFont(BytesIO(instance(font)))["name"].getDebugName(6)
        for font in (default_font(), REGULAR, JAPANESE)
    }
    assert len(names) == 3
    assert all(len(name) <= 63 for name in names)


def test_the_same_font_gives_the_same_bytes():
    first = instance(default_font())
    instance.cache_clear()
    assert instance(default_font()) == first


def test_an_axis_that_is_not_there_is_refused():
    with pytest.raises(FontError, match="has no axis slnt"):
        instance(FontRef(default_font().path, 0, (("slnt", -10.0),)))
