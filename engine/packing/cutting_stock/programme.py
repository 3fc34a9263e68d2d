"""Covering what is wanted with patterns: the linear and the integer programme, by HiGHS.

Every pattern is a column that costs one sheet; together they must hold what is wanted.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import Any, NamedTuple

from engine.highs import quiet_solver
from engine.packing.cancelling import Cancel, go_on
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


class UnsolvedError(RuntimeError):
    """The linear programme has no answer: its patterns do not hold what is wanted."""


def relax(patterns: Sequence[Counts], wanted: Counts) -> Relaxed:
    """Return the least number of sheets when parts of them count as parts.

    Raises UnsolvedError where there is no answer: the duals would be worth nothing then, and a
    bound made of them would be wrong.
    """
    import highspy

    model = _model(patterns, wanted, whole=False)
    model.run()
    if model.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        raise UnsolvedError(model.modelStatusToString(model.getModelStatus()))
    solution = model.getSolution()
    duals = tuple(max(float(dual), 0.0) for dual in solution.row_dual)
    uses = tuple(float(value) for value in solution.col_value)
    return Relaxed(float(model.getInfo().objective_function_value), duals, uses)


def cover(
    patterns: Sequence[Counts],
    least: Counts,
    *,
    nodes: int,
    most: Counts | None = None,
    costs: Sequence[float] | None = None,
    enough: float = -inf,
    cancel: Cancel | None = None,
) -> Cover | None:
    """Return how to reach ``least`` at the least cost, or at a cost that is ``enough``.

    None of ``most`` may be passed; a pattern costs one sheet unless ``costs`` says else. None
    when nothing was found within ``nodes`` of the search tree: a limit in nodes, unlike one in
    seconds, gives the same answer every time. Raises Cancelled.
    """
    import highspy

    model = _model(patterns, least, most, costs, whole=True)
    model.setOptionValue("objective_target", float(enough))
    model.setOptionValue("mip_max_nodes", nodes)
    if cancel is not None:
        model.cbMipInterrupt += lambda event: event.interrupt() if cancel() else None
    model.run()
    go_on(cancel)
    if model.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    uses = tuple(round(value) for value in model.getSolution().col_value)
    return Cover(uses, exact=model.getModelStatus() == highspy.HighsModelStatus.kOptimal)


def _model(
    patterns: Sequence[Counts],
    least: Counts,
    most: Counts | None = None,
    costs: Sequence[float] | None = None,
    *,
    whole: bool,
) -> Any:
    import highspy
    import numpy as np

    columns = np.array(patterns, dtype=np.float64)
    many, rows = columns.shape
    programme = highspy.HighsLp()
    programme.num_col_, programme.num_row_ = many, rows
    programme.col_cost_ = np.ones(many) if costs is None else np.array(costs, dtype=np.float64)
    programme.col_lower_ = np.zeros(many)
    programme.col_upper_ = np.full(many, highspy.kHighsInf)
    programme.row_lower_ = np.array(least, dtype=np.float64)
    programme.row_upper_ = np.array(most or [highspy.kHighsInf] * rows, dtype=np.float64)
    at_column, at_row = np.nonzero(columns)
    matrix = programme.a_matrix_
    matrix.format_ = highspy.MatrixFormat.kColwise
    starts = np.concatenate(([0], np.cumsum((columns != 0).sum(axis=1))))
    matrix.start_, matrix.index_ = starts.astype(np.int32), at_row.astype(np.int32)
    matrix.value_ = columns[at_column, at_row]
    if whole:
        programme.integrality_ = [highspy.HighsVarType.kInteger] * many
    model = quiet_solver()
    model.passModel(programme)
    return model
