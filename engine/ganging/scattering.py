"""A backlog cut out with a knife: what free placement saves over cutting edge to edge.

Which contents can lie anyhow is costly to decide, so as few as possible are: the linear
programme is solved over all that reckoning does not rule out, then only the contents that its
solution uses are tried. Those that fit are kept, those that do not are ruled out, and with them
all that hold them. The programme may use more than there is, so what it needs is a bound at any
time; once it reaches the plan, or all it uses fits, it is settled.
"""

from __future__ import annotations

from math import ceil

from engine.ganging.backlog import SHEET, Backlog, Runs
from engine.ganging.free import Undecided
from engine.ganging.knife import Knife
from engine.ganging.solver import relax
from engine.ganging.vectors import Counts
from engine.ganging.waiting import Cancel, Cancelled

_STEPS = 150_000
"""Steps of the search for placements that are spent on one backlog."""
_LOOKS = 1_500_000
"""Contents that are gone through to find the dearest."""
_MANY = 8
_ROUNDING = 1_000
"""A content must be worth this much more than a sheet to be worth a column."""


class Scattering:
    """Improves a plan under the trimmer rule, and its bound, to the knife rule."""

    def __init__(self, backlog: Backlog, runs: Runs, cancel: Cancel | None) -> None:
        """Begin from ``runs``, the answer of ``backlog`` itself."""
        self.backlog = backlog
        self.cancel = cancel
        self.worth = runs.worth
        self.knife = Knife(backlog.field, backlog.sizes)
        self.sure = set(backlog.patterns)
        self.open = set[Counts]()
        self.undecided = set[Counts]()
        self.bound = 0

    def solve(self) -> Runs:
        """Return the fewest sheets found, and the bound that holds for every placement."""
        while True:
            uses = self._relax()
            if self.bound >= self.backlog.sheets or self._spent():
                break
            tried = [one for one in uses if one not in self.sure | self.undecided]
            if not tried:
                break
            before = len(self.sure)
            for one in tried:
                self._try(one)
            if len(self.sure) > before:
                self._improve()
        self._improve()
        return Runs(self.backlog.runs, min(self.bound, self.backlog.sheets), self.worth)

    def _relax(self) -> list[Counts]:
        """Solve the programme over all that may fit; return the contents that it uses."""
        backlog, relaxation = self.backlog, self.knife.relaxation
        while True:
            columns = sorted(self.sure | self.open)
            relaxed = relax(columns, backlog.wanted)
            worth = tuple(int(dual * SHEET) for dual in relaxed.worth)
            dear = relaxation.dearest(worth, backlog.caps, SHEET + _ROUNDING, _MANY)
            top = dear[0][0] if dear else SHEET + _ROUNDING
            total = sum(n * each for n, each in zip(backlog.wanted, worth, strict=True))
            if ceil(total / top) > self.bound:
                self.bound, self.worth = -(-total // top), worth
            new = {counts for _, counts in dear} - self.open
            if not new or self.bound >= backlog.sheets or self._spent():
                return [one for one, use in zip(columns, relaxed.uses, strict=True) if use > 0]
            self.open |= new
            if self.cancel is not None and self.cancel():
                raise Cancelled

    def _try(self, counts: Counts) -> None:
        """Decide whether ``counts`` can lie on the sheet, and put it where it belongs."""
        try:
            fits = self.knife.scatter(counts, self.cancel) is not None
        except Undecided:
            self.undecided.add(counts)
        else:
            if fits:
                self.sure.add(counts)
            else:
                self.open = {one for one in self.open if self.knife.relaxation.allows(one)}

    def _improve(self) -> None:
        if self.bound < self.backlog.sheets:
            self.backlog.patterns = set(self.sure)
            self.backlog.improve(self.bound)

    def _spent(self) -> bool:
        return self.knife.steps > _STEPS or self.knife.relaxation.looked_at > _LOOKS
