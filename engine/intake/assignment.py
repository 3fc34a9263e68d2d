"""Giving each title one file, so that the whole comes out best."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from engine.model.highs import quiet_solver

Likenesses = Mapping[int, Mapping[int, float]]
"""For each title the files that come into question, with their likeness."""

_SAME = 1_000.0
"""What a pair of the same name counts more than any other: it is never given up for two."""
_EARLIER = 1e-7
"""What makes the earlier file the better one among equals."""


def assign(scores: Likenesses) -> dict[int, int]:
    """Return the file of each title that gets one; no file is given twice.

    As many pairs of likeness 1 as can be, then the highest total likeness.
    """
    weights = {
        title: {
            file: score + (_SAME if score >= 1.0 else 0.0) - _EARLIER * file
            for file, score in files.items()
        }
        for title, files in scores.items()
        if files
    }
    best = {title: max(files, key=files.__getitem__) for title, files in weights.items()}
    contested = _contested(weights, best)
    chosen = {title: file for title, file in best.items() if title not in contested}
    if contested:
        chosen |= _solve({title: weights[title] for title in contested})
    return dict(sorted(chosen.items()))


def _contested(weights: Likenesses, best: Mapping[int, int]) -> set[int]:
    """Return the titles that a file wanted by two could reach, by whatever turns."""
    wanting = defaultdict(list)
    asking = defaultdict(list)
    for title, files in weights.items():
        wanting[best[title]].append(title)
        for file in files:
            asking[file].append(title)
    waiting = [title for titles in wanting.values() if len(titles) > 1 for title in titles]
    reached: set[int] = set()
    while waiting:
        title = waiting.pop()
        if title not in reached:
            reached.add(title)
            for file in weights[title]:
                waiting += asking.pop(file, [])
    return reached


def _solve(weights: Likenesses) -> dict[int, int]:
    """Return the assignment of the greatest weight, as a linear programme.

    The matrix of an assignment is totally unimodular, so that the vertex at which the
    simplex method ends is whole-numbered (Hoffman and Kruskal 1956). The solver is here for
    the sheets already; ten thousand titles of five files each take it 0.8 s. scipy's own
    solver for sparse assignments takes 0.5 s and weighs 140 MB.
    """
    import highspy
    import numpy as np

    pairs = [(title, file) for title, files in weights.items() for file in files]
    row_of_title = {title: row for row, title in enumerate(weights)}
    files = sorted({file for _, file in pairs})
    row_of_file = {file: len(row_of_title) + row for row, file in enumerate(files)}
    rows = len(row_of_title) + len(row_of_file)

    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(pairs), rows
    model.sense_ = highspy.ObjSense.kMaximize
    model.col_cost_ = np.array([weights[title][file] for title, file in pairs])
    model.col_lower_, model.col_upper_ = np.zeros(len(pairs)), np.ones(len(pairs))
    model.row_lower_, model.row_upper_ = np.full(rows, -highspy.kHighsInf), np.ones(rows)
    model.a_matrix_.start_ = np.arange(0, 2 * len(pairs) + 1, 2)
    model.a_matrix_.index_ = np.array(
        [row for title, file in pairs for row in (row_of_title[title], row_of_file[file])]
    )
    model.a_matrix_.value_ = np.ones(2 * len(pairs))

    solver = quiet_solver()
    solver.setOptionValue("solver", "simplex")
    solver.passModel(model)
    solver.run()
    taken = solver.getSolution().col_value
    return {title: file for (title, file), part in zip(pairs, taken, strict=True) if part > 0.5}
