"""The whole backlog: the fewest sheets that print everything that is left."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from engine.ganging.backlog import Backlog, Runs
from engine.ganging.footprints import Coming, Field, Footprint, footprint
from engine.ganging.mixing import Mixing
from engine.ganging.scattering import Scattering
from engine.ganging.vectors import Counts
from engine.ganging.waiting import Cancel
from engine.model import Forme, Rule, Value

_FEW = 12
"""Up to so many footprints, all contents near the best are gone through if need be."""
_KEPT = 256
_solved: dict[tuple[Field, tuple[Footprint, ...], Counts, Rule], Runs] = {}
"""Backlogs solved before, the oldest first: accepting an insert changes none."""


class Plan(Value, frozen=True):
    """How many sheets print everything that is left."""

    sheets: int
    bound: int
    """No plan can do with fewer than this."""
    proven: bool
    rule: Rule = Rule.TRIMMER
    """The cutting rule that this holds for."""
    too_large: tuple[str, ...] = ()
    """Case kinds whose inserts do not fit the sheet; they are not counted."""


def plan(counts: Sequence[Coming], forme: Forme, *, cancel: Cancel | None = None) -> Plan:
    """Return the fewest sheets for ``counts``, and the bound that nothing can be below.

    Raises Cancelled when ``cancel`` says so.
    """
    field = Field.of(forme)
    wanted: Counter[Footprint] = Counter()
    too_large = []
    for one in counts:
        if one.count > 0:
            size = footprint(one, forme.gutter)
            if size.fits(field):
                wanted[size] += one.count
            else:
                too_large.append(one.case)
    sizes = tuple(sorted(wanted, key=lambda size: (-size.area, size)))
    counts_left = tuple(wanted[size] for size in sizes)
    runs = fewest(field, sizes, counts_left, forme.rule, cancel=cancel)
    return Plan(runs.sheets, runs.bound, runs.sheets == runs.bound, forme.rule, tuple(too_large))


def fewest(
    field: Field,
    sizes: Sequence[Footprint],
    wanted: Counts,
    rule: Rule,
    *,
    cancel: Cancel | None = None,
) -> Runs:
    """Return the fewest sheets that hold ``wanted`` of each of ``sizes``, which must fit."""
    if not any(wanted):
        return Runs((), 0, (0,) * len(wanted))
    known = field, tuple(sizes), wanted, rule
    if known not in _solved:
        if len(_solved) >= _KEPT:
            _solved.pop(next(iter(_solved)))
        backlog = Backlog(field, sizes, wanted, cancel)
        runs = backlog.solve() if len(sizes) <= _FEW else Mixing(backlog, cancel).solve()
        if rule is Rule.KNIFE:
            runs = Scattering(backlog, runs, cancel).solve()
        _solved[known] = runs
    return _solved[known]
