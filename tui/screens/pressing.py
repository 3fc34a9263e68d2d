"""Pressing: full sheets, and all that waits with what fills it."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from engine import PartFull, PressReport, SheetReport, SheetsReport
from tui.screens.base import View, WorkScreen
from tui.screens.dialogs import Report
from tui.screens.fillers import Fillers
from tui.screens.sheetwords import all_wasted_words, begun

FILLING = "fillers"
"""The group of the work on what could fill part-full sheets."""


@dataclass(frozen=True, slots=True)
class SheetsState(View):
    """All sheets that are not done with."""

    report: SheetsReport
    settled: tuple[SheetReport, ...]
    """Settled sheets with offcuts."""
    titles: Mapping[str, str]
    """Of games, by id."""

    @property
    def sheets(self) -> dict[str, SheetReport]:
        """The sheets by the ids of their rows: pressed ones first, they wait for the person."""
        return {
            **{f"pressed {sheet.number}": sheet for sheet in self.report.pressed},
            **{f"ready {n}": sheet for n, sheet in enumerate(self.report.ready, 1)},
            **{f"open {n}": sheet for n, sheet in enumerate(begun(self.report), 1)},
            **{f"settled {sheet.number}": sheet for sheet in self.settled},
        }


class PressingScreen(WorkScreen[SheetsState]):
    """A screen on which sheets are pressed."""

    def __init__(self) -> None:
        super().__init__()
        self._cut_pages = False
        """Whether pressing writes the cut orders on pages too."""

    @abstractmethod
    def show_notes(self) -> None:
        """Say how sheets are pressed."""

    def action_press(self) -> None:
        """Press every full sheet."""
        self._press(part_full=False, fillers=())

    def _press(self, *, part_full: bool, fillers: Sequence[str]) -> None:
        cut_pages = self._cut_pages
        self.work.long_change(
            lambda workshop, cancel: workshop.sheets.press(
                part_full=part_full, fillers=fillers, cut_page=cut_pages, cancel=cancel
            ),
            self._pressed,
            words="Pressing",
        )

    def action_press_part(self) -> None:
        """Press all that waits, once the person has heard what it leaves."""
        found: list[PartFull] = []
        self.long_fetch(
            lambda workshop, cancel: workshop.sheets.part_full(cancel, found.append),
            self._choose_fillers,
            group=FILLING,
            words="Filling",
            stopped=lambda: self._choose_fillers(found, whole=False),
        )

    def _choose_fillers(self, sheets: Sequence[PartFull], *, whole: bool = True) -> None:
        """Say what is pressed, and ask what fills it."""
        waiting = self.state.report.waiting if self.state else 0

        def chosen(fillers: tuple[str, ...] | None) -> None:
            if fillers is not None:
                self._press(part_full=True, fillers=fillers)

        self.app.push_screen(
            Fillers(all_wasted_words(sheets, waiting, whole=whole), sheets), chosen
        )

    def action_cut_pages(self) -> None:
        """Write the cut orders on pages too, or no longer."""
        self._cut_pages = not self._cut_pages
        self.show_notes()

    def _pressed(self, report: PressReport) -> None:
        files = [sheet.file for sheet in report.sheets if sheet.file]
        folders = sorted({str(Path(file).parent) for file in files})
        names = [Path(file).name for file in files]
        shown = names if len(names) < 4 else [names[0], "…", names[-1]]
        self.app.push_screen(
            Report(
                f"{len(files)} sheets pressed" if len(files) != 1 else "1 sheet pressed",
                (
                    f"In {', '.join(folders)}:",
                    f"{', '.join(shown)}",
                    "Print at 100 %, without fitting to the page.",
                    *(("", *report.notes) if report.notes else ()),
                ),
            )
        )
