"""Sheets: the full and the open ones drawn to scale, the pressed ones to settle."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from engine import (
    Cancel,
    PartFull,
    PlanReport,
    PressReport,
    Progress,
    SheetReport,
    SheetsReport,
    SheetState,
    Workshop,
)
from tui.actions import BY_ID, SHEETS, bindings
from tui.cutwords import cut_lines, cuts_summary
from tui.screens.base import Snapshot, WorkScreen, kind_names
from tui.screens.dialogs import Closeup, Report
from tui.screens.fillers import Fillers
from tui.screens.sheetwords import (
    NO_PLAN,
    NO_SHEETS,
    about_words,
    begun,
    label,
    nothing_yet,
    offcut_words,
    percent,
    plan_words,
)
from tui.widgets.sheetmap import SPOILED, Drawn, SheetMap
from tui.widgets.table import Column, Row, Table

PLAN = "plan"
"""The group of the work on the plan."""


@dataclass(frozen=True, slots=True)
class SheetsState(Snapshot):
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


class SheetsScreen(WorkScreen[SheetsState]):
    """The screen on which sheets fill, are pressed and settled."""

    PLACE = SHEETS
    CSS_PATH = "sheets.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(SHEETS)]

    def __init__(self) -> None:
        super().__init__()
        self._spoiled: dict[int, frozenset[int]] = {}
        """Places marked as spoiled, by the number of the sheet."""
        self._place = 0
        """The insert, or the offcut, highlighted on the sheet in hand."""
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
        workshop = self.spinery.workshop
        self.spinery.reckon(
            lambda cancel: self.read(workshop, cancel),
            self.arrived,
            group=self.reading,
            words="Ganging",
        )

    def read(self, workshop: Workshop, cancel: Cancel | None = None) -> SheetsState:
        """Read the sheets. Raises Cancelled."""
        return SheetsState(
            progress=workshop.progress(),
            kinds=kind_names(workshop),
            report=workshop.sheets(cancel=cancel),
            settled=workshop.settled(),
            titles={game.id: game.title for game in workshop.games()},
        )

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
        self._reckon()

    def _reckon(self) -> None:
        """Ask for the plan, which can take seconds; a newer asking or leaving ends an older."""
        workshop = self.spinery.workshop
        self.spinery.reckon(workshop.plan, self._show_plan, group=PLAN, words="Planning")

    def _show_plan(self, plan: PlanReport | None) -> None:
        self.query_one("#plan", Static).update(Content(plan_words(plan)))

    def stopped(self, group: str) -> None:
        """Say what is not known, and how to ask for it again."""
        if group == PLAN:
            self.query_one("#plan", Static).update(Content(NO_PLAN))
        elif group == self.reading:
            self.query_one("#about", Static).update(Content(NO_SHEETS))

    def on_screen_suspend(self) -> None:
        """Reckon no longer when another screen is gone to."""
        self.spinery.workers.cancel_group(self.app, PLAN)

    @property
    def sheet(self) -> SheetReport | None:
        """The sheet in hand: the one under the cursor."""
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
        cutting = self._cutting and sheet.state is not SheetState.SETTLED
        self.query_one("#inserts", Table).display = not cutting
        self.query_one("#cutting").display = cutting
        if not cutting:
            return
        workshop = self.spinery.workshop
        self.query_one("#cuts", Static).update(Content("Working out the cuts…"))
        self.spinery.fetch(
            lambda: workshop.cuts(sheet),
            lambda report: self.query_one("#cuts", Static).update(
                Content("\n".join((f"{cuts_summary(report)}.", *cut_lines(report))))
            ),
            group="cuts",
        )

    def _spoiled_of(self, sheet: SheetReport) -> frozenset[int]:
        return self._spoiled.get(sheet.number or 0, frozenset())

    # --- acting ------------------------------------------------------------------------

    def possible(self, act: str) -> bool:
        """Leave out what the sheet in hand does not allow."""
        report, sheet = self.state.report if self.state else None, self.sheet
        if act == "press":
            return bool(report and report.ready)
        if act == "press_part":
            return bool(report and begun(report))
        return sheet is not None and allows(sheet, act)

    def action_press(self) -> None:
        """Press every full sheet."""
        self._press(part_full=False, fillers=())

    def _press(self, *, part_full: bool, fillers: Sequence[str]) -> None:
        self.spinery.long_deed(
            lambda workshop, cancel: workshop.press(
                part_full=part_full, fillers=fillers, cancel=cancel
            ),
            self._pressed,
            words="Pressing",
        )

    def action_press_part(self) -> None:
        """Press the open sheets too, once the person has heard what they leave."""
        workshop = self.spinery.workshop
        self.spinery.reckon(
            workshop.part_full,
            self._choose_fillers,
            group="fillers",
            words="Filling",
        )

    def _choose_fillers(self, sheets: Sequence[PartFull]) -> None:
        full = len(self.state.report.ready) if self.state else 0

        def chosen(fillers: tuple[str, ...] | None) -> None:
            if fillers is not None:
                self._press(part_full=True, fillers=fillers)

        self.app.push_screen(Fillers(sheets, full), chosen)

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
        self.spinery.deed(lambda workshop: workshop.keep_offcuts(number, sorted(kept)))

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
        """Settle the sheet in hand."""
        sheet = self.sheet
        if sheet is None or sheet.number is None:
            return
        number, spoiled = sheet.number, tuple(n + 1 for n in sorted(self._spoiled_of(sheet)))
        self.spinery.deed(
            lambda workshop: workshop.settle(number, spoiled),
            lambda progress: self._settled(number, len(spoiled), progress),
        )

    def _settled(self, number: int, spoiled: int, progress: Progress) -> None:
        self._spoiled.pop(number, None)
        back = f"; {spoiled} spoiled, they wait again" if spoiled else ""
        lines = (f"Sheet {number} is settled{back}.", *progress.notes)
        self.notify("\n".join(lines), markup=False)

    def action_withdraw(self) -> None:
        """Withdraw the sheet in hand."""
        sheet = self.sheet
        if sheet is None or sheet.number is None:
            return
        number = sheet.number
        self.spinery.deed(
            lambda workshop: workshop.withdraw(number),
            lambda _: self._withdrawn(number),
        )

    def _withdrawn(self, number: int) -> None:
        self._spoiled.pop(number, None)
        undo = BY_ID["undo"].shown
        self.notify(f"Sheet {number} is withdrawn; its inserts wait again. {undo} undoes it.")

    def action_zoom(self) -> None:
        """Show the page of the sheet in hand as large as the screen."""
        sheet, workshop = self.sheet, self.spinery.workshop
        if sheet is None or sheet.number is None:
            return
        number = sheet.number
        self.app.push_screen(
            Closeup(
                f"Sheet {number}",
                lambda then: self.spinery.fetch(
                    lambda: workshop.sheet_proof(number, 100), then, group="closeup"
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
        return not settled
    return sheet.state is SheetState.PRESSED or (settled and act == "zoom")


def insert_rows(
    sheet: SheetReport,
    titles: Sequence[str],
    spoiled: Collection[int],
    kinds: Mapping[str, str],
) -> list[Row]:
    """Return the inserts of a sheet as rows."""
    rows = []
    for place, (placement, title) in enumerate(zip(sheet.placements, titles, strict=True)):
        name = f"{title} (spare)" if placement.spare else title
        sign = f"{SPOILED} {name}" if place in spoiled else name
        case = kinds.get(placement.case, placement.case)
        rows.append(Row(f"{place}", (f"{place + 1}", sign, case)))
    return rows


def offcut_rows(sheet: SheetReport) -> list[Row]:
    """Return the offcuts of a settled sheet as rows."""
    return [
        Row(f"{place}", (f"{offcut.number}", *offcut_words(offcut)))
        for place, offcut in enumerate(sheet.offcuts)
    ]
