"""Covering what is wanted with patterns: the linear and the integer programme, by HiGHS.

Every pattern is a column that costs one sheet; together they must hold what is wanted.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import Any, NamedTuple

from engine.model.highs import quiet_solver
from engine.model.waiting import Cancel, go_on
from engine.packing.rectangles import Counts


class Relaxed(NamedTuple):
    """The solution when parts of sheets are allowed."""

    value: float
    worth: tuple[float, ...]
    """Of a sheet, what each footprint is worth: the duals."""
    uses: tuple[float, ...]
    """How much of each pattern is used."""


class Cover(NamedTuple):
    """How often each column is used."""

    uses: tuple[int, ...]
    exact: bool
    """Whether nothing with these columns costs less."""


def relax(patterns: Sequence[Counts], wanted: Counts) -> Relaxed:
    """Return the least number of sheets when parts of them count as parts.

    Raises RuntimeError where there is no answer: the duals would be worth nothing then, and a
    bound made of them would be wrong.
    """
    import highspy

    model = _model(patterns, wanted)
    model.run()
    if model.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        raise RuntimeError(model.modelStatusToString(model.getModelStatus()))
    solution = model.getSolution()
    duals = tuple(max(float(dual), 0.0) for dual in solution.row_dual)
    return Relaxed(model.getObjectiveValue(), duals, tuple(map(float, solution.col_value)))


def cover(
    columns: Sequence[Counts],
    least: Counts,
    *,
    nodes: int,
    most: Counts | None = None,
    costs: Sequence[float] | None = None,
    enough: float = -inf,
    cancel: Cancel | None = None,
) -> Cover | None:
    """Return how to reach ``least`` at the least cost, or at a cost that is ``enough``.

    None of ``most`` may be passed; a column costs one sheet unless ``costs`` says else. None
    when nothing was found within ``nodes`` of the search tree: a limit in nodes, unlike one in
    seconds, gives the same answer every time. Raises Cancelled.
    """
    import highspy

    model = _model(columns, least, most, costs)
    model.changeColsIntegrality(
        len(columns), range(len(columns)), [highspy.HighsVarType.kInteger] * len(columns)
    )
    model.setOptionValue("objective_target", float(enough))
    model.setOptionValue("mip_max_nodes", nodes)
    if cancel is not None:
        model.cbMipInterrupt += lambda event: event.interrupt() if cancel() else None
    model.run()
    go_on(cancel)
    if model.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    uses = tuple(map(round, model.getSolution().col_value))
    return Cover(uses, exact=model.getModelStatus() == highspy.HighsModelStatus.kOptimal)


def _model(
    columns: Sequence[Counts],
    least: Counts,
    most: Counts | None = None,
    costs: Sequence[float] | None = None,
) -> Any:
    import highspy
    import numpy as np

    model = quiet_solver()
    for row, low in enumerate(least):
        model.addRow(low, most[row] if most else highspy.kHighsInf, 0, [], [])
    matrix = np.array(columns, dtype=np.float64)
    at_column, at_row = np.nonzero(matrix)
    starts = np.searchsorted(at_column, range(len(columns)))
    many = len(columns)
    prices = np.ones(many) if costs is None else np.array(costs, dtype=np.float64)
    bounds = np.zeros(many), np.full(many, highspy.kHighsInf)
    entries = starts.astype(np.int32), at_row.astype(np.int32), matrix[at_column, at_row]
    model.addCols(many, prices, *bounds, len(at_row), *entries)
    return model
