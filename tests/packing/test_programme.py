"""The linear programme: solved, or said to be unsolved."""

from __future__ import annotations

import pytest

from engine.packing.cutting_stock.programme import relax


def test_a_programme_is_solved_to_its_optimum() -> None:
    # Two sheets of (2, 0) and two of (0, 1) hold (4, 2): by hand.
    solved = relax([(2, 0), (0, 1)], (4, 2))
    assert solved.value == pytest.approx(4.0)
    assert solved.worth == pytest.approx((0.5, 1.0))


def test_what_cannot_be_solved_is_no_bound() -> None:
    with pytest.raises(RuntimeError, match="Infeasible"):
        relax([(2, 0)], (4, 2))
