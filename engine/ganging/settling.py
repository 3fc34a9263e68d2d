"""One sheet less: whether a plan under the knife rule can do with that, in whole sheets.

The linear programme may leave it open, most of all when few sheets are left to print. Its bound
says that each sheet of a smaller plan must be worth nearly all it can be, since no other can make
up for it. The few contents that are, and may lie, are covered in whole sheets; those that the
cover uses are searched for a placement. One that has none is ruled out, with all that hold it,
and the cover is made anew, until all it uses lie or there is no cover.
"""

from __future__ import annotations

from engine.ganging.backlog import Backlog
from engine.ganging.contents import TooMany
from engine.ganging.free import Undecided
from engine.ganging.knife import Knife
from engine.ganging.solver import cover
from engine.ganging.vectors import Counts, Packer, total
from engine.ganging.waiting import Cancel

_CONTENTS = 1_500
_NODES = 300
_STEPS = 40_000
"""Steps of the search for placements that are spent on one backlog, and on one content."""
_EACH = 10_000


class Settling:
    """Looks for plans of one sheet less."""

    def __init__(self, backlog: Backlog, cancel: Cancel | None) -> None:
        """Begin from the best plan of ``backlog``."""
        self.backlog = backlog
        self.cancel = cancel
        self.knife = Knife(backlog.field, backlog.sizes, effort=_EACH)

    def fewer(self, worth: tuple[int, ...], most: int) -> bool | None:
        """Return whether the plan could be made a sheet less; None when that stays open.

        No content is worth more than ``most`` when inserts are worth ``worth``.
        """
        backlog, knife = self.backlog, self.knife
        goal = backlog.sheets - 1
        contents = self._needed(worth, most, goal)
        while contents is not None and knife.steps < _STEPS:
            packer = Packer(backlog.caps)
            packed = packer.outermost({packer.pack(one) for one in contents})
            columns = sorted(packer.unpack(one) for one in packed)
            if not columns or not all(any(column) for column in zip(*columns, strict=True)):
                return False
            found = cover(columns, backlog.wanted, enough=goal, nodes=_NODES, cancel=self.cancel)
            if found is None or (found.sheets > goal and not found.exact):
                return None
            if found.sheets > goal:
                return False
            runs = [(n, one) for n, one in zip(found.uses, columns, strict=True) if n]
            try:
                lie = [knife.scatter(one, self.cancel) is not None for _, one in runs]
            except Undecided:
                return None
            if all(lie):
                backlog.runs = tuple(runs)
                return True
            contents = [one for one in contents if knife.relaxation.allows(one)]
        return None

    def _needed(self, worth: tuple[int, ...], most: int, sheets: int) -> list[Counts] | None:
        """Return all contents that a plan of so many ``sheets`` can be made of."""
        backlog = self.backlog
        # What is worth nothing must be printed too: one unit each changes no more than that.
        worth = tuple(max(each, 1) for each in worth)
        most += sum(backlog.caps)
        least = max(total(backlog.wanted, worth) - (sheets - 1) * most, 1)
        try:
            near = self.knife.relaxation.dearest(
                worth, backlog.caps, least - 1, _CONTENTS + 1, limit=100 * _CONTENTS
            )
        except TooMany:
            return None
        return [counts for _, counts in near] if len(near) <= _CONTENTS else None
