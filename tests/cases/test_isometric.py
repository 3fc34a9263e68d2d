"""The slanted view. ISO 5456-3 (from memory): in an isometric view the three axes stand 120
degrees apart and the lengths along them are drawn true."""

from __future__ import annotations

import math

import pytest

from engine.cases import Facet, Folded, View, fold, isometric, load_kinds
from engine.cases.rings import shape_of

KINDS = load_kinds()


@pytest.mark.parametrize("name", KINDS)
def test_sides_are_drawn_true_and_a_third_of_a_turn_apart(name: str) -> None:
    for facet in isometric(fold(KINDS[name], 0.25)).facets:
        a, b, c, d, _, _ = facet.place
        assert math.hypot(a, b) == pytest.approx(1)
        assert math.hypot(c, d) == pytest.approx(1)
        between = math.degrees(math.atan2(a * d - b * c, a * c + b * d))
        assert abs(between) in (pytest.approx(60), pytest.approx(120))
        # Seen from its printed face it is never mirrored; seen from behind it always is.
        assert (between > 0) == facet.printed


@pytest.mark.parametrize("name", KINDS)
def test_heads_are_drawn_upwards_and_the_picture_starts_at_its_corner(name: str) -> None:
    body = fold(KINDS[name], 0.25)
    view = isometric(body)
    spots = [spot for facet in view.facets for ring in facet.outline for spot in ring]
    assert min(x for x, _ in spots) == pytest.approx(0, abs=1e-9)
    assert min(y for _, y in spots) == pytest.approx(0, abs=1e-9)
    assert max(x for x, _ in spots) == pytest.approx(view.size.width)
    assert max(y for _, y in spots) == pytest.approx(view.size.height)


@pytest.mark.parametrize("name", KINDS)
def test_what_faces_the_person_shows_its_print(name: str) -> None:
    body = fold(KINDS[name], 0.25)
    view = {facet.panel: facet for facet in isometric(body).facets}
    assert all(view[edge].printed for edge in body.facing)


@pytest.mark.parametrize("name", KINDS)
def test_near_panels_are_drawn_over_far_ones(name: str) -> None:
    """Where two facets cover the same spot of the picture, the later one is nearer there."""
    body = fold(KINDS[name], 0.25)
    view = isometric(body)
    assert all(shape_of(facet.outline).area > 0 for facet in view.facets)
    for index, far in enumerate(view.facets):
        for near in view.facets[index + 1 :]:
            both = shape_of(far.outline).intersection(shape_of(near.outline))
            if both.area < 1e-6:
                continue
            spot = both.representative_point()
            assert height(view, body, near, spot.x, spot.y) > height(
                view, body, far, spot.x, spot.y
            )


def height(view: View, body: Folded, facet: Facet, x: float, y: float) -> float:
    """How far towards the eye a spot of the picture lies on a facet."""
    a, b, c, d, e, f = facet.place
    det = a * d - b * c
    u, v = (d * (x - e) - c * (y - f)) / det, (a * (y - f) - b * (x - e)) / det
    panel = body.panel(facet.panel)
    return view.towards.dot(panel.frame.at(u - panel.rect.x, v - panel.rect.y))


@pytest.mark.parametrize("name", KINDS)
def test_the_eye_is_equally_far_round_from_all_three_axes(name: str) -> None:
    body = fold(KINDS[name], 0.25)
    towards = isometric(body).towards
    for axis in (body.front, body.up, body.up.cross(body.front)):
        assert abs(axis.dot(towards)) == pytest.approx(1 / math.sqrt(3))
    assert body.up.dot(towards) > 0
