"""What a setting does, in words."""

from __future__ import annotations

import pytest

from engine import BeforeAfter, Measure
from tui.effectwords import SAYINGS, figure_words


def test_every_figure_can_be_said() -> None:
    assert SAYINGS.keys() == set(Measure)


@pytest.mark.parametrize(
    ("measure", "before", "after", "words"),
    [
        (Measure.ON_SHEET, 10, 12, "12 to a sheet instead of 10"),
        (Measure.ON_SHEET, 10, 10, "10 to a sheet"),
        (Measure.ON_SHEET, 1, 0, "0 to a sheet instead of 1"),
        (Measure.USED, 0.5651, 0.7, "70% of the paper used instead of 57%"),
        (Measure.USED, 0.5651, 0.5652, "57% of the paper used"),
        (Measure.TO_CONFIRM, 3, 1, "1 picture to confirm instead of 3"),
        (Measure.CUTS, 28, 0, "cut along a rule instead of 28 cuts"),
        (Measure.CUTS, 0, 28, "28 cuts instead of 0"),
        (Measure.ABRIDGED, 0, 0, ""),
        (Measure.ABRIDGED, 2, 0, "0 abridged instead of 2"),
        (Measure.SMALLEST, 8.7, 5.0, "smallest type 5 pt instead of 8.7"),
    ],
)
def test_a_figure_is_said_with_what_it_is_instead_of(
    measure: Measure, before: float, after: float, words: str
) -> None:
    assert figure_words(BeforeAfter(measure, before, after)) == words
