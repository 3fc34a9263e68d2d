"""What a strip of paper one unit wide can be worth at most, along the sheet and across it.

Cut into strips, a sheet is a row of bars, and each holds inserts whose heights add up to no more
than the sheet's height: the bar relaxation (Scheithauer, Operations Research Letters 25(2), 1999).
What an insert is worth can be shared out among the strips along the sheet and those across it
that run through it. Whatever the shares, room that is left is then worth no more than its strips
together. The shares that make the whole sheet worth least are those of a linear programme; they
are rounded up to whole numbers, so that no rounding can make a strip worth less than it is.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import islice
from typing import NamedTuple

_PATTERNS = 5_000
"""So many ways to fill a strip are weighed; with more, an insert's worth is spread evenly."""
_SCALE = 10_000.0
"""Worths are brought to this size for the solver, whose tolerances are absolute."""


class Way(NamedTuple):
    """An insert as it may lie."""

    size: int
    """Index of its footprint."""
    width: int
    height: int
    worth: int


Shares = dict[int, int]
"""Of a length: what a strip of unit width through it gets."""


class Prices(NamedTuple):
    """How worths are shared out: no way is worth more than its strips together."""

    along: Shares
    """Of each height."""
    across: Shares
    """Of each width."""


def best_prices(width: int, height: int, ways: Sequence[Way]) -> list[Prices]:
    """Return the shares by which a whole sheet is worth least, and each side alone."""
    along: Shares = {}
    across: Shares = {}
    for way in ways:
        along[way.height] = max(along.get(way.height, 0), -(-way.worth // way.width))
        across[way.width] = max(across.get(way.width, 0), -(-way.worth // way.height))
    both = _shared(width, height, ways)
    return [both, Prices(along, {}), Prices({}, across)]


def filled(shares: Shares, limit: int) -> list[int]:
    """Return what a strip of each length up to ``limit`` can be worth at most."""
    import numpy as np

    best = np.zeros(limit + 1, dtype=np.int64)
    changed = True
    while changed:
        before = best.copy()
        for length, share in shares.items():
            if length <= limit:
                np.maximum(best[length:], best[:-length] + share, out=best[length:])
        changed = not np.array_equal(before, best)
    found: list[int] = best.tolist()
    return found


def _shared(width: int, height: int, ways: Sequence[Way]) -> Prices:
    heights, widths = (sorted({way[k] for way in ways}, reverse=True) for k in (2, 1))
    columns = list(islice(_patterns(heights, height), _PATTERNS + 1))
    rows = list(islice(_patterns(widths, width), _PATTERNS + 1))
    found = None
    if len(columns) <= _PATTERNS and len(rows) <= _PATTERNS:
        found = _solved((width, height), ways, (heights, columns), (widths, rows))
    dearest = max(way.worth / (way.width * way.height) for way in ways)
    along = {h: int(found[h, 0]) if found else int(dearest * h) for h in heights}
    across = {w: int(found[0, w]) + 1 if found else 0 for w in widths}
    for way in ways:
        missing = way.worth - way.width * along[way.height] - way.height * across[way.width]
        along[way.height] += max(-(-missing // way.width), 0)
    return Prices(along, across)


_Strips = tuple[Sequence[int], Sequence[tuple[int, ...]]]
"""The lengths that occur, and how often each lies in a strip, of every full strip."""


def _solved(
    sheet: tuple[int, int], ways: Sequence[Way], columns: _Strips, rows: _Strips
) -> dict[tuple[int, int], float] | None:
    """Return the share of each height (h, 0) and of each width (0, w), not yet rounded."""
    import highspy
    import numpy as np

    from engine.model.highs import quiet_solver

    shares = [(h, 0) for h in columns[0]] + [(0, w) for w in rows[0]]
    at = {share: column for column, share in enumerate(shares)}
    model = quiet_solver()
    many = len(shares) + 2
    for _ in range(many):
        model.addVar(0.0, highspy.kHighsInf)
    for column, length in zip((many - 2, many - 1), sheet, strict=True):
        model.changeColCost(column, float(length))
    scale = _SCALE / max(way.worth for way in ways)
    lines: list[tuple[float, list[int], list[float]]] = [
        (w.worth * scale, [at[w.height, 0], at[0, w.width]], [w.width, w.height]) for w in ways
    ]
    for (_, patterns), first, total in ((columns, 0, many - 2), (rows, len(columns[0]), many - 1)):
        for pattern in patterns:
            there = [k for k, n in enumerate(pattern) if n]
            entries = [float(-pattern[k]) for k in there]
            lines.append((0.0, [*(first + k for k in there), total], [*entries, 1.0]))
    starts = np.cumsum([0] + [len(line[1]) for line in lines], dtype=np.int32)
    model.addRows(
        len(lines),
        np.array([line[0] for line in lines]),
        np.full(len(lines), highspy.kHighsInf),
        int(starts[-1]),
        starts[:-1],
        np.concatenate([line[1] for line in lines]).astype(np.int32),
        np.concatenate([line[2] for line in lines]).astype(np.float64),
    )
    model.run()
    if model.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    values = model.getSolution().col_value
    return {share: max(values[column], 0.0) / scale for share, column in at.items()}


def _patterns(lengths: Sequence[int], limit: int) -> Iterable[tuple[int, ...]]:
    """Yield how often each of ``lengths``, the longest first, lies in every full strip."""

    def further(k: int, room: int, counts: tuple[int, ...]) -> Iterable[tuple[int, ...]]:
        if k == len(lengths):
            if room < lengths[-1]:
                yield counts
            return
        for n in range(room // lengths[k], -1, -1):
            yield from further(k + 1, room - n * lengths[k], (*counts, n))

    return further(0, limit, ())
