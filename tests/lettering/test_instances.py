"""Static instances: what is shaped on is the font at its place in the design space."""

from io import BytesIO

import pytest
from fontTools.ttLib import TTFont

from engine.lettering import default_font, shape
from engine.lettering.instances import static_face
from engine.model import FontRef
from engine.model.errors import FontError


def opened(font):
    """Read an instance by fontTools."""
    return TTFont(BytesIO(static_face(font).blob.data))


def test_an_instance_is_static_truetype():
    font = opened(default_font())
    assert "fvar" not in font
    assert "glyf" in font
    assert font["OS/2"].usWeightClass == 600


def test_glyphs_of_a_run_are_those_of_its_instance():
    font = opened(default_font())
    order, widths, cmap = font.getGlyphOrder(), font["hmtx"], font.getBestCmap()
    run = shape("Lantern", default_font(), 10.0)
    em = 10.0 * 25.4 / 72
    assert [order[glyph.gid] for glyph in run.glyphs] == [cmap[ord(char)] for char in "Lantern"]
    last = run.glyphs[-1]
    assert run.width - last.x == pytest.approx(widths[order[last.gid]][0] / 1000 * em)


def test_an_axis_that_is_not_there_is_refused():
    with pytest.raises(FontError, match="has no axis slnt"):
        static_face(FontRef(default_font().path, 0, (("slnt", -10.0),)))
