"""Signs lie on the edge, at its beginning, and are told apart."""

from __future__ import annotations

import pytest
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from engine.lettering.signs import draw_sign, room_for
from engine.model import Sign, Size

EDGE = Size(65.0, 8.0)


@pytest.mark.parametrize("sign", [sign for sign in Sign if sign is not Sign.NONE])
def test_a_sign_lies_within_the_room_it_asks_for(sign):
    drawn = unary_union([Polygon(ring) for ring in draw_sign(sign, EDGE)])
    assert drawn.is_valid
    assert box(0, 0, room_for(sign, EDGE), EDGE.height).buffer(1e-9).contains(drawn)
    assert drawn.area > 4


def test_no_sign_needs_no_room():
    assert draw_sign(Sign.NONE, EDGE) == ()
    assert room_for(Sign.NONE, EDGE) == 0


def test_all_signs_differ():
    drawn = [unary_union([Polygon(ring) for ring in draw_sign(sign, EDGE)]) for sign in Sign]
    for one in range(len(drawn)):
        for other in range(one):
            assert drawn[one].symmetric_difference(drawn[other]).area > 4
