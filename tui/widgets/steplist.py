"""The work on a printed sheet as a list that is walked, a step at a time."""

from __future__ import annotations

from dataclasses import dataclass

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.geometry import Region
from textual.reactive import reactive

from engine import WorkStep
from tui.widgets.flowing import Flowing, hanging

DONE, HERE = "✓", "›"
_NOTE = "!  "


@dataclass(frozen=True, slots=True)
class Walked:
    """The steps of a sheet, and how far the person is."""

    steps: tuple[WorkStep, ...] = ()
    notes: tuple[str, ...] = ()
    """What to mind, told before the steps."""
    at: int = 0
    """So many steps are done."""

    @property
    def step(self) -> WorkStep | None:
        """The step in hand; None where all are done."""
        return self.steps[self.at] if self.at < len(self.steps) else None

    @property
    def freed(self) -> frozenset[int]:
        """The places of the inserts that the steps done have freed."""
        return frozenset(place for step in self.steps[: self.at] for place in step.frees)


class StepLines(Flowing):
    """The lines of the list."""

    walked: reactive[Walked] = reactive(Walked(), layout=True)

    def lines(self, width: int) -> list[Content]:
        """Return what to mind, then the steps, the one in hand set off."""
        return [line for block in self._blocks(width) for line in block]

    def here(self, width: int) -> Region:
        """Return where the step in hand stands."""
        blocks = self._blocks(width)
        at = min(len(blocks) - 1, len(self.walked.notes) + self.walked.at)
        above = sum(map(len, blocks[:at]))
        return Region(0, above, width, len(blocks[at]) if blocks else 0)

    def _blocks(self, width: int) -> list[list[Content]]:
        notes = [
            hanging(Content(_NOTE), Content.from_markup("[$secondary]$note[/]", note=note), width)
            for note in self.walked.notes
        ]
        return [*notes, *(self._step(n, width) for n in range(len(self.walked.steps)))]

    def _step(self, place: int, width: int) -> list[Content]:
        step, at = self.walked.steps[place], self.walked.at
        sign = HERE if place == at else DONE if place < at else " "
        look = "bold" if place == at else "$secondary" if place < at else "$foreground"
        head = Content.from_markup(f"[{look}]$sign $name  [/]", sign=sign, name=f"{step.name:>2}")
        lines = hanging(head, Content.from_markup(f"[{look}]$words[/]", words=step.words), width)
        return (
            lines
            if place >= at
            else [lines[0].truncate(width - 1) + "…" if lines[1:] else lines[0]]
        )


class StepList(VerticalScroll, can_focus=False):
    """The list, which follows the step in hand."""

    def compose(self) -> ComposeResult:
        """Lay out the lines."""
        yield StepLines()

    def show(self, walked: Walked) -> None:
        """Show how far the person is."""
        lines = self.query_one(StepLines)
        lines.walked = walked
        lines.refresh(layout=True)
        self.call_after_refresh(self._follow)

    def on_resize(self) -> None:
        """Keep the step in sight."""
        self._follow()

    def _follow(self) -> None:
        lines = self.query_one(StepLines)
        if lines.walked.at == 0:
            # What to mind is read before the first step.
            self.scroll_home(animate=False)
        elif lines.size.width:
            self.scroll_to_region(lines.here(lines.size.width), animate=False)
