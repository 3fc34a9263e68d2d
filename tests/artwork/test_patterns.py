"""Patterns: outlines inside the panel and its bleed, two quiet tones, the same each time."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from engine.artwork import Bleed, draw_pattern
from engine.colours import contrast, difference, ink_on
from engine.model import Pattern, Size

BLEED = Bleed(1.0, 2.0, 0.5, 0.0)
BARE = {Pattern.PLAIN, Pattern.TITLE}
"""Patterns without a motif: the base colour alone, and the title alone, which is lettered."""
DRAWN = [pattern for pattern in Pattern if pattern not in BARE]

lengths = st.floats(5, 150)


@pytest.mark.parametrize("pattern", sorted(BARE))
def test_plain_is_the_base_colour_over_panel_and_bleed(pattern):
    (ground,) = draw_pattern(pattern, Size(50, 60), BLEED, "#204080")
    assert ground.colour == "#204080"
    assert Polygon(ground.rings[0]).bounds == (-1.0, -2.0, 50.5, 60.0)


@pytest.mark.parametrize("pattern", DRAWN)
@settings(max_examples=15)
@given(width=lengths, height=lengths)
def test_a_pattern_stays_within_the_bleed_and_covers_a_fair_share(pattern, width, height):
    ground, motif = draw_pattern(pattern, Size(width, height), BLEED, "#204080")
    area = box(-1.0, -2.0, width + 0.5, height)
    shapes = [Polygon(ring) for ring in motif.rings]
    assert all(shape.is_valid for shape in shapes)
    together = unary_union(shapes)
    assert together.difference(area.buffer(1e-6)).area < 1e-6
    assert sum(shape.area for shape in shapes) == pytest.approx(together.area, rel=1e-6)
    assert 0.05 < together.area / area.area < 0.75
    assert Polygon(ground.rings[0]).equals(area)


@pytest.mark.parametrize("base", ["#000000", "#ffffff", "#204080", "#f0e442", "#808080"])
def test_the_second_tone_is_seen_but_quiet(base):
    _, motif = draw_pattern(Pattern.DOTS, Size(50, 60), BLEED, base)
    assert 1.5 < difference(base, motif.colour) < 16
    assert contrast(ink_on(base), motif.colour) >= 3.5


def test_the_same_panel_gives_the_same_outlines():
    one, other = (draw_pattern(Pattern.WAVES, Size(50, 60), BLEED, "#204080") for _ in range(2))
    assert one == other
