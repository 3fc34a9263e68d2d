"""Sheets: the full and the open ones drawn to scale, the pressed ones to settle."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from engine import Cancel, PlanReport, SheetReport, SheetState, Workshop
from tui.actions import BY_ID, SHEETS, bindings
from tui.screens.base import SNAPSHOT
from tui.screens.dialogs import Closeup
from tui.screens.pressing import PressingScreen, SheetsState
from tui.screens.sheetrows import insert_rows, offcut_rows
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
from tui.widgets.sheetmap import Drawn, SheetMap
from tui.widgets.table import Column, Row, Table
from tui.words import cut_lines, cuts_summary

PLAN = "plan"
"""The group of the work on the plan."""


class SheetsScreen(PressingScreen):
    """The screen on which sheets fill, are pressed and settled."""

    PLACE = SHEETS
    CSS_PATH = "sheets.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(SHEETS)]

    def __init__(self) -> None:
        super().__init__()
        self._spoiled: dict[int, frozenset[int]] = {}
        """Places marked as spoiled, by the number of the sheet."""
        self._place = 0
        """The insert, or the offcut, highlighted on the current sheet."""
        self._every = False
        """Whether all settled sheets are shown, not only the latest."""
        self._plan = plan_words(None)
        """What is said of the plan."""
        self._cutting = False
        """Whether the cut order stands in place of the inserts."""

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
                with VerticalScroll(id="cutting"):
                    yield Static(id="cuts")

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
            titles={game.id: game.title for game in workshop.games.lines()},
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
        table.show(rows, at=None if table.current in state.sheets else first)
        self._show_sheet()
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

    @property
    def sheet(self) -> SheetReport | None:
        """The sheet under the cursor."""
        row = self.query_one("#sheets", Table).current
        return self.state.sheets.get(row) if self.state and row else None

    def on_table_highlighted(self, event: Table.Highlighted) -> None:
        """Show the sheet or the insert that the cursor came to."""
        if event.table.id == "sheets":
            self._place = 0
        else:
            self._place = event.table.cursor
        self._show_sheet()

    def _show_sheet(self) -> None:
        sheet, state = self.sheet, self.state
        sheet_map = self.query_one(SheetMap)
        about, inserts = self.query_one("#about", Static), self.query_one("#inserts", Table)
        if sheet is None or state is None:
            sheet_map.drawn = None
            about.update(Content("" if state is None else nothing_yet(state.progress.games)))
            inserts.show(())
            self.refresh_bindings()
            return
        last = len(sheet.offcuts if sheet.state is SheetState.SETTLED else sheet.placements) - 1
        self._place = min(self._place, max(0, last))
        spoiled = self._spoiled_of(sheet)
        titles = tuple(state.titles.get(p.game, p.game) for p in sheet.placements)
        settled = sheet.state is SheetState.SETTLED
        sheet_map.drawn = Drawn(sheet, titles, spoiled, None if settled else self._place)
        about.update(Content(about_words(sheet, state.kinds, len(spoiled))))
        rows = offcut_rows(sheet) if settled else insert_rows(sheet, titles, spoiled, state.kinds)
        inserts.show(rows, at=f"{self._place}")
        self._show_cuts(sheet)
        self.refresh_bindings()

    def _show_cuts(self, sheet: SheetReport) -> None:
        cutting = self._cutting
        self.query_one("#inserts", Table).display = not cutting
        self.query_one("#cutting").display = cutting
        if not cutting:
            return
        self.query_one("#cuts", Static).update(Content("Working out the cuts…"))
        self.fetch(
            lambda workshop: workshop.sheets.cuts(sheet),
            lambda report: self.query_one("#cuts", Static).update(
                Content("\n".join((f"{cuts_summary(report)}.", *cut_lines(report))))
            ),
            group="cuts",
        )

    def _spoiled_of(self, sheet: SheetReport) -> frozenset[int]:
        return self._spoiled.get(sheet.number or 0, frozenset())

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
        return sheet is not None and allows(sheet, act)

    def action_every_settled(self) -> None:
        """Show all settled sheets, or only the latest again."""
        self._every = not self._every
        self.reload()

    def action_cuts(self) -> None:
        """Show the cut order in place of the inserts, or the inserts again."""
        self._cutting = not self._cutting
        self._show_sheet()

    def action_keep_offcut(self) -> None:
        """Keep the highlighted offcut, or let it go."""
        sheet = self.sheet
        if sheet is None or sheet.number is None or not sheet.offcuts:
            return
        number = sheet.number
        kept = {one.number for one in sheet.offcuts if one.kept}
        kept ^= {sheet.offcuts[self._place].number}
        self.work.change(lambda workshop: workshop.sheets.keep_offcuts(number, sorted(kept)))

    def action_last_insert(self) -> None:
        """Go to the insert before."""
        self.query_one("#inserts", Table).action_move(-1)

    def action_next_insert(self) -> None:
        """Go to the next insert."""
        self.query_one("#inserts", Table).action_move(1)

    def on_sheet_map_insert_clicked(self, message: SheetMap.InsertClicked) -> None:
        """Go to the insert that was clicked."""
        self.query_one("#inserts", Table).cursor = message.place

    def action_spoil(self) -> None:
        """Mark the insert as spoiled, or as good again."""
        sheet = self.sheet
        if sheet is not None and sheet.number is not None:
            self._spoiled[sheet.number] = self._spoiled_of(sheet) ^ {self._place}
            self._show_sheet()

    def action_settle(self) -> None:
        """Settle the current sheet."""
        sheet = self.sheet
        if sheet is None or sheet.number is None:
            return
        number, spoiled = sheet.number, tuple(n + 1 for n in sorted(self._spoiled_of(sheet)))
        self.work.change(
            lambda workshop: workshop.sheets.settle(number, spoiled),
            lambda notes: self._settled(number, len(spoiled), notes),
        )

    def _settled(self, number: int, spoiled: int, notes: Sequence[str]) -> None:
        self._spoiled.pop(number, None)
        back = f"; {spoiled} spoiled, they wait again" if spoiled else ""
        lines = (f"Sheet {number} is settled{back}.", *notes)
        self.notify("\n".join(lines), markup=False)

    def action_print(self) -> None:
        """Print the current sheet."""
        if self.sheet is not None and self.sheet.number is not None:
            self.ask_for_printer(self.sheet.number)

    def action_withdraw(self) -> None:
        """Withdraw the current sheet."""
        sheet = self.sheet
        if sheet is None or sheet.number is None:
            return
        number = sheet.number
        self.work.change(
            lambda workshop: workshop.sheets.withdraw(number),
            lambda _: self._withdrawn(number),
        )

    def _withdrawn(self, number: int) -> None:
        self._spoiled.pop(number, None)
        undo = BY_ID["undo"].shown
        self.notify(f"Sheet {number} is withdrawn; its inserts wait again. {undo} undoes it.")

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


def allows(sheet: SheetReport, act: str) -> bool:
    """Return whether an action makes sense for a sheet."""
    settled = sheet.state is SheetState.SETTLED
    if act in {"last_insert", "next_insert"}:
        return len(sheet.offcuts if settled else sheet.placements) > 1
    if act == "keep_offcut":
        return settled
    if act == "cuts":
        return True
    return sheet.state is SheetState.PRESSED or (settled and act == "zoom")
