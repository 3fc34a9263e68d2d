from __future__ import annotations

import pytest

from engine.cases import CaseKind, Panel, Role, Side, Tongue, flatten
from engine.model.errors import CaseError


def folds(*panels: Panel, tongues: tuple[Tongue, ...] = ()) -> None:
    root = Panel("front", Role.ART, width=60, height=90)
    flatten(CaseKind("mine", "Mine", (), (root, *panels), tongues=tongues), 0.25)


def flap(name: str, on: str, side: Side, depth: float, angle: int = 90) -> Panel:
    across = {"width": depth} if side.upright else {"height": depth}
    return Panel(name, Role.BLANK, on=on, side=side, angle=angle, **across)


def test_a_box_of_four_flaps_folds() -> None:
    folds(*(flap(side, "front", side, 12) for side in Side))


def test_a_closed_box_folds() -> None:
    folds(
        flap("left", "front", Side.LEFT, 12),
        flap("back", "left", Side.LEFT, 60),
        flap("right", "back", Side.LEFT, 12),
    )


def test_a_chain_that_comes_back_onto_its_root_is_refused() -> None:
    """Four right angles bring the fifth panel to where the first one is."""
    with pytest.raises(CaseError, match='"front" and "lap" run into each other'):
        folds(
            flap("left", "front", Side.LEFT, 12),
            flap("back", "left", Side.LEFT, 60),
            flap("right", "back", Side.LEFT, 12),
            flap("lap", "right", Side.LEFT, 20),
        )


def test_a_lap_a_caliper_inside_is_not() -> None:
    folds(
        flap("left", "front", Side.LEFT, 12),
        flap("back", "left", Side.LEFT, 60),
        flap("right", "back", Side.LEFT, 11.4),
        flap("lap", "right", Side.LEFT, 20),
    )


def test_a_wall_that_pierces_another_is_refused() -> None:
    """The back reaches past the right-hand flap, which is deep enough to meet it."""
    with pytest.raises(CaseError, match='"back" and "right" run into each other'):
        folds(
            flap("left", "front", Side.LEFT, 12),
            flap("back", "left", Side.LEFT, 70),
            flap("right", "front", Side.RIGHT, 20),
        )


def test_two_flaps_folded_flat_over_each_other_are_refused() -> None:
    with pytest.raises(CaseError, match='"one" and "other" run into each other'):
        folds(
            flap("one", "front", Side.LEFT, 40, 180),
            flap("other", "front", Side.RIGHT, 40, 180),
        )
    folds(flap("one", "front", Side.LEFT, 29, 180), flap("other", "front", Side.RIGHT, 29, 180))


def test_one_folded_to_each_face_pass() -> None:
    folds(
        flap("one", "front", Side.LEFT, 40, 180),
        flap("other", "front", Side.RIGHT, 40, -180),
    )


def test_a_tongue_counts() -> None:
    """Seen from the side: the tongue at the foot of a wall goes through the floor's wall."""
    walls = (flap("left", "front", Side.LEFT, 12), flap("back", "left", Side.LEFT, 58))
    right = flap("right", "front", Side.RIGHT, 20)
    folds(*walls, right)
    with pytest.raises(CaseError, match='"back" and "right" run into each other'):
        folds(*walls, right, tongues=(Tongue("back", Side.LEFT, width=20, depth=6),))
