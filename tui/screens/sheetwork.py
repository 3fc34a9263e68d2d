"""The work on one sheet: its steps, and how far the person is."""

from __future__ import annotations

from dataclasses import dataclass, replace

from engine import CutsReport, SheetReport, Workshop
from tui.actions import BY_ID
from tui.widgets.steplist import Walked
from tui.words import count, cuts_summary, work_words


@dataclass(frozen=True, slots=True)
class Work:
    """The work on a sheet as it is walked."""

    of: SheetReport
    cuts: CutsReport
    walked: Walked

    def moved(self, by: int) -> Work:
        """Return it with more or fewer steps done."""
        at = max(0, min(len(self.walked.steps), self.walked.at + by))
        return replace(self, walked=replace(self.walked, at=at))

    def allows(self, act: str) -> bool:
        """Return whether there is a step to go to that way."""
        if act == "last_insert":
            return self.walked.at > 0
        return act in {"check", "next_insert"} and self.walked.step is not None

    @property
    def words(self) -> str:
        """What is in hand, and how much there is to do in all."""
        step, walked = self.walked.step, self.walked
        whole = f"{cuts_summary(self.cuts)}."
        if step is None:
            return f"All {count(len(walked.steps), 'step')} are done. {whole}"
        here = work_words(step, walked.at, len(walked.steps))
        return f"{here}. {whole} {BY_ID['check'].shown} checks a step off."


def work_of(workshop: Workshop, sheet: SheetReport, done: int) -> Work:
    """Return the work on a sheet of which so many steps are done. Called in a thread."""
    cuts = workshop.sheets.cuts(sheet)
    return Work(sheet, cuts, Walked(workshop.finishing.steps(sheet), cuts.notes, done))
