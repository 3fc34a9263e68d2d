from __future__ import annotations

import hypothesis.strategies as st
import numpy as np
import pytest
from hypothesis import given, settings
from scipy.optimize import linear_sum_assignment

from engine.intake.assignment import assign

LIKENESS = st.integers(50, 99).map(lambda hundredths: hundredths / 100)


def tables(likeness: st.SearchStrategy[float]) -> st.SearchStrategy[dict[int, dict[int, float]]]:
    files = st.dictionaries(st.integers(0, 7), likeness, max_size=5)
    return st.dictionaries(st.integers(0, 7), files, max_size=8)


def total(scores: dict[int, dict[int, float]], chosen: dict[int, int]) -> float:
    return sum(scores[title][file] for title, file in chosen.items())


@settings(max_examples=150)
@given(tables(LIKENESS))
def test_the_total_is_the_best_there_is(scores: dict[int, dict[int, float]]) -> None:
    """Against scipy's linear_sum_assignment (a modified Jonker-Volgenant algorithm)."""
    grid = np.zeros((8, 8))
    for title, files in scores.items():
        for file, score in files.items():
            grid[title, file] = score
    chosen = assign(scores)
    assert total(scores, chosen) == pytest.approx(grid[linear_sum_assignment(-grid)].sum())


@settings(max_examples=100)
@given(tables(LIKENESS | st.just(1.0)))
def test_no_file_is_given_twice_and_only_what_came_into_question(
    scores: dict[int, dict[int, float]],
) -> None:
    chosen = assign(scores)
    assert len(set(chosen.values())) == len(chosen)
    assert all(file in scores[title] for title, file in chosen.items())
    assert chosen == assign(scores)


def test_a_chain_of_wishes_is_settled_as_a_whole() -> None:
    # Each title in turn would lose a little so that the last one gets anything at all.
    scores = {0: {0: 0.9, 1: 0.8}, 1: {1: 0.9, 2: 0.8}, 2: {2: 0.9, 3: 0.8}, 3: {0: 0.85}}
    assert assign(scores) == {0: 1, 1: 2, 2: 3, 3: 0}


def test_the_same_name_is_never_given_up_for_two_that_are_alike() -> None:
    assert assign({0: {0: 1.0, 1: 0.99}, 1: {0: 0.99}}) == {0: 0}


def test_of_equal_files_the_earlier_goes_first() -> None:
    assert assign({5: {9: 0.9, 2: 0.9, 4: 0.9}}) == {5: 2}
    assert set(assign({0: {1: 0.9, 2: 0.9, 3: 0.9}, 1: {1: 0.9, 2: 0.9, 3: 0.9}}).values()) == {
        1,
        2,
    }


def test_nothing_to_choose_from() -> None:
    assert assign({}) == {}
    assert assign({0: {}}) == {}


def test_the_solver_writes_nothing_on_the_terminal(capfd: pytest.CaptureFixture[str]) -> None:
    assign({0: {0: 0.9}, 1: {0: 0.8}})
    assert capfd.readouterr() == ("", "")
