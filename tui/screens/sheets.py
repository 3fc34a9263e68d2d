"""Sheets: the full and the open ones drawn to scale, the pressed ones to settle."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import Static

from engine import PressReport, Progress, SheetReport, SheetsReport, SheetState, Workshop
from tui.actions import BY_ID, SHEETS, bindings
from tui.screens.base import Snapshot, WorkScreen, kind_names
from tui.screens.dialogs import Closeup, Confirm, Report
from tui.widgets.sheetmap import SPOILED, Drawn, SheetMap
from tui.widgets.table import Column, Row, Table

FULL, OPEN, PRESSED = "■", "□", "▣"
"""The signs of a sheet's states, always beside the word."""


@dataclass(frozen=True, slots=True)
class SheetsState(Snapshot):
    """All sheets that are not done with."""

    report: SheetsReport
    titles: Mapping[str, str]
    """Of games, by id."""

    @property
    def sheets(self) -> dict[str, SheetReport]:
        """The sheets by the ids of their rows: pressed ones first, they wait for the person."""
        return {
            **{f"pressed {sheet.number}": sheet for sheet in self.report.pressed},
            **{f"ready {n}": sheet for n, sheet in enumerate(self.report.ready, 1)},
            **{f"open {n}": sheet for n, sheet in enumerate(begun(self.report), 1)},
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
        """The insert highlighted on the sheet in hand."""

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

    def on_mount(self) -> None:
        """Keep the arrow keys with the list of sheets."""
        self.query_one("#inserts", Table).can_focus = False
        self.query_one("#sheets", Table).focus()

    # --- what is shown -----------------------------------------------------------------

    def read(self, workshop: Workshop) -> SheetsState:
        """Read the sheets."""
        return SheetsState(
            progress=workshop.progress(),
            kinds=kind_names(workshop),
            report=workshop.sheets(),
            titles={game.id: game.title for game in workshop.games()},
        )

    def show(self, state: SheetsState) -> None:
        """Show the sheets."""
        rows = [
            Row(row, (label(sheet, row), percent(sheet.used)))
            for row, sheet in state.sheets.items()
        ]
        self.query_one("#sheets", Table).show(rows)
        self.query_one("#plan", Static).update(Content(plan_words(state.report)))
        self._show_sheet()

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
            about.update(Content("" if state is None else nothing_yet(state)))
            inserts.show(())
            self.refresh_bindings()
            return
        self._place = min(self._place, max(0, len(sheet.placements) - 1))
        spoiled = self._spoiled_of(sheet)
        titles = tuple(state.titles.get(p.game, p.game) for p in sheet.placements)
        sheet_map.drawn = Drawn(sheet, titles, spoiled, self._place)
        about.update(Content(about_words(sheet, state, len(spoiled))))
        inserts.show(
            [
                Row(
                    f"{place}",
                    (
                        f"{place + 1}",
                        f"{SPOILED} {title}" if place in spoiled else title,
                        state.kinds.get(placement.case, placement.case),
                    ),
                )
                for place, (placement, title) in enumerate(
                    zip(sheet.placements, titles, strict=True)
                )
            ],
            at=f"{self._place}",
        )
        self.refresh_bindings()

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
        if act in {"last_insert", "next_insert"}:
            return sheet is not None and len(sheet.placements) > 1
        return sheet is not None and sheet.state is SheetState.PRESSED

    def action_press(self) -> None:
        """Press every full sheet."""
        self.spinery.deed(lambda workshop: workshop.press(), self._pressed, words="Pressing")

    def action_press_part(self) -> None:
        """Press the open sheets too, once the person has heard what they leave."""
        if self.state is None:
            return
        report = self.state.report
        lines = [
            f"{len(sheet.placements)} inserts on {sheet.forme.stock.name}: "
            f"{percent(1 - sheet.used)} of the paper stays empty."
            for sheet in begun(report)
        ]
        if report.ready:
            full = len(report.ready)
            are = "full sheet is" if full == 1 else "full sheets are"
            lines.append(f"{full} {are} pressed with it.")

        def chosen(confirmed: object) -> None:
            if confirmed:
                self.spinery.deed(
                    lambda workshop: workshop.press(part_full=True),
                    self._pressed,
                    words="Pressing",
                )

        self.app.push_screen(Confirm("Press part-full", lines, "Press"), chosen)

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


def begun(report: SheetsReport) -> tuple[SheetReport, ...]:
    """Return the open sheets that have an insert on them."""
    return tuple(sheet for sheet in report.open if sheet.placements)


def label(sheet: SheetReport, row: str) -> str:
    """Return what a sheet is called in the list."""
    if sheet.state is SheetState.PRESSED:
        return f"{PRESSED} Pressed {sheet.number}"
    if sheet.state is SheetState.READY:
        return f"{FULL} Full {row.removeprefix('ready ')}"
    return f"{OPEN} Open"


def plan_words(report: SheetsReport) -> str:
    """Return how many sheets are left to press in all."""
    plan = report.plan
    if plan is None:
        return ""
    if not plan.sheets:
        return "Nothing is left to press."
    sheets = f"{plan.sheets} sheets" if plan.sheets != 1 else "1 sheet"
    proof = "proven fewest" if plan.proven else f"at least {plan.bound}"
    return f"{sheets} for all that is left, {proof}."


def nothing_yet(state: SheetsState) -> str:
    """Return why there is no sheet to show."""
    if not state.progress.games:
        return "No games yet."
    return "No finished insert waits for a sheet. Accept games on the Bench."


def about_words(sheet: SheetReport, state: SheetsState, spoiled: int) -> str:
    """Return what there is to say about a sheet."""
    forme = sheet.forme
    lines = [f"{forme.stock.name}, cut with a {forme.rule}, {percent(sheet.used)} used"]
    match sheet.state:
        case SheetState.READY:
            lines.append(f"Full. {BY_ID['press'].shown} presses every full sheet.")
        case SheetState.OPEN:
            lacks = ", ".join(f"{n.count} × {state.kinds.get(n.case, n.case)}" for n in sheet.lacks)
            lines.append(f"Lacks {lacks}." if lacks else "Nothing that is left fits on it.")
        case SheetState.PRESSED:
            when = f"{sheet.pressed_at.astimezone():%d %B %H:%M}" if sheet.pressed_at else ""
            lines.append(f"Pressed {when}: {Path(sheet.file or '').name}")
            spoil, settle = BY_ID["spoil"].shown, BY_ID["settle"].shown
            lines.append(f"{spoil} marks spoiled ({spoiled} {SPOILED}), {settle} settles.")
    return "\n".join(lines)


def percent(part: float) -> str:
    """Return a part of one in percent."""
    return f"{part * 100:.0f} %"
