"""Covering a demand with patterns: the linear and the integer programme, by HiGHS.

Every pattern costs one sheet, and together they must hold at least what is wanted.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from engine.ganging.vectors import Counts
from engine.ganging.waiting import Cancel, go_on
from engine.model.highs import quiet_solver


class Relaxed(NamedTuple):
    """The solution when parts of sheets are allowed."""

    value: float
    worth: tuple[float, ...]
    """Of a sheet, what each footprint is worth: the duals."""
    uses: tuple[float, ...]
    """How much of each pattern is used."""


class Cover(NamedTuple):
    """How often each pattern is used."""

    uses: tuple[int, ...]
    exact: bool
    """Whether no fewer sheets are possible with these patterns."""

    @property
    def sheets(self) -> int:
        """Return how many sheets that makes."""
        return sum(self.uses)


class UnsolvedError(RuntimeError):
    """The linear programme has no answer: its patterns do not hold what is wanted."""


def relax(patterns: Sequence[Counts], wanted: Sequence[int]) -> Relaxed:
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
    wanted: Sequence[int],
    *,
    enough: int,
    nodes: int,
    cancel: Cancel | None = None,
) -> Cover | None:
    """Return the fewest whole sheets, or the best found once that is ``enough``.

    None when nothing was found within ``nodes`` of the search tree. A limit in nodes, unlike
    one in seconds, gives the same answer every time.
    """
    import highspy

    model = _model(patterns, wanted, whole=True)
    model.setOptionValue("objective_target", float(enough))
    model.setOptionValue("mip_max_nodes", nodes)
    if cancel is not None:
        model.cbMipInterrupt += lambda event: event.interrupt() if cancel() else None
    model.run()
    go_on(cancel)
    status = model.getModelStatus()
    if model.getInfo().primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    uses = tuple(round(value) for value in model.getSolution().col_value)
    return Cover(uses, exact=status == highspy.HighsModelStatus.kOptimal)


def _model(patterns: Sequence[Counts], wanted: Sequence[int], *, whole: bool) -> Any:
    import highspy
    import numpy as np

    columns = np.array(patterns, dtype=np.float64)
    many, rows = columns.shape
    programme = highspy.HighsLp()
    programme.num_col_, programme.num_row_ = many, rows
    programme.col_cost_ = np.ones(many)
    programme.col_lower_ = np.zeros(many)
    programme.col_upper_ = np.full(many, highspy.kHighsInf)
    programme.row_lower_ = np.array(wanted, dtype=np.float64)
    programme.row_upper_ = np.full(rows, highspy.kHighsInf)
    filled = columns != 0
    at_column, at_row = np.nonzero(filled)
    matrix = programme.a_matrix_
    matrix.format_ = highspy.MatrixFormat.kColwise
    matrix.start_ = np.concatenate(([0], np.cumsum(filled.sum(axis=1)))).astype(np.int32)
    matrix.index_ = at_row.astype(np.int32)
    matrix.value_ = columns[at_column, at_row]
    if whole:
        programme.integrality_ = [highspy.HighsVarType.kInteger] * many
    model = quiet_solver()
    model.passModel(programme)
    return model
