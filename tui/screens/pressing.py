"""Pressing: full sheets, and all that waits with what fills it."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from engine import PartFull, PressReport, Printer, SheetReport, SheetsReport
from tui.screens.base import View, WorkScreen
from tui.screens.choosers import Pick
from tui.screens.dialogs import Report
from tui.screens.fillers import Fillers
from tui.screens.sheetwords import all_wasted_words, begun
from tui.widgets.table import Column, Row
from tui.words import printer_words

PRINTING = "print"
"""The group of the work with printers."""
VIEWER = "viewer"
"""The row of the choice that is no printer; those begin with an equals sign."""

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
        self._job = False
        """Whether pressing writes one file of all sheets too."""
        self.wanted: str | None = None
        """The row of a sheet to go to once it is listed."""

    @abstractmethod
    def show_notes(self) -> None:
        """Say how sheets are pressed."""

    def action_press(self) -> None:
        """Press every full sheet."""
        self._press(part_full=False, fillers=())

    def _press(self, *, part_full: bool, fillers: Sequence[str]) -> None:
        cut_pages, job = self._cut_pages, self._job
        self.work.long_change(
            lambda workshop, cancel: workshop.sheets.press(
                part_full=part_full,
                fillers=fillers,
                cut_page=cut_pages,
                job=job,
                cancel=cancel,
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

    def action_job(self) -> None:
        """Write one file of all sheets too, or no longer."""
        self._job = not self._job
        self.show_notes()

    def ask_for_printer(self, number: int) -> None:
        """Let the person choose where a pressed sheet is printed, and print it there."""
        self.fetch(
            lambda workshop: workshop.printing.offered(),
            lambda printers: self._choose_printer(number, printers),
            group=PRINTING,
        )

    def _choose_printer(self, number: int, printers: Sequence[Printer]) -> None:
        rows = [Row(f"={one.name}", (one.name, printer_words(one))) for one in printers]
        rows.append(Row(VIEWER, ("Viewer", "open the page and print it from there")))
        usual = next((f"={one.name}" for one in printers if one.usual), None)
        pick = Pick(f"Print sheet {number}", (Column("", 24), Column("")), rows, at=usual)

        def chosen(row: str | None) -> None:
            if row == VIEWER:
                self.fetch(
                    lambda workshop: workshop.printing.show(number),
                    lambda said: self.notify(said, markup=False),
                    group=PRINTING,
                )
            elif row is not None:
                self._print(number, row.removeprefix("="))

        self.app.push_screen(pick, chosen)

    def _print(self, number: int, printer: str) -> None:
        # It is followed to its end wherever the person goes meanwhile.
        self.work.long_fetch(
            self.app,
            lambda workshop, cancel: workshop.printing.send([number], printer, cancel=cancel),
            lambda _: self.notify(f"Sheet {number} is printed. Measure its check bars."),
            group=f"{PRINTING} {number}",
            words="Printing",
            left=f"Sheet {number} is at the printer, which goes on.",
        )

    def _pressed(self, report: PressReport) -> None:
        self.wanted = next((f"pressed {sheet.number}" for sheet in report.sheets), None)
        files = [sheet.file for sheet in report.sheets if sheet.file]
        by_machine = any(sheet.machine for sheet in report.sheets)
        machine = ("With a file of each for the cutting machine.",) if by_machine else ()
        folders = sorted({str(Path(file).parent) for file in files})
        names = [Path(file).name for file in files]
        job = (f"Job with its ticket: {Path(report.job).name}",) if report.job else ()
        shown = names if len(names) < 4 else [names[0], "…", names[-1]]
        self.app.push_screen(
            Report(
                f"{len(files)} sheets pressed" if len(files) != 1 else "1 sheet pressed",
                (
                    f"In {', '.join(folders)}:",
                    f"{', '.join(shown)}",
                    *job,
                    *machine,
                    "Print at 100 %, without fitting to the page.",
                    *(("", *report.notes) if report.notes else ()),
                ),
            )
        )
