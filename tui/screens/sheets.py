"""Sheets: the full and the open ones drawn to scale, the pressed ones to settle."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Static

from engine import Cancel, PlanReport, SheetReport, SheetState, Workshop
from tui.actions import SHEETS, bindings
from tui.screens.base import SNAPSHOT
from tui.screens.dialogs import Closeup
from tui.screens.pressing import SheetsState
from tui.screens.settling import SettlingScreen, allows
from tui.screens.sheetrows import Marks, insert_rows, offcut_rows
from tui.screens.sheetwords import (
    CUT_PAGES,
    JOB,
    about_words,
    begun,
    label,
    no_plan,
    no_sheets,
    nothing_yet,
    percent,
    plan_words,
)
from tui.screens.sheetwork import Work, work_of
from tui.widgets.sheetmap import Drawn, SheetMap
from tui.widgets.steplist import StepList, Walked
from tui.widgets.table import Column, Row, Table

PLAN = "plan"
"""The group of the work on the plan."""


class SheetsScreen(SettlingScreen):
    """The screen on which sheets fill, are pressed and settled."""

    PLACE = SHEETS
    CSS_PATH = "sheets.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(SHEETS)]

    def __init__(self) -> None:
        super().__init__()
        self._every = False
        """Whether all settled sheets are shown, not only the latest."""
        self._plan = plan_words(None)
        """What is said of the plan."""
        self._cutting = False
        """Whether the cut order stands in place of the inserts."""
        self._work: Work | None = None
        """The work on the current sheet, once it is worked out."""
        self._done: dict[int, int] = {}
        """How many steps are done of sheets that are pressed, by their numbers."""

    def body(self) -> ComposeResult:
        """Lay out the list, the map, and what is on the sheet."""
        with Horizontal():
            with Vertical(id="list"):
                yield Table(
                    (Column("Sheets"), Column("Used", 5)),
                    empty="No sheets yet.",
                    id="sheets",
                )
                yield Static(id="plan", classes="note")
            yield SheetMap()
            with Vertical(id="detail"):
                yield Static(id="about")
                yield Table(
                    (Column("", 2), Column("Insert"), Column("Case", 22, least=50)),
                    id="inserts",
                )
                yield StepList(id="cutting")

    def on_mount(self) -> None:
        """Keep the arrow keys with the list of sheets."""
        self.query_one("#inserts", Table).can_focus = False
        self.query_one("#sheets", Table).focus()
        self._show_plan(None)

    # --- what is shown -----------------------------------------------------------------

    def reload(self) -> None:
        """Read a new snapshot, which the ganging can make long; the person may stop it."""
        self.long_fetch(
            self.read,
            self.arrived,
            group=SNAPSHOT,
            words="Ganging",
            stopped=self._not_ganged,
        )

    def _not_ganged(self) -> None:
        self.query_one("#about", Static).update(Content(no_sheets()))

    def read(self, workshop: Workshop, cancel: Cancel | None = None) -> SheetsState:
        """Read the sheets. Raises Cancelled."""
        return SheetsState(
            progress=workshop.progress(),
            kinds=workshop.kinds.names(),
            report=workshop.sheets.report(cancel=cancel),
            settled=workshop.sheets.settled(None) if self._every else workshop.sheets.settled(),
            titles=workshop.games.titles(),
        )

    def follow(self) -> None:
        """Leave ganging and planning alone: no sheet is another before covers are read."""

    def show(self, state: SheetsState) -> None:
        """Show the sheets."""
        rows = [
            Row(row, (label(sheet, row), percent(sheet.used)))
            for row, sheet in state.sheets.items()
        ]
        table = self.query_one("#sheets", Table)
        first = next(iter(state.sheets), None)
        if self.wanted in state.sheets:
            table.show(rows, at=self.wanted)
            self.wanted = None
        else:
            table.show(rows, at=None if table.current in state.sheets else first)
        self.show_sheet()
        self.show_notes()
        self._make_plan()

    def _make_plan(self) -> None:
        """Ask for the plan, which can take seconds; a newer asking or leaving ends an older."""
        self.long_fetch(
            lambda workshop, cancel: workshop.sheets.plan(cancel),
            self._show_plan,
            group=PLAN,
            words="Planning",
            stopped=self._not_planned,
        )

    def _not_planned(self) -> None:
        self._plan = no_plan()
        self.show_notes()

    def _show_plan(self, plan: PlanReport | None) -> None:
        self._plan = plan_words(plan)
        self.show_notes()

    def show_notes(self) -> None:
        """Say what waits beyond these sheets, how they are pressed, and the plan."""
        beyond = self.state.report.beyond if self.state else 0
        lines = [f"{beyond} more {'waits' if beyond == 1 else 'wait'}."] if beyond else []
        if self._cut_pages:
            lines.append(CUT_PAGES)
        if self._job:
            lines.append(JOB)
        self.query_one("#plan", Static).update(Content("\n".join((*lines, self._plan))))

    def go_to_insert(self, place: int) -> None:
        """Put the cursor on an insert of the sheet."""
        self.query_one("#inserts", Table).cursor = place

    @property
    def sheet(self) -> SheetReport | None:
        """The sheet under the cursor."""
        row = self.query_one("#sheets", Table).current
        return self.state.sheets.get(row) if self.state and row else None

    def on_table_highlighted(self, event: Table.Highlighted) -> None:
        """Show the sheet or the insert that the cursor came to."""
        if event.table.id == "sheets":
            self.place = 0
        else:
            self.place = event.table.cursor
        self.show_sheet()

    def show_sheet(self) -> None:
        """Show the sheet under the cursor."""
        sheet, state = self.sheet, self.state
        sheet_map = self.query_one(SheetMap)
        about, inserts = self.query_one("#about", Static), self.query_one("#inserts", Table)
        if sheet is None or state is None:
            sheet_map.drawn = None
            about.update(Content("" if state is None else nothing_yet(state.progress.games)))
            inserts.show(())
            self.refresh_bindings()
            return
        last = len(sheet.offcuts or sheet.placements) - 1
        self.place = min(self.place, max(0, last))
        spoiled, checked = self.spoiled_of(sheet), self.checked_of(sheet)
        titles = tuple(state.titles.get(p.game, p.game) for p in sheet.placements)
        settled = sheet.state is SheetState.SETTLED
        sheet_map.drawn = Drawn(sheet, titles, spoiled, None if settled else self.place, checked)
        about.update(Content(about_words(sheet, state.kinds, len(spoiled), len(checked))))
        if settled and sheet.offcuts:
            rows = offcut_rows(sheet)
        else:
            rows = insert_rows(sheet, titles, Marks(spoiled, checked), state.kinds)
        inserts.show(rows, at=f"{self.place}")
        self._show_cuts(sheet)
        self.refresh_bindings()

    def _show_cuts(self, sheet: SheetReport) -> None:
        """Show the work on a sheet in place of its inserts, once it is worked out."""
        cutting = self._cutting
        self.query_one("#inserts", Table).display = not cutting
        self.query_one("#cutting").display = cutting
        if not cutting:
            self._work = None
            return
        if self._work is not None and self._work.of == sheet:
            self._show_step()
            return
        self._work = None
        self.query_one("#about", Static).update(Content("Working out the cuts…"))
        self.query_one("#cutting", StepList).show(Walked())
        self.fetch(
            lambda workshop: work_of(workshop, sheet, self._done.get(sheet.number or 0, 0)),
            self._take_work,
            group="cuts",
        )

    def _take_work(self, work: Work) -> None:
        if self._cutting and work.of == self.sheet:
            self._work = work
            self._show_step()
            self.refresh_bindings()

    def _show_step(self) -> None:
        """Show how far the work on the sheet is."""
        work = self._work
        if work is None:
            return
        walked = work.walked
        self.query_one("#cutting", StepList).show(walked)
        self.query_one("#about", Static).update(Content(work.words))
        sheet_map = self.query_one(SheetMap)
        if sheet_map.drawn is not None:
            sheet_map.drawn = replace(
                sheet_map.drawn, step=walked.step, checked=walked.freed, at=None
            )

    def _walk(self, by: int) -> None:
        """Go by steps of the work on the sheet."""
        if self._work is not None:
            self._work = self._work.moved(by)
            if self._work.of.number is not None:
                self._done[self._work.of.number] = self._work.walked.at
            self._show_step()
            self.refresh_bindings()

    # --- acting ------------------------------------------------------------------------

    def possible(self, act: str) -> bool:
        """Leave out what the current sheet does not allow."""
        report, sheet = self.state.report if self.state else None, self.sheet
        if act == "press":
            return bool(report and report.ready)
        if act == "press_part":
            return bool(report and (report.beyond or begun(report)))
        if act in {"cut_pages", "job"}:
            return bool(report and (report.ready or report.beyond or begun(report)))
        if act == "every_settled":
            return bool(self.state and self.state.settled)
        if self._cutting and act in {"check", "last_insert", "next_insert", "spoil"}:
            return self._work is not None and self._work.allows(act)
        return sheet is not None and allows(sheet, act)

    def action_every_settled(self) -> None:
        """Show all settled sheets, or only the latest again."""
        self._every = not self._every
        self.reload()

    def action_cuts(self) -> None:
        """Show the work on the sheet in place of its inserts, or the inserts again."""
        self._cutting = not self._cutting
        self.show_sheet()

    def action_last_insert(self) -> None:
        """Go to the insert or the step before."""
        self._move(-1)

    def action_next_insert(self) -> None:
        """Go to the next insert or step."""
        self._move(1)

    def _move(self, by: int) -> None:
        if self._cutting:
            self._walk(by)
        else:
            self.query_one("#inserts", Table).action_move(by)

    def action_check(self) -> None:
        """Check off the step of the work, or the insert, and go to the next."""
        if self._cutting:
            self._walk(1)
        else:
            self.check_off()

    def on_sheet_map_insert_clicked(self, message: SheetMap.InsertClicked) -> None:
        """Go to the insert that was clicked."""
        self.go_to_insert(message.place)

    def action_zoom(self) -> None:
        """Show the page of the current sheet as large as the screen."""
        sheet = self.sheet
        if sheet is None or sheet.number is None:
            return
        number = sheet.number
        self.app.push_screen(
            Closeup(
                f"Sheet {number}",
                lambda then: self.fetch(
                    lambda workshop: workshop.sheets.proof(number), then, group="closeup"
                ),
            )
        )
