"""What is cut by hand, against the figures that the case kinds were measured by."""

from __future__ import annotations

import pytest

from engine.cases import flatten, hand_cuts, load_kinds
from engine.cases.net import FlatNet
from engine.cases.rings import box_ring
from engine.model import Size

KINDS = load_kinds()


def steps(name: str) -> tuple[str, ...]:
    return hand_cuts(flatten(KINDS[name], 0.25))


def test_corners_are_told_with_their_radius() -> None:
    (corner,) = KINDS["cartridge-label"].corners
    assert steps("cartridge-label") == (
        f"Round all four corners to a radius of {corner.size:.1f} mm",
    )


def test_notches_are_told_with_their_figures_and_place() -> None:
    kind = KINDS["soft-cassette-clips"]
    net = flatten(kind, 0.25)
    told = steps("soft-cassette-clips")
    assert len(told) == len(kind.notches) == 2
    for notch in kind.notches:
        figures = f"{notch.width:.1f} mm long and {notch.depth:.1f} mm deep"
        middle = f"its middle {net.size.height / 2:.1f} mm from the foot"
        assert f"Notch in the {notch.side} side: {figures}, {middle}" in told


@pytest.mark.parametrize("name", ["snap-shell", "snap-shell-low", "snap-shell-card"])
def test_an_l_corner_is_told_with_its_sides(name: str) -> None:
    net = flatten(KINDS[name], 0.25)
    rects = [panel.rect for panel in net.panels]
    upper = max(rects, key=lambda one: (one.y + one.height, one.width))
    right = max(rects, key=lambda one: (one.x + one.width, one.height))
    out = net.size.width - upper.x - upper.width, net.size.height - right.y - right.height
    (step,) = steps(name)
    assert step.startswith(f"L corner at the upper right: cut out {out[0]:.1f} × {out[1]:.1f} mm")


def test_pieces_are_parted() -> None:
    net = flatten(KINDS["soft-cassette-pieces"], 0.25)
    told = steps("soft-cassette-pieces")
    assert len(told) == len(net.dieline) - 1
    assert all("gap of 6.0 mm" in step for step in told), "twice 3 mm of bleed"


def test_what_is_all_of_its_rectangle_needs_no_knife() -> None:
    assert steps("keep-case") == steps("edge-label") == ()


def test_a_bevel_a_wedge_and_a_hole() -> None:
    outline = ((0.0, 0.0), (22.0, 0.0), (25.0, 6.0), (28.0, 0.0), (50.0, 0.0), (50.0, 26.0))
    hole = tuple(reversed(box_ring(20.0, 12.0, 5.0, 4.0)))
    net = FlatNet(
        "own", Size(50.0, 30.0), (), (), (), ((*outline, (46.0, 30.0), (0.0, 30.0)), hole)
    )
    notch = "6.0 mm long and 6.0 mm deep"
    assert hand_cuts(net) == (
        f"Pointed notch in the lower side: {notch}, its middle 25.0 mm from the left",
        "Hole of 5.0 × 4.0 mm, 20.0 mm from the left and 12.0 mm from the foot",
        "Cut the upper right corner off 4.0 mm from either side",
    )
