"""A backlog cut out with a knife: what free placement saves over cutting edge to edge.

The linear programme goes on from the contents that the trimmer can cut. It asks for contents
worth more than they should be when inserts may lie anyhow (`engine/ganging/dearest.py`), first
with a beam, which finds most of them at little cost, and when that finds no more, exactly. What
is found joins the programme; once nothing is left, no plan can do with fewer sheets than it says.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from engine.ganging.backlog import SHEET, Backlog, Runs
from engine.ganging.dearest import Dearest, GivenUp
from engine.ganging.relaxed import Relaxation
from engine.ganging.settling import Settling
from engine.ganging.solver import relax
from engine.ganging.vectors import Counts, total
from engine.ganging.waiting import Cancel

_STEPS = 210_000
"""Skylines that are come to for one backlog."""
_BEAMS = (12, 60)
_MANY = 4
_NEAR = 300
"""Contents that are gathered to make a plan in whole sheets of."""
_SLACKS = (200, 50, 20)
"""They may fall short by one part in so many of a sheet."""
_NARROWLY = SHEET // 300
_ROUNDING = 1_000
"""A content must be worth this much more than a sheet to be worth a column."""


class Scattering:
    """Improves a plan under the trimmer rule, and its bound, to the knife rule."""

    def __init__(self, backlog: Backlog, runs: Runs, cancel: Cancel | None) -> None:
        """Begin from ``runs``, the answer of ``backlog`` itself."""
        self.backlog = backlog
        self.cancel = cancel
        self.worth = runs.worth
        self.relaxation = Relaxation(backlog.field, backlog.sizes)
        self.bound = 0
        self.most = 0
        """What no content is worth more than, at the worths that prove the bound."""
        self._proven = Fraction(0)
        self.steps = 0

    def solve(self) -> Runs:
        """Return the fewest sheets found, and the bound that holds for every placement."""
        backlog = self.backlog
        improved = True
        while self.bound < backlog.sheets:
            found = self._dearer()
            if not found:
                break
            backlog.patterns.update(found)
            improved = False
        if not improved:
            backlog.improve(self.bound)
        for slack in _SLACKS:
            if backlog.sheets <= self.bound or self.steps >= _STEPS:
                break
            self._gather(SHEET - SHEET // slack)
        self._settle()
        return Runs(backlog.runs, min(self.bound, backlog.sheets), self.worth)

    def _dearer(self, *, narrowly: bool = False) -> set[Counts]:
        """Return contents that make the programme cheaper; none when it is settled.

        It is when the bound can rise no more in whole sheets, or ``narrowly`` at all.
        """
        backlog = self.backlog
        relaxed = relax(sorted(backlog.patterns), backlog.wanted)
        worth = tuple(int(dual * SHEET) for dual in relaxed.worth)
        whole = total(backlog.wanted, worth)
        # No bound above what the programme says can be had, and none above the plan is needed.
        goal = min(backlog.sheets, -(-whole // (SHEET + _ROUNDING)))
        least = (whole - 1) // (goal - 1) if goal > 1 else whole
        if narrowly:
            least = min(least, SHEET + _NARROWLY)
        search = self._search(worth)
        try:
            self._note(whole, search.most, worth)
            for beam in (*_BEAMS, None):
                if self.bound >= goal and not narrowly:
                    break
                left = max(_STEPS - self.steps - search.steps, 1)
                found = search.above(least, many=_MANY, beam=beam, effort=left)
                new = {counts for _, counts in found} - backlog.patterns
                if new:
                    return new
                if beam is None:
                    self._note(whole, max(worth for worth, _ in found) if found else least, worth)
        except GivenUp:
            pass
        finally:
            self.steps += search.steps
        return set()

    def _gather(self, least: int) -> None:
        """Look for a better plan among contents that are nearly worth a sheet."""
        search = self._search(self.worth)
        found = search.above(least, many=_NEAR, beam=_BEAMS[-1], effort=_STEPS)
        self.steps += search.steps
        self.backlog.patterns.update(counts for _, counts in found)
        self.backlog.improve(self.bound)

    def _settle(self) -> None:
        while self.bound < self.backlog.sheets and self.steps < _STEPS:
            found = self._dearer(narrowly=True)
            if not found:
                break
            self.backlog.patterns.update(found)
        settling = Settling(self.backlog, self.cancel)
        while self.bound < self.backlog.sheets:
            fewer = settling.fewer(self.worth, self.most)
            if not fewer:
                if fewer is False:
                    self.bound = self.backlog.sheets
                break

    def _search(self, worth: tuple[int, ...]) -> Dearest:
        backlog = self.backlog
        return Dearest(backlog.field, backlog.sizes, worth, self.relaxation, self.cancel)

    def _note(self, whole: int, most: int, worth: tuple[int, ...]) -> None:
        """Raise the bound to what follows when no sheet is worth more than ``most``."""
        bound = Fraction(whole, most)
        if bound > self._proven:
            self._proven, self.bound = bound, ceil(bound)
            self.worth, self.most = worth, most
