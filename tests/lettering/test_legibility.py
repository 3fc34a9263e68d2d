"""Reading distances against worked figures of the visual-angle rule."""

import pytest

from engine.lettering import (
    default_font,
    judge,
    reading_distance,
)
from engine.model import Size
from tests.lettering.typefaces import STYLE

EDGE = Size(101.5, 12.7)


# h = 2 D tan(angle / 2), angles of ISO 9241-303 (16 least, 20 to 22 preferred) and NUREG-0700
# (24 most); heights computed by hand to a thousandth of a millimetre.
@pytest.mark.parametrize(
    ("angle", "distance", "height"),
    [
        (16, 500, 2.327),
        (20, 500, 2.909),
        (22, 500, 3.200),
        (24, 500, 3.491),
        (16, 300, 1.396),
        (20, 400, 2.327),
        (16, 1000, 4.654),
        (22, 2000, 12.799),
    ],
)
def test_reading_distance_by_a_visual_angle(angle, distance, height):
    assert reading_distance(height, angle) == pytest.approx(distance, rel=0.0005)


def test_the_least_angle_is_asked_where_none_is_named():
    assert reading_distance(2.327) == pytest.approx(500, rel=0.0005)


def test_a_capital_is_as_high_as_the_font_says():
    """OS/2 sCapHeight of the font that ships, read by fontTools: 714 of 1000."""
    from fontTools.ttLib import TTFont

    with TTFont(default_font().path, lazy=True) as font:
        assert font["OS/2"].sCapHeight == 714
    setting = judge(("Rook",), 10.0, EDGE, default_font())
    assert setting.cap_height == pytest.approx(0.714 * 10 * 25.4 / 72)
    assert setting.reads_at == pytest.approx(reading_distance(setting.cap_height))


def test_ideographs_are_judged_by_their_body():
    em = 10 * 25.4 / 72
    alone = judge(("灯台守",), 10.0, EDGE, default_font(), STYLE)
    mixed = judge(("灯台 Rook",), 10.0, EDGE, default_font(), STYLE)
    assert alone.cap_height == pytest.approx(em)
    assert alone.reads_at == pytest.approx(reading_distance(em, 20))
    assert mixed.cap_height == pytest.approx(0.714 * em)
    assert mixed.reads_at == pytest.approx(reading_distance(0.714 * em))
