"""A backlog where hardly two inserts are alike: a good plan, with a bound that holds.

With many footprints there are too many contents to go through them all. Fillings insert by
insert come first; then contents put together from pieces, dear by the duals of those gathered
before, from which the integer programme chooses; last the best fillings are shuffled.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from math import ceil

from engine.ganging.assembling import Assembler
from engine.ganging.backlog import SHEET, Backlog, Runs
from engine.ganging.shuffling import Shuffler
from engine.ganging.solver import relax
from engine.ganging.vectors import Counts, total
from engine.ganging.waiting import Cancel, go_on

_FILLED = 200
"""Up to so many inserts are placed one by one."""
_TRIES = 8_000
_NODES = 250
_TURNS = 10
_MANY = 60
_WORTH_IT = 1.001
"""A content must be worth this part of a sheet to be a new column."""


class Mixing:
    """Improves a backlog's plan where its contents cannot all be listed."""

    def __init__(self, backlog: Backlog, cancel: Cancel | None) -> None:
        """Begin with the contents that ``backlog`` knows."""
        self.backlog = backlog
        self.cancel = cancel
        self.inserts = sum(backlog.wanted)
        self.shuffler = Shuffler(backlog.field, backlog.sizes, backlog.wanted, cancel)

    def solve(self) -> Runs:
        """Return the fewest sheets found, and a bound on what any plan takes."""
        backlog, few = self.backlog, self.inserts <= _FILLED
        room = backlog.field.width * backlog.field.height
        areas = [size.area for size in backlog.sizes]
        worth = tuple(area * SHEET // room for area in areas)
        least = ceil(total(backlog.wanted, areas) / room)
        if few:
            self._adopt(self.shuffler.in_order())
        if backlog.sheets > least:
            dual, bound = backlog.bound(whole=True)
            if bound >= least:
                # The search for the bound stops early; scaled, no sheet is worth more than one.
                top = max(int(total(backlog.wanted, dual) / bound), SHEET)
                worth, least = tuple(each * SHEET // top for each in dual), ceil(bound)
            backlog.improve(least, nodes=_NODES)
        if backlog.sheets > least:
            self._assemble()
            backlog.improve(least, nodes=_NODES)
        if backlog.sheets > least and few:
            self._adopt(self.shuffler.shuffled(least, _TRIES))
        return Runs(backlog.runs, least, worth)

    def _adopt(self, contents: Iterable[Counts]) -> None:
        """Take a filling for the plan if it is better, and its contents as patterns."""
        runs = Counter(contents)
        self.backlog.patterns.update(runs)
        if runs.total() < self.backlog.sheets:
            self.backlog.runs = tuple((times, counts) for counts, times in sorted(runs.items()))

    def _assemble(self) -> None:
        """Gather contents that are dear by the duals of those gathered before."""
        backlog = self.backlog
        each = max(self.inserts // max(backlog.sheets, 1), 2)
        rounds = min(each.bit_length(), 4)
        assembler = Assembler(backlog.field, backlog.sizes, backlog.caps)
        backlog.patterns = {tuple(map(min, one, backlog.wanted)) for one in backlog.patterns}
        backlog.patterns |= self.shuffler.contents
        for turn in range(_TURNS):
            duals = relax(sorted(backlog.patterns), backlog.wanted).worth
            found = assembler.contents(duals, rounds, _MANY)
            new = {counts for value, counts in found if value > _WORTH_IT or not turn}
            new |= _of_every_footprint(counts for _, counts in found)
            if new <= backlog.patterns:
                break
            backlog.patterns |= new
            go_on(self.cancel)


def _of_every_footprint(contents: Iterable[Counts]) -> set[Counts]:
    """Return the first contents that have a footprint which none before them has."""
    seen: set[int] = set()
    chosen = set()
    for counts in contents:
        present = {index for index, count in enumerate(counts) if count}
        if not present <= seen:
            seen |= present
            chosen.add(counts)
    return chosen
